// Catalogue text in small pieces, so that a test shows only the facts that matter to it.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "fit/judge.hpp"

namespace benchgraft::fit_bench {

/// `defaults` ("key = value, ...") with `changes` laid over: "volts = 12" replaces or adds,
/// "-volts" leaves the key out.
std::string facts(const std::string& defaults, const std::string& changes);

// Contacts that agree with each other: every "out" goes with the "in" of the same name.
inline const std::string kSupplyOut =
    R"(signal = "5 V", class = "supply", domain = "secondary", volts = 5, amps = 2, direction = "out")";
inline const std::string kSupplyIn =
    R"(signal = "5 V", class = "supply", domain = "secondary", volts = [4.5, 5.5], amps = 1, direction = "in")";
inline const std::string kGround =
    R"(signal = "ground", class = "ground", domain = "secondary", direction = "passive")";
inline const std::string kEnableOut =
    R"(signal = "enable", class = "signal", domain = "secondary", direction = "out", drive = "driven", active = "high", idle = "low", logic_volts = 3.3, protocol = "level")";
inline const std::string kEnableIn =
    R"(signal = "enable", class = "signal", domain = "secondary", direction = "in", drive = "driven", active = "high", idle = "low", logic_volts = 3.3, protocol = "level")";
inline const std::string kLitOut =
    R"(signal = "lit", class = "signal", domain = "secondary", direction = "out", drive = "open collector", active = "low", idle = "high", logic_volts = 3.3, protocol = "level")";
inline const std::string kLitIn =
    R"(signal = "lit", class = "signal", domain = "secondary", direction = "in", drive = "open collector", pull_up = true, active = "low", idle = "high", logic_volts = 3.3, protocol = "level", waits_s = 10)";
inline const std::string kBusOut =
    R"(signal = "bus", class = "bus", domain = "primary", volts = 380, amps = 0.6, direction = "out")";
inline const std::string kBusIn =
    R"(signal = "bus", class = "bus", domain = "primary", volts = [350, 400], amps = 0.4, direction = "in")";
inline const std::string kHotGround =
    R"(signal = "hot ground", class = "ground", domain = "primary", direction = "passive")";
inline const std::string kMainsOut =
    R"(signal = "line", class = "mains", domain = "primary", volts = [200, 240], amps = 3, direction = "out")";
inline const std::string kMainsIn =
    R"(signal = "line", class = "mains", domain = "primary", volts = [200, 240], amps = 2, direction = "in")";
inline const std::string kEarth =
    R"(signal = "protective earth", class = "earth", domain = "earth", direction = "passive")";
inline const std::string kDoor =
    R"(signal = "door loop", class = "interlock", domain = "secondary", direction = "passive", drive = "dry contact", idle = "low", protocol = "switch")";
inline const std::string kSensor =
    R"(signal = "sensor", class = "thermal", domain = "secondary", direction = "passive", idle = "low", protocol = "ntc 10k")";
inline const std::string kStringOut =
    R"(signal = "string", class = "light", domain = "secondary", volts = [45, 65], amps = 0.35, direction = "out")";
inline const std::string kStringIn =
    R"(signal = "string", class = "light", domain = "secondary", volts = [50, 60], amps = 0.35, direction = "in")";
inline const std::string kPairOut =
    R"(signal = "data +", class = "pair", domain = "secondary", direction = "out", protocol = "differential video")";
inline const std::string kPairIn =
    R"(signal = "data +", class = "pair", domain = "secondary", direction = "in", protocol = "differential video")";
inline const std::string kUnused = R"(class = "unused")";

// Connector ends that go into each other.
inline const std::string kPlug =
    R"(family = "2.0 mm crimp", pitch_mm = 2.0, ways = 2, gaps = [], half = "plug", key = "latch", one_at = "left")";
inline const std::string kSocket =
    R"(family = "2.0 mm crimp", pitch_mm = 2.0, ways = 2, gaps = [], half = "socket", key = "latch", one_at = "left")";

/// One contact as an inline table.
std::string contact(int n, const std::string& defaults, const std::string& changes = "");
/// A [[part_type.port]]; `contacts` "" = not recorded, "none" = an empty list.
/// `more`: further keys of the port ("carries = \"rails\", lead_mm = 300").
std::string port(const std::string& name, const std::string& to, const std::string& connector,
                 const std::vector<std::string>& contacts,
                 const std::string& more = R"(known = "measured")");
inline const std::vector<std::string> kNotRecorded{"not recorded"};

/// A [[part_type]] whose every fact is recorded and of no account; `changes` as in facts(), `ports`
/// as made by port(). Without ports it has none (an empty list).
std::string part(const std::string& name, const std::string& role, const std::string& changes = "",
                 const std::string& ports = "");

/// A [[model]] of one variant "standard": positions named after the role of what sits in them.
/// `changes` as in facts() over kind "bench set", class II.
std::string model(const std::string& name,
                  const std::vector<std::pair<std::string, std::string>>& parts,
                  const std::string& changes = "", const std::string& more_tables = "");

/// The kind every model() is of: judged, no roles, so that a role is needed when a factory part
/// filled it.
inline const std::string kBenchSet =
    R"([[set_kind]]
set_kind = "bench set"
role = [{ role = "supply" }, { role = "display driver" }, { role = "picture processing" },
  { role = "tuner" }, { role = "sound" }, { role = "lamp" }, { role = "lamp driver" },
  { role = "lamp fan" }, { role = "mains inlet" }, { role = "engine optics" }, { role = "keys", optional = true },
  { role = "cabinet", optional = true }]
)";

/// The rebuild that puts `type` in `place` of the model "Tern 40"; `more` = further TOML.
std::string swap(const std::string& place, const std::string& type,
                 const std::string& from = "elsewhere", const std::string& changes = "");
inline const std::string kHost = "format = 1\nrebuild = \"r\"\nmodel = \"Tern 40\"\n";

/// The catalogue of `body`; a failed test when it does not read.
catalogue::Catalogue catalogue_of(const std::string& body);
catalogue::RebuildText rebuild_of(const std::string& text);
/// Judges the rebuild `kHost + rebuild` against kBenchSet + `body`; a failed test when that fails.
fit::Judgement judged(const std::string& body, const std::string& rebuild,
                      const fit::Conditions& conditions = {});
/// What judge() says when it fails; "" when it does not.
std::string refused(const std::string& body, const std::string& rebuild);

/// A plug on a part that is put in as the "display driver", and the socket of the host's "supply"
/// it goes to.
struct Meeting {
  std::vector<std::string> plug{}, socket{};
  std::string plug_connector = kPlug, socket_connector = kSocket;
  std::string plug_role = "display driver", socket_role = "supply";
  std::string plug_more = R"(known = "measured")", socket_more = R"(known = "measured")";
  std::string plug_facts{}, socket_facts{};  ///< of the part types
  std::string more{};                        ///< further tables of the family
  std::string changes{};                     ///< recorded changes of the part that is put in
};
/// The part types are NEW-1 (the plug "P") and HOST-1 (the socket "S").
fit::Judgement judged(const Meeting& meeting);
/// The text judged(meeting) reads, for tests that go on from there.
std::string body_of(const Meeting& meeting);

/// The only reason of `rule`, or one that says there is none (rule "", verdict fits).
const fit::Reason& reason(const fit::Judgement& judgement, const std::string& rule);
bool has(const fit::Judgement& judgement, const std::string& rule);
/// The reason of `rule` that names `signal`; a failed test's "fits" when there is none.
const fit::Reason& reason_about(const fit::Judgement& judgement, const std::string& rule,
                                const std::string& signal);
bool has_signal(const fit::Judgement& judgement, const std::string& rule,
                const std::string& signal);
/// "over voltage: destroys, two grounds: fits": what a failing test prints.
std::string told(const fit::Judgement& judgement);
/// True when some question holds `words`.
bool asks(const fit::Judgement& judgement, const std::string& words);

}  // namespace benchgraft::fit_bench
