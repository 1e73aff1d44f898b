// size: one family with every key there is, once as structs and once as text
// Every field by hand against every key by hand: a field without a key, or two keys crossed, shows
// here.
#include <gtest/gtest.h>

#include "catalogue/text.hpp"

namespace benchgraft::catalogue {
namespace {

Contact contact() {
  Contact c;
  c.number = "1";
  c.signal = "enable";
  c.net_class = NetClass::signal;
  c.domain = Domain::secondary;
  c.volts = Range{0, 5.5};
  c.amps = 0.02;
  c.direction = Direction::in;
  c.drive = Drive::open_collector;
  c.pull_up = true;
  c.active = Level::low;
  c.idle = Level::high;
  c.logic_volts = 3.3;
  c.hertz = Range{180, 220};
  c.protocol = "pulse";
  c.waits_s = 4;
  c.rail = "5 V";
  c.mark = "S";
  c.colour = "blue";
  c.note = "thin wire";
  return c;
}

const char* const kContact =
    "{n = 1, signal = \"enable\", class = \"signal\", domain = \"secondary\", volts = [0, 5.5], "
    "amps = 0.02, "
    "direction = \"in\", drive = \"open collector\", pull_up = true, active = \"low\", idle = "
    "\"high\", "
    "logic_volts = 3.3, hertz = [180, 220], protocol = \"pulse\", waits_s = 4, rail = \"5 V\", "
    "mark = \"S\", colour = \"blue\", note = \"thin wire\"}";

PartType part_type() {
  PartType t;
  t.name = "LD-20";
  t.revision = "B";
  t.maker = "Ternwerk";
  t.kind = "lamp driver";
  t.roles = {"lamp driver", "supply"};
  t.mount = "four holes 60 x 90";
  t.carries = {{"sheet", "insulating sheet", {"braid"}, {}}};
  t.needs = {{"braid", "earth lead", {"lamp"}, {}}};
  t.rails = {{"5 V", Range{4.9, 5.1}, 2, 0.1, {}}};
  t.wires = {{"CN1", "1", "CN2", "A2", "red", 0.5, {}}};
  t.length_mm = 300;
  t.provides = {"sync"};
  t.stores = {"flip"};
  t.counters = std::vector<Counter>{{"lamp hours", "lamp"}};
  t.fellows = {{"lamp", {"L-1", "L-2"}, "Same power.", true, {}}};
  t.has = {{"segments", {"RGB", "RGBW"}, std::nullopt, {}}};
  t.takes = {{"turns", {}, Range{60, 120}, {}}};
  t.memory_of = {"lamp"};
  t.wipes_memory = false;
  t.sticker = {"Vs"};
  t.service_menu = "Mute, then 1 8 2.";
  t.optics = EngineOptics{true, Mount::inverted, 0.6, 300};
  t.flip_default = Flip{true, true};
  t.lamp_watts = 120;
  t.lamp_volts = Range{60, 90};
  t.mains = MainsSide{
      1.8, true, false, Pole::both, Pole::line, 2.5, FuseStandard::iec_60127, FuseSpeed::slow,
      6.4, 3.2};
  t.shape =
      Shape{std::array<double, 3>{120, 30, 80}, 4, std::vector<std::string>{"a", "b"}, "five wide"};
  t.protection = Protection::class_2;
  t.inlet_wires = 2;
  t.mains_volts = Range{100, 240};
  t.y_nf = 4.7;
  t.fan_radius_mm = 40;
  t.mass_kg = 0.35;
  t.hazards = {"stored charge"};
  t.substances = {"capacitors"};
  t.price = Money{2500};
  t.delivery_days = 5;
  t.salvage = Money{400};
  t.note = "Two lines\nof note";
  Port first;
  first.name = "CN1";
  first.to = "display driver";
  first.carries = "lamp control";
  first.connector = {"2.0 mm crimp", 2,       5,           std::vector<int>{4},
                     Half::plug,     "latch", OneAt::left, RibbonSide::top};
  first.contacts = {contact()};
  first.edge = Edge::bottom;
  first.lead_mm = 250;
  first.known = Source::measured;
  first.note = "beside the coil";
  Port second;
  second.name = "CN2";
  t.ports = {first, second};
  return t;
}

const std::string kPartType = std::string(R"(
[[part_type]]
part_type = "LD-20"
revision = "B"
maker = "Ternwerk"
kind = "lamp driver"
roles = ["lamp driver", "supply"]
mount = "four holes 60 x 90"
carries = [
  {piece = "sheet", kind = "insulating sheet", after = ["braid"]},
]
needs = [
  {piece = "braid", kind = "earth lead", after = ["lamp"]},
]
rail = [
  {rail = "5 V", volts = [4.9, 5.1], amps = 2, least_amps = 0.1},
]
wire = [
  {from = "CN1.1", to = "CN2.A2", colour = "red", area_mm2 = 0.5},
]
length_mm = 300
provides = ["sync"]
stores = ["flip"]
counter = [
  {counter = "lamp hours", speaks_of = "lamp"},
]
fellow = [
  {role = "lamp", types = ["L-1", "L-2"], why = "Same power.", safety = true},
]
has = [
  {trait = "segments", words = ["RGB", "RGBW"]},
]
takes = [
  {trait = "turns", number = [60, 120]},
]
memory_of = ["lamp"]
wipes_memory = false
sticker = ["Vs"]
service_menu = "Mute, then 1 8 2."
optics = {lens = true, mount = "inverted", throw_ratio = 0.6, lumens = 300}
flip_default = "both"
lamp_watts = 120
lamp_volts = [60, 90]
mains = {amps = 1.8, polarised = true, cord_anchored = false, switch_in = "both", fuse_in = "line", fuse_amps = 2.5, fuse_standard = "IEC 60127", fuse_speed = "slow", creepage_mm = 6.4, clearance_mm = 3.2}
shape = {size_mm = [120, 30, 80], under_mm = 4, holes = ["a", "b"], socket_panel = "five wide"}
protection = "II"
inlet_wires = 2
mains_volts = [100, 240]
y_nf = 4.7
fan_radius_mm = 40
mass_kg = 0.35
hazards = ["stored charge"]
substances = ["capacitors"]
price_minor = 2500
delivery_days = 5
salvage_minor = 400
note = """
Two lines
of note"""

[[part_type.port]]
port = "CN1"
to = "display driver"
carries = "lamp control"
connector = {family = "2.0 mm crimp", pitch_mm = 2, ways = 5, gaps = [4], half = "plug", key = "latch", one_at = "left", ribbon_side = "top"}
contacts = [
  )") + kContact + R"(,
]
edge = "bottom"
lead_mm = 250
known = "measured"
note = "beside the coil"

[[part_type.port]]
port = "CN2"
)";

Model model() {
  Model m;
  m.name = "Tern 50";
  m.maker = "Ternwerk";
  m.kind = "rear projection";
  m.protection = Protection::class_1;
  m.mains_volts = Range{230, 230};
  m.provides = {"remote"};
  m.has = {{"inches", {}, Range{50, 50}, {}}};
  m.optics = ModelOptics{1,
                         std::vector<Point>{{0, 0.7, 0.7}},
                         Point{0, 1, 0},
                         Point{0, 0, 1},
                         true,
                         Mount::upright,
                         50.5,
                         700,
                         1100};
  m.mass_kg = 40;
  m.hazards = {"glass"};
  m.prices = {{{"remote"}, "good", Money{12000}}};
  m.links = {{"supply:CN2", "lamp driver:CN1", {}}};
  m.note = "heavy";
  m.positions = {{"driver",
                  {"lamp driver", "supply"},
                  true,
                  std::vector<std::string>{"four holes 60 x 90"},
                  Room{std::array<double, 3>{130, 40, 90}, 6, std::vector<std::string>{"a"},
                       std::vector<std::string>{"five wide"}},
                  {"lamp"},
                  Point{1, 2.5, -3},
                  "behind the door",
                  {}},
                 {"lamp", {"lamp"}, false, std::nullopt, std::nullopt, {}, std::nullopt, "", {}}};
  m.variants = {{"late", {{"driver", "LD-20/B"}}, {"hour meter"}, {"blue door"}, "blue dot", {}}};
  return m;
}

const char* const kModel = R"(
[[model]]
model = "Tern 50"
maker = "Ternwerk"
kind = "rear projection"
protection = "I"
mains_volts = 230
provides = ["remote"]
has = [
  {trait = "inches", number = 50},
]
optics = {fold_mirrors = 1, mirror_normals = [[0, 0.7, 0.7]], beam = [0, 1, 0], beam_up = [0, 0, 1], seen_from_behind = true, mount = "upright", diagonal_in = 50.5, throw_mm = 700, width_mm = 1100}
mass_kg = 40
hazards = ["glass"]
price = [
  {needs = ["remote"], looks = "good", price_minor = 12000},
]
link = [
  {from = "supply:CN2", to = "lamp driver:CN1"},
]
note = "heavy"

[[model.position]]
position = "driver"
roles = ["lamp driver", "supply"]
optional = true
seats = ["four holes 60 x 90"]
room = {size_mm = [130, 40, 90], standoff_mm = 6, standoffs = ["a"], socket_panels = ["five wide"]}
after = ["lamp"]
at_mm = [1, 2.5, -3]
note = "behind the door"

[[model.position]]
position = "lamp"

[[model.variant]]
variant = "late"
provides = ["hour meter"]
signs = ["blue door"]
note = "blue dot"
[model.variant.parts]
"driver" = "LD-20/B"
)";

SwapNote swap_note() {
  return {"n1",
          "Tern 50/late",
          "Tern 42",
          {"LD-20/B"},
          {"MB-7"},
          {{"LD-20/B", "CN1", "MB-7", "P3", PlugResult::would_but_must_not}},
          {{"moved two contacts", "missing reply", 12}},
          {"ferrite"},
          Seen::turned,
          "dim at the left",
          {"tuner"},
          {{"wheel index", "35"}},
          90,
          SwapResult::works_with,
          true,
          false,
          "A. B.",
          "2026-05-31",
          "long job",
          {}};
}

const char* const kSwapNote = R"(
[[swap_note]]
swap_note = "n1"
into = "Tern 50/late"
from = "Tern 42"
moved = ["LD-20/B"]
stayed = ["MB-7"]
plugged = [
  {moved = "LD-20/B:CN1", to = "MB-7:P3", result = "would plug but must not"},
]
did = [
  {what = "moved two contacts", cures = "missing reply", work_minutes = 12},
]
brought = ["ferrite"]
saw = "turned"
saw_also = "dim at the left"
lost = ["tuner"]
found = [
  {setting = "wheel index", value = 35},
]
work_minutes = 90
result = "works with"
parts_known_good = true
came_back = false
by = "A. B."
date = "2026-05-31"
note = "long job"
)";

Family family() {
  Family f;
  f.name = "tern";
  f.note = "all of it";
  f.part_types = {part_type()};
  f.models = {model()};
  f.adaptations = {{"re-pin",
                    {{"missing reply", "LD-20", "CN1", "lit", "lamp driver"}},
                    {"Lift the tab.", "Pull."},
                    10,
                    5,
                    Money{150},
                    "Tab breaks.",
                    {"unplug"},
                    {"new lead"},
                    {"pick"},
                    {"sync"},
                    "slow",
                    {}}};
  f.settings = {{"wheel index",
                 {"colour wheel"},
                 "display driver",
                 "Take the middle.",
                 Range{0, 255},
                 1,
                 "turn",
                 -1.5,
                 10,
                 3,
                 {"flip"},
                 {"keys"},
                 true,
                 "white hides it",
                 {{"red bar",
                   "Pure red.",
                   Response::window,
                   {{"purplish", Meaning::below},
                    {"red", Meaning::good},
                    {"orange", Meaning::above},
                    {"green", Meaning::far_above}},
                   "",
                   Best::unknown,
                   false,
                   std::nullopt,
                   std::nullopt,
                   std::nullopt,
                   std::nullopt,
                   Range{2, 12},
                   "",
                   "common practice",
                   {}},
                  {"green light",
                   "",
                   Response::peak,
                   {},
                   "lux",
                   Best::highest,
                   true,
                   3,
                   0.5,
                   0.05,
                   2,
                   std::nullopt,
                   "index bars",
                   "",
                   {}}},
                 {}}};
  f.notes = {swap_note()};
  f.set_kinds = {
      {"rear projection",
       false,
       "Not our trade.",
       true,
       12,
       11,
       {{"lamp", true, 2, 3, {}}, {"supply", false, std::nullopt, std::nullopt, {"lamp"}}},
       {{"supply", "lamp", "power"}},
       {{"mains", "Pull the plug.", 2, {"supply"}, "common practice"}},
       {{"lamp", "Look at the leads.", 5, 0.3, "assumed"}},
       "generic",
       {}}};
  f.part_kinds = {{"lamp driver", {"lamp driver"}, "hot", {}}};
  f.limits = {{"P 1", "2020", "touch current", Protection::class_2, 0.25, "excerpt", {}}};
  f.traits = {{"segments",
               {"colour wheel"},
               {"display driver"},
               TraitCompare::round,
               "deg",
               TraitVerdict::does_not_fit,
               "Wrong colours.",
               "Turned.",
               "Move both.",
               45,
               true,
               true,
               "Look at the glass.",
               "common practice",
               {}}};
  f.priors = {{"fits", 9, 1, "assumed", {}}};
  return f;
}

const char* const kRest = R"(
[[set_kind]]
set_kind = "rear projection"
judged = false
not_judged = "Not our trade."
rear = true
open_minutes = 12
close_minutes = 11
role = [
  {role = "lamp", optional = true, out_minutes = 2, in_minutes = 3},
  {role = "supply", after = ["lamp"]},
]
link = [
  {from = "supply", to = "lamp", carries = "power"},
]
hazard = [
  {hazard = "mains", caution = "Pull the plug.", waiting_minutes = 2, roles = ["supply"], source = "common practice"},
]
surprise = [
  {changed = "lamp", look = "Look at the leads.", work_minutes = 5, chance = 0.3, source = "assumed"},
]
note = "generic"

[[part_kind]]
part_kind = "lamp driver"
usual_roles = ["lamp driver"]
note = "hot"

[[touch_limit]]
profile = "P 1"
edition = "2020"
test = "touch current"
protection = "II"
milliamps = 0.25
source = "excerpt"

[[trait]]
trait = "segments"
of = ["colour wheel"]
taken_by = ["display driver"]
compare = "round"
unit = "deg"
verdict = "does_not_fit"
says = "Wrong colours."
turned = "Turned."
mend = "Move both."
work_minutes = 45
safety = true
ask = true
how = "Look at the glass."
source = "common practice"

[[prior]]
prior = "fits"
worked = 9
failed = 1
source = "assumed"
)";

const char* const kKnowledge = R"(
[[adaptation]]
adaptation = "re-pin"
cures = [
  {rule = "missing reply", type = "LD-20", port = "CN1", signal = "lit", role = "lamp driver"},
]
steps = ["Lift the tab.", "Pull."]
work_minutes = 10
waiting_minutes = 5
material_minor = 150
risk = "Tab breaks."
needs = ["unplug"]
excludes = ["new lead"]
brings = ["pick"]
lost = ["sync"]
note = "slow"

[[setting]]
setting = "wheel index"
depends_on = ["colour wheel"]
stored_in = "display driver"
found_by = "Take the middle."
range = [0, 255]
step = 1
unit = "turn"
degrees_per_step = -1.5
work_minutes = 10
waiting_minutes = 3
after = ["flip"]
reached_with = ["keys"]
flip = true
note = "white hides it"

[[setting.observer]]
observer = "red bar"
shows = "Pure red."
response = "window"
words = [
  {word = "purplish", means = "below"},
  {word = "red", means = "good"},
  {word = "orange", means = "above"},
  {word = "green", means = "far above"},
]
usual_width = [2, 12]
source = "common practice"

[[setting.observer]]
observer = "green light"
response = "peak"
unit = "lux"
best = "highest"
uneven = true
wanted = 3
error = 0.5
error_share = 0.05
tolerance = 2
pattern = "index bars"
)";

TEST(EveryKey, of_a_family_has_its_field) {
  const std::string text = "format = 1\nfamily = \"tern\"\nnote = \"all of it\"\n" + kPartType +
                           kModel + kKnowledge + kSwapNote + kRest;
  EXPECT_EQ(write_family(family()), text);
  const auto read = read_family(text, "tern.toml");
  ASSERT_TRUE(read.ok()) << read.error().message;
  EXPECT_EQ(read.value(), family());
}

TEST(EveryKey, of_a_swap_note_file_has_its_field) {
  const std::string text = std::string("format = 1\n") + kSwapNote;
  EXPECT_EQ(write_swap_note(swap_note()), text);
  const auto read = read_swap_note(text, "n.toml");
  ASSERT_TRUE(read.ok()) << read.error().message;
  EXPECT_EQ(read.value(), swap_note());
}

RebuildText rebuild() {
  RebuildText r;
  r.name = "for the school";
  r.model = "Tern 50";
  r.kind = "rear projection";
  r.variant = "late";
  r.missing = {"remote control"};
  r.note = "by Friday";
  r.parts = {{"driver", "LD-20/B", {}, "K7R", {}, 1200, true, {}},
             {"supply", "", {"PS-1", "PS-2"}, "", {}, {}, {}, {}}};
  r.parts[0].changes = {{ChangeSort::contact_added,
                         "CN1",
                         "2",
                         "3",
                         "braid",
                         "earth lead",
                         "flip",
                         contact(),
                         TraitValue{"segments", {"RGB"}, std::nullopt, {}},
                         250,
                         "neat",
                         {}}};
  r.seen.resize(2);
  r.seen[0].place = "lamp";
  r.seen[0].type = "L-1";
  r.seen[0].revision = "C";
  r.seen[0].ports = {"W1"};
  r.seen[0].without_ports = {"W2"};
  r.seen[1].place = "cabinet";
  r.seen[1].empty = true;
  r.seen[1].can = {"hour meter"};
  r.seen[1].cannot = {"tuner"};
  r.seen[1].signs = {"blue dot"};
  return r;
}

TEST(EveryKey, of_a_rebuild_has_its_field) {
  const std::string text =
      std::string(R"(format = 1
rebuild = "for the school"
model = "Tern 50"
kind = "rear projection"
variant = "late"
missing = ["remote control"]
note = "by Friday"

[[part]]
place = "driver"
type = "LD-20/B"
from = "K7R"
run_hours = 1200
known_good = true
change = [
  {change = "contact added", port = "CN1", from = 2, to = 3, piece = "braid", piece_kind = "earth lead", setting = "flip", contact = )") +
      kContact + R"(, now = {trait = "segments", words = ["RGB"]}, lead_mm = 250, note = "neat"},
]

[[part]]
place = "supply"
candidates = ["PS-1", "PS-2"]

[[seen]]
place = "lamp"
type = "L-1"
revision = "C"
ports = ["W1"]
without_ports = ["W2"]

[[seen]]
place = "cabinet"
empty = true
can = ["hour meter"]
cannot = ["tuner"]
signs = ["blue dot"]
)";
  EXPECT_EQ(write_rebuild(rebuild()), text);
  const auto read = read_rebuild(text, "r.toml");
  ASSERT_TRUE(read.ok()) << read.error().message;
  EXPECT_EQ(read.value(), rebuild());
}

}  // namespace
}  // namespace benchgraft::catalogue
