// The one sentence that decides: change any fact near the changed parts of the demo's first
// rebuild, and the judgement changes. What stays silent is listed with the reason why it may.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/text.hpp"
#include "fit/judge.hpp"
#include "support/fit_facts.hpp"
#include "support/fit_pattern.hpp"

namespace benchgraft::fit {
namespace {

using fit_facts::Walk;

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<catalogue::Family> demo_families() {
  std::vector<std::filesystem::path> files;
  for (const std::string folder : {"/data/kinds", "/data/limits", "/data/demo/catalogue"})
    for (const auto& entry : std::filesystem::directory_iterator(BENCHGRAFT_SOURCE_DIR + folder))
      if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<catalogue::Family> families;
  for (const auto& file : files) {
    auto family = catalogue::read_family(text_of(file), file.filename().string());
    EXPECT_TRUE(family.ok()) << family.error().message;
    if (family) families.push_back(std::move(family).value());
  }
  return families;
}

/// Everything a judgement says, as one text.
std::string whole(const Judgement& j) {
  std::string text = to_text(j.verdict);
  for (const auto& one : j.reasons) {
    text += fmt::format("\n{} {} {} {} {} {}", one.rule, to_text(one.before), to_text(one.verdict),
                        to_text(one.source), one.safety, one.says);
    for (const auto& fact : one.facts) text += "|" + fact.text;
  }
  for (const auto& one : j.questions) text += "\n? " + one.text;
  for (const auto& one : j.companions) text += "\n+ " + one.what + one.from + one.why;
  for (const auto& one : j.settings) text += "\ns " + one.name + one.action + one.predicted;
  for (const auto& one : j.counters) text += "\nc " + one.says;
  for (const auto& one : j.adaptations) text += "\na " + one.name;
  for (const auto& one : j.lost) text += "\n- " + one;
  for (const auto& one : j.gained) text += "\n> " + one;
  for (const auto& one : j.repins)
    for (const auto& move : one.moves) text += "\nr " + move.signal + move.from + move.to;
  for (const auto& one : j.links)
    text += "\nl " + one.from_port + one.to_port + one.lead + to_text(one.verdict);
  return text + j.orientation.says + std::to_string(j.material.minor);
}

struct Demo {
  std::vector<catalogue::Family> families = demo_families();
  catalogue::RebuildText rebuild;
  Judgement judgement;
  std::string before;

  Demo() {
    const std::string file = "/data/demo/rebuilds/first.toml";
    auto read = catalogue::read_rebuild(text_of(BENCHGRAFT_SOURCE_DIR + file), file);
    EXPECT_TRUE(read.ok()) << read.error().message;
    rebuild = std::move(read).value();
    before = said(families, &judgement);
  }

  /// What is said with these families; why they do not hold together any more.
  std::string said(const std::vector<catalogue::Family>& all, Judgement* out = nullptr) const {
    auto known = catalogue::Catalogue::from_families(all);
    if (!known) return "refused: " + known.error().message;
    auto answer = judge(known.value(), rebuild);
    if (!answer) return "refused: " + answer.error().message;
    if (out) *out = answer.value();
    return whole(answer.value());
  }

  /// Ports ("TYPE:PORT") at both ends of every link the rebuild touches, and the types that are
  /// new in the set or at one end of such a link.
  [[nodiscard]] std::set<std::string> near_ports() const {
    std::set<std::string> near;
    for (const auto& link : judgement.links)
      if (link.touched) {
        near.insert(link.from_type + ":" + link.from_port);
        near.insert(link.to_type + ":" + link.to_port);
      }
    return near;
  }
  [[nodiscard]] std::set<std::string> near_types() const {
    std::set<std::string> near;
    for (const auto& seat : judgement.seats)
      if (seat.changed) near.insert({seat.type, seat.was});
    for (const auto& link : judgement.links)
      if (link.touched) near.insert({link.from_type, link.to_type, link.lead});
    return near;
  }
};

/// "QE-30/A port PWR: contacts[0].volts" with indexes left out, or "QE-30/A: mount"; "" for a port
/// that is not near.
std::string called(const catalogue::PartType& type, const std::string& path,
                   const std::set<std::string>& near_ports) {
  const auto of_port = fit_pattern::match(path, R"(port\[([0-9]+)\]\.(.*))");
  if (of_port.empty()) return type.reference() + ": " + path;
  const auto& port = (*type.ports)[std::stoul(of_port[1])];
  if (near_ports.count(type.reference() + ":" + port.name) == 0) return "";
  const std::string start = type.reference() + " " + port.name + ": ";
  const auto of_contact = fit_pattern::match(of_port[2], R"(contacts\[([0-9]+)\]\.(.*))");
  if (of_contact.empty()) return start + of_port[2];
  const auto& contact = (*port.contacts)[std::stoul(of_contact[1])];
  return start + std::string(catalogue::word_of(catalogue::kNetClassWords, contact.net_class)) +
         " " + std::string(catalogue::word_of(catalogue::kDirectionWords, contact.direction)) +
         (contact.drive == catalogue::Drive::open_collector ? " pulling " : " ") + of_contact[2];
}

/// Facts near the changed parts that may be raised or lowered, or become another word, without a
/// word being said.
std::set<std::string> silent_facts(const Demo& demo, std::size_t& tried) {
  std::set<std::string> silent;
  const auto types = demo.near_types();
  const auto ports = demo.near_ports();
  for (std::size_t f = 0; f < demo.families.size(); ++f)
    for (std::size_t t = 0; t < demo.families[f].part_types.size(); ++t) {
      const auto& type = demo.families[f].part_types[t];
      if (types.count(type.reference()) == 0) continue;
      const std::size_t facts = fit_facts::count(Walk::What::change, type);
      for (std::size_t fact = 0; fact < facts; ++fact) {
        bool quiet = true;
        std::string path;
        for (const auto what : {Walk::What::change, Walk::What::lower}) {
          auto families = demo.families;
          families[f].part_types[t] = fit_facts::with(what, type, fact, path);
          quiet = quiet && demo.said(families) == demo.before;
        }
        const std::string name = called(type, path, ports);
        if (name.empty()) continue;
        ++tried;
        if (quiet) silent.insert(name);
      }
    }
  return silent;
}

struct MayBeSilent {
  const char* pattern;
  const char* because;
};

TEST(OneSentence, every_fact_near_the_changed_parts_matters_or_is_listed_here) {
  // Regular expressions over "TYPE: key" and "TYPE PORT: class direction key".
  const MayBeSilent all[] = {
      // what no rule of fit reads
      {".*: (maker|mass_kg|note|delivery_days|salvage_minor|substances\\[[0-9]\\])",
       "it is for buying, weighing and sending on"},
      {"(CW-802|FL-20|HD-20/A|HS-20/B|QM-20/C): price_minor", "nothing is bought of it"},
      {".*: (note|known)", "a remark; measured and verified are worth the same here"},
      {"WL-24: wire\\[[0-9]\\]\\.(colour|area_mm2)",
       "a colour proves nothing, and the lead is the host's own"},
      {"QE-.0/.: optics\\.lumens", "brightness is told by the two screens, not by lumens"},
      // labels
      {".*: ground passive (signal|direction)", "ground is ground within one domain"},
      {".*: supply (in|out) signal", "a rail is known by its volts; the name is a label"},
      {".*: ignition (in|out) signal", "the two lamp wires are alike"},
      {".*LAMP: connector\\.one_at", "the two lamp wires are alike"},
      // facts that another fact makes idle
      {".*: ignition (in|out) amps", "lamp power decides what flows, not the lead"},
      {".*CTL: signal (in|out) pulling logic_volts",
       "an open collector takes the level of what pulls it up"},
      {"QE-30/A CTL: signal in pulling waits_s", "the reply is given, however long it would wait"},
      {"QE-30/A FAN: signal in pulling (idle|pull_up)", "nothing is joined there: missing reply"},
      {"Q.*PIC: signal both pulling direction", "whoever drives a pulled line, the other may pull"},
      {"HS-20/B: rail\\[[0-9]\\]\\.volts", "the volts of the contacts are judged"},
      {"HS-20/B: rail\\[3\\]\\.least_amps", "far less than what is drawn"},
      {"QE-30/A: flip_default", "the set its memory comes from says it more surely"},
      {"QE-30/A: optics\\.throw_ratio", "the throw of the cabinet is not recorded, so it is asked"},
      {"Q.*: stores\\[[0-9]\\]", "the role that stores the setting names the same part"},
      {"W.*: wire\\[(0|1|3|6|9|12|15|19)\\]\\.(from|to)",
       "one ground wire of several: the others bring the current back"},
      // what the work does not touch
      {"HS-20/B: rail\\[(0|1|4)\\]\\.(rail|amps)", "no changed part hangs on that rail"},
      {"(CW-802|FL-20|HD-20/A|HS-20/B|QE-20/B|QM-20/C|WL-24|WR-20): mount",
       "it stays in its place, or it comes out"},
      {"(WL-24|WR-20): (length_mm|roles\\[0\\])", "the host's own lead between the same places"},
      {"(CW-802 LEAD|HD-20/A LAMP): lead_mm", "the host's own lead between the same places"},
      {"FL-20: lamp_(watts|volts)", "the old lamp comes out"},
      {"QE-20/B: (flip_default|optics\\.(lens|mount|throw_ratio)|fellow\\[0\\]\\.(why|safety))",
       "the old engine comes out, and the flips come with the new one"},
      {"(HD-20/A: (protection|y_nf)|HS-20/B: (mains_volts|y_nf))",
       "the host's own supply and driver stay: no capacitor is added, no mains changed"},
      {"(HS-20/B|QM-20/C): carries\\[0\\]\\.(piece|kind)", "a piece of a part that stays"},
      {"QE-30/A: carries\\[0\\]\\.(piece|kind)", "a piece nobody else needs"},
      {"QM-20/C: (provides\\[[0-9]\\]|roles\\[1\\]|fellow\\[0\\]\\.(why|safety))",
       "the main board stays with its fellow"},
  };
  const Demo demo;
  std::size_t tried = 0;
  const auto silent = silent_facts(demo, tried);
  EXPECT_GT(tried, 500U);
  std::set<std::string> used;
  for (const auto& fact : silent) {
    bool listed = false;
    for (const auto& may : all)
      if (!fit_pattern::match(fact, may.pattern).empty()) {
        listed = true;
        used.insert(may.pattern);
      }
    EXPECT_TRUE(listed) << fact << " may be changed without a word";
  }
  for (const auto& may : all)
    EXPECT_EQ(used.count(may.pattern), 1U) << may.pattern << " is silent no longer: take it out";
}

}  // namespace
}  // namespace benchgraft::fit
