#include <gmock/gmock.h>

#include "faults_told.hpp"

namespace benchgraft::catalogue {
namespace {

using ::testing::HasSubstr;

// A part type with a port; `contact` stands in line 11.
std::string with_contact(const std::string& contact) {
  return R"(
[[part_type]]
part_type = "LD-20"
kind = "lamp driver"
roles = ["lamp driver"]
[[part_type.port]]
port = "CN1"
contacts = [
)" + contact +
         "\n]\n";
}

std::string with_part_type(const std::string& lines) {
  return "[[part_type]]\npart_type = \"LD-20\"\nkind = \"lamp driver\"\nroles = [\"lamp "
         "driver\"]\n" +
         lines;
}

TEST(Loader, reads_the_least_a_part_type_needs) {
  const Family family = family_of(with_part_type(""));
  ASSERT_EQ(family.part_types.size(), 1U);
  const PartType& type = family.part_types[0];
  EXPECT_EQ(type.reference(), "LD-20");
  EXPECT_FALSE(type.ports.has_value()) << "a missing key means unknown";
  EXPECT_FALSE(type.carries.has_value());
  EXPECT_FALSE(type.mass_kg.has_value());
}

TEST(Loader, keeps_known_to_be_none_apart_from_unknown) {
  const PartType type = family_of(with_part_type("port = []\ncarries = []\n")).part_types[0];
  ASSERT_TRUE(type.ports.has_value());
  EXPECT_TRUE(type.ports->empty());
  ASSERT_TRUE(type.carries.has_value());
  EXPECT_TRUE(type.carries->empty());
  EXPECT_FALSE(type.needs.has_value());
}

TEST(Loader, reads_a_contact_and_remembers_its_line) {
  const Family family =
      family_of(with_contact("{n = 1, signal = \"enable\", class = \"signal\", domain = "
                             "\"secondary\", volts = [0, 5.25], amps = 0.01, "
                             "direction = \"in\", drive = \"open collector\", pull_up = false, "
                             "active = \"low\", waits_s = 4},"));
  const Contact& contact = (*(*family.part_types[0].ports)[0].contacts)[0];
  EXPECT_EQ(contact.number, "1");
  EXPECT_EQ(contact.net_class, NetClass::signal);
  EXPECT_EQ(contact.domain, Domain::secondary);
  EXPECT_EQ(contact.volts, (Range{0, 5.25}));
  EXPECT_EQ(contact.direction, Direction::in);
  EXPECT_EQ(contact.drive, Drive::open_collector);
  EXPECT_EQ(contact.pull_up, false);
  EXPECT_EQ(contact.active, Level::low);
  EXPECT_EQ(contact.idle, Level::unknown);
  EXPECT_EQ(contact.waits_s, 4.0);
  EXPECT_EQ(contact.where.file, "tern.toml");
  EXPECT_EQ(contact.where.line, 11);
}

TEST(Loader, takes_a_single_number_as_both_ends_of_a_range) {
  const Family family = family_of(with_contact("{n = \"A3\", volts = 5},"));
  const Contact& contact = (*(*family.part_types[0].ports)[0].contacts)[0];
  EXPECT_EQ(contact.number, "A3");
  EXPECT_EQ(contact.volts, (Range{5, 5}));
}

TEST(Loader, gives_a_position_its_own_name_as_role) {
  const Family family = family_of(
      "[[model]]\nmodel = \"M\"\nkind = \"K\"\n[[model.position]]\nposition = \"lamp\"\n"
      "[[model.position]]\nposition = \"box\"\nroles = [\"tuner\", \"sound\"]\n");
  EXPECT_EQ(family.models[0].positions[0].roles, std::vector<std::string>{"lamp"});
  EXPECT_EQ(family.models[0].positions[1].roles, (std::vector<std::string>{"tuner", "sound"}));
}

TEST(Loader, takes_a_date_with_or_without_quotes) {
  for (const char* date : {"2026-05-31", "\"2026-05-31\""}) {
    const Family family =
        family_of(std::string("[[swap_note]]\nswap_note = \"a\"\ninto = \"M\"\nresult = \"works\"\n"
                              "date = ") +
                  date + "\n");
    EXPECT_EQ(family.notes[0].date, "2026-05-31");
  }
}

TEST(Loader, splits_what_was_plugged_into_part_type_and_port) {
  const Family family = family_of(
      "[[swap_note]]\nswap_note = \"a\"\ninto = \"M/late\"\nresult = \"works with\"\n"
      "plugged = [{moved = \"LD-20/B:CN1\", to = \"MB-7\", result = \"would plug but must not\"}]\n"
      "found = [{setting = \"wheel index\", value = 35}]\n");
  const SwapNote& note = family.notes[0];
  EXPECT_EQ(note.plugged[0].moved, "LD-20/B");
  EXPECT_EQ(note.plugged[0].port, "CN1");
  EXPECT_EQ(note.plugged[0].to, "MB-7");
  EXPECT_EQ(note.plugged[0].socket, "") << "a port nobody wrote down is unknown";
  EXPECT_EQ(note.plugged[0].result, PlugResult::would_but_must_not);
  EXPECT_EQ(note.found[0].value, "35");
  EXPECT_FALSE(note.came_back.has_value());
}

TEST(Loader, names_the_nearest_right_key_for_an_unknown_one) {
  EXPECT_EQ(told(with_contact("{n = 1, amsp = 2},")),
            "tern.toml, line 11: \"amsp\" is not a key of a contact; did you mean \"amps\"?");
}

TEST(Loader, lists_the_keys_when_none_is_near) {
  EXPECT_EQ(told("[[part_kind]]\npart_kind = \"lamp\"\ncolour = \"red\"\n"),
            "tern.toml, line 5: \"colour\" is not a key of a part kind; its keys are part_kind, "
            "usual_roles and note.");
}

TEST(Loader, tells_an_unknown_key_before_the_missing_one_it_was_meant_to_be) {
  EXPECT_EQ(told("[[part_type]]\npart_type = \"A\"\nknid = \"lamp\"\nroles = [\"lamp\"]\n"),
            "tern.toml, line 5: \"knid\" is not a key of a part type; did you mean \"kind\"?");
}

TEST(Loader, says_which_thing_lacks_a_key_it_must_have) {
  EXPECT_EQ(told("[[part_type]]\npart_type = \"LD-20\"\nroles = [\"lamp driver\"]\n"),
            "tern.toml, line 3: a part type (part_type = \"LD-20\") has no \"kind\"; add it.");
  EXPECT_EQ(told("[[model]]\nmodel = \"M\"\n"),
            "tern.toml, line 3: a model (model = \"M\") has no \"kind\"; add it.");
  EXPECT_EQ(told("[[part_type]]\npart_type = \"LD-20\"\nkind = \"lamp\"\n"),
            "tern.toml, line 3: a part type (part_type = \"LD-20\") has no \"roles\"; add it.");
  EXPECT_EQ(told(with_part_type("roles2 = 1\n")),
            "tern.toml, line 7: \"roles2\" is not a key of a part type; did you mean \"roles\"?");
}

TEST(Loader, shows_a_value_of_the_wrong_type_and_what_it_must_be) {
  EXPECT_EQ(told(with_contact("{n = 1, volts = \"five\"},")),
            "tern.toml, line 11: volts = \"five\" must be a number or a pair [low, high].");
  EXPECT_EQ(told(with_contact("{n = 1, volts = [1, 2, 3]},")),
            "tern.toml, line 11: volts = [1, 2, 3] must be a number or a pair [low, high].");
  EXPECT_EQ(told(with_part_type("mass_kg = true\n")),
            "tern.toml, line 7: mass_kg = true must be a number.");
  EXPECT_EQ(told(with_part_type("maker = 7\n")),
            "tern.toml, line 7: maker = 7 must be text in quotes.");
  EXPECT_EQ(
      told(with_part_type("stores = \"flip\"\n")),
      "tern.toml, line 7: stores = \"flip\" must be a list [ ... ], also when it has one entry.");
  EXPECT_EQ(told(with_part_type("optics = \"big\"\n")),
            "tern.toml, line 7: optics = \"big\" must be a table { key = value, ... }.");
  EXPECT_EQ(told(with_part_type("optics = {lens = 1}\n")),
            "tern.toml, line 7: lens = 1 must be true or false.");
  EXPECT_EQ(told(with_part_type("price_minor = 12.5\n")),
            "tern.toml, line 7: price_minor = 12.5 must be a whole number of the smallest coin "
            "(1250 for 12.50).");
  EXPECT_EQ(told(with_part_type("delivery_days = 1.5\n")),
            "tern.toml, line 7: delivery_days = 1.5 must be a whole number.");
  EXPECT_EQ(told("note = 10:30:00\n"),
            "tern.toml, line 3: note = (a time) must be text in quotes.");
}

TEST(Loader, names_the_allowed_words_and_the_nearest) {
  EXPECT_EQ(told(with_contact("{n = 1, direction = \"inn\"},")),
            "tern.toml, line 11: direction = \"inn\" must be one of in, out, both and passive; did "
            "you mean \"in\"?");
  EXPECT_EQ(
      told(with_part_type("protection = \"III\"\n")),
      "tern.toml, line 7: protection = \"III\" must be one of I and II; did you mean \"II\"?");
  EXPECT_EQ(told(with_part_type("flip_default = true\n")),
            "tern.toml, line 7: flip_default = true must be one of none, left-right, upside-down "
            "and both.");
  EXPECT_THAT(told("[[model]]\nmodel = \"M\"\nkind = \"K\"\nprice = [{looks = \"fine\", "
                   "price_minor = 1}]\n"),
              HasSubstr("looks = \"fine\" must be one of good, fair and poor"));
}

TEST(Loader, refuses_numbers_that_cannot_be) {
  EXPECT_EQ(told(with_part_type("price_minor = -1\n")),
            "tern.toml, line 7: price_minor = -1 must not be negative.");
  EXPECT_EQ(told(with_part_type("length_mm = -3\n")),
            "tern.toml, line 7: length_mm = -3 must not be negative.");
  EXPECT_EQ(told(with_part_type("mass_kg = nan\n")),
            "tern.toml, line 7: mass_kg = nan must be a number.");
  EXPECT_EQ(told(with_part_type("mass_kg = inf\n")),
            "tern.toml, line 7: mass_kg = inf must be a number.");
  EXPECT_EQ(told(with_part_type("lamp_volts = [-inf, 1]\n")),
            "tern.toml, line 7: lamp_volts = [-inf, 1] must be a number or a pair [low, high].");
  EXPECT_EQ(told(with_part_type("inlet_wires = 4\n")),
            "tern.toml, line 7: inlet_wires = 4 must lie between 2 and 3.");
  EXPECT_EQ(told(with_part_type("fan_radius_mm = 0\n")),
            "tern.toml, line 7: fan_radius_mm = 0 must be more than 0.");
  EXPECT_EQ(told("[[set_kind]]\nset_kind = \"K\"\nsurprise = [{changed = \"lamp\", look = \"x\", "
                 "chance = 1.5}]\n"),
            "tern.toml, line 5: chance = 1.5 must lie between 0 and 1.");
  EXPECT_EQ(told("[[setting]]\nsetting = \"s\"\nwork_minutes = -5\n"),
            "tern.toml, line 5: work_minutes = -5 must not be negative.");
  EXPECT_EQ(
      told(with_contact("{n = 1, volts = [5, 3]},")),
      "tern.toml, line 11: volts = [5, 3] has its low end above its high end; turn them round.");
}

TEST(Loader, allows_a_rail_below_ground) {
  EXPECT_EQ(told(with_contact("{n = 1, volts = [-7.5, -6]},")), "");
}

TEST(Loader, refuses_names_that_are_empty_or_hide_blanks) {
  EXPECT_EQ(told("[[part_type]]\npart_type = \"\"\nkind = \"lamp\"\nroles = [\"lamp\"]\n"),
            "tern.toml, line 4: part_type = \"\" must not be empty.");
  EXPECT_EQ(told(with_part_type("stores = [\"flip \"]\n")),
            "tern.toml, line 7: stores = \"flip \" must be a name without blanks at its ends and "
            "without line breaks.");
  EXPECT_EQ(told("[[part_type]]\npart_type = \"A\"\nkind = \"lamp\"\nroles = []\n"),
            "tern.toml, line 6: roles = [] must name at least one.");
}

TEST(Loader, wants_a_format_and_a_family) {
  const auto no_format = read_family("family = \"x\"\n", "x.toml");
  ASSERT_FALSE(no_format.ok());
  EXPECT_EQ(no_format.error().message,
            "x.toml, line 1: \"format\" is missing; write format = 1 as the first line.");
  const auto no_family = read_family("format = 1\n", "x.toml");
  ASSERT_FALSE(no_family.ok());
  EXPECT_EQ(no_family.error().message, "x.toml, line 1: a family file has no \"family\"; add it.");
  const auto path = read_family("format = 1\nfamily = \"../x\"\n", "x.toml");
  ASSERT_FALSE(path.ok());
  EXPECT_THAT(path.error().message, HasSubstr("cannot be the name of a file"));
}

TEST(Loader, calls_a_newer_format_newer_before_it_calls_its_keys_wrong) {
  const auto read = read_family("format = 2\nfamily = \"x\"\nnew_key = 1\n", "x.toml");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.error().kind, ErrorKind::too_new);
  EXPECT_EQ(read.error().message,
            "x.toml, line 1: format = 2 is newer than this program, which reads up to format = 1; "
            "use a newer program.");
  const auto odd = read_family("format = \"one\"\nfamily = \"x\"\n", "x.toml");
  ASSERT_FALSE(odd.ok());
  EXPECT_EQ(odd.error().kind, ErrorKind::bad_input);
  EXPECT_EQ(odd.error().message, "x.toml, line 1: format = \"one\" must be 1.");
}

TEST(Loader, says_where_text_is_no_toml) {
  EXPECT_THAT(told("[[part_type]]\npart_type = \"A\n"),
              testing::AllOf(HasSubstr("tern.toml, line 4: the text cannot be read from column"),
                             HasSubstr("look for")));
  EXPECT_THAT(told("note = \"a\"\nnote = \"b\"\n"),
              HasSubstr("tern.toml, line 4: the text cannot be read"));
}

TEST(Loader, keeps_every_message_on_one_line) {
  for (const std::string body : {"note = fa\nx = 1\n", "\"a\\nb\" = 1\n", "note = [\"a\\n\"]\n"}) {
    EXPECT_NE(told(body), "");
    EXPECT_EQ(told(body).find('\n'), std::string::npos) << body;
  }
}

TEST(Loader, says_which_byte_is_not_utf8) {
  EXPECT_EQ(told("note = \"\xff\"\n"),
            "tern.toml, line 3: byte 35 (0xff) is not UTF-8 text; save the file as UTF-8.");
}

TEST(Loader, refuses_a_text_larger_than_a_family_can_be) {
  const auto read = read_family(std::string(kLargestFile + 1, '\n'), "big.toml");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.error().kind, ErrorKind::limit);
  EXPECT_EQ(
      read.error().message,
      "big.toml: the file has 8388609 bytes and at most 8388608 are read; split it into families.");
}

TEST(Loader, refuses_endless_nesting_instead_of_running_out_of_stack) {
  std::string dotted, brackets;
  for (int i = 0; i < 1000000; ++i) {
    dotted += "a.";
    brackets += '[';
  }
  for (const std::string& body :
       {dotted + "b = 1\n", "[" + dotted + "b]\n", "note = " + brackets + "\n"}) {
    const auto read = read_family(kHead + body, "deep.toml");
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().kind, ErrorKind::limit);
    EXPECT_THAT(read.error().message, HasSubstr("deep.toml, line 3: "));
  }
}

TEST(Loader, does_not_take_dots_and_brackets_in_text_for_nesting) {
  std::string dots;
  for (int i = 0; i < 100; ++i) dots += "[.{.'";
  EXPECT_EQ(told("note = \"" + dots + "\\\"" + dots + "\" # " + dots + "\n"), "");
  EXPECT_EQ(told("note = \"\"\"" + dots + "\n\"\" \\\"\"\" " + dots + "\"\"\"\"\"\n"), "");
  EXPECT_EQ(told("note = '''" + dots.substr(0, 4) + "\n''" + dots.substr(0, 4) + "''''\n"), "");
}

TEST(Loader, never_half_loads) {
  // Every prefix of a good text either reads as a whole or gives a sentence and nothing else.
  const std::string text = kHead + with_contact("{n = 1, signal = \"enable\"},\n{n = 2},");
  for (std::size_t length = 0; length <= text.size(); ++length) {
    const auto read = read_family(std::string_view(text).substr(0, length), "tern.toml");
    if (read)
      EXPECT_EQ(read_family(write_family(read.value()), "again").value(), read.value()) << length;
    else
      EXPECT_THAT(read.error().message, HasSubstr("tern.toml")) << length;
  }
}

}  // namespace
}  // namespace benchgraft::catalogue
