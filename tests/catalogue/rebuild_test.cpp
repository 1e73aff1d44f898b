#include <gmock/gmock.h>

#include "faults_told.hpp"

namespace benchgraft::catalogue {
namespace {

using ::testing::HasSubstr;

std::string rebuild_told(const std::string& body) {
  const auto read = read_rebuild("format = 1\nrebuild = \"R\"\n" + body, "r.toml");
  return read ? "" : read.error().message;
}

std::string changes_told(const std::string& body) {
  const auto read = read_changes("[[change]]\n" + body, "c.toml");
  return read ? "" : read.error().message;
}

TEST(RebuildText, reads_with_nothing_but_a_name_and_a_host) {
  const auto read =
      read_rebuild("format = 1\nrebuild = \"R\"\nkind = \"rear projection\"\n", "r.toml");
  ASSERT_TRUE(read.ok()) << read.error().message;
  EXPECT_EQ(read.value().kind, "rear projection");
  EXPECT_TRUE(read.value().parts.empty());
}

TEST(RebuildText, keeps_the_line_of_every_part_and_change) {
  const auto read = read_rebuild(
      "format = 1\nrebuild = \"R\"\nmodel = \"M\"\n[[part]]\nplace = \"lamp\"\nchange = [\n{change "
      "= \"plug cut\", port = "
      "\"P\"}]\n",
      "r.toml");
  ASSERT_TRUE(read.ok()) << read.error().message;
  EXPECT_EQ(read.value().parts[0].where.line, 4);
  EXPECT_EQ(read.value().parts[0].changes[0].where.line, 7);
  EXPECT_FALSE(read.value().parts[0].known_good.has_value());
}

TEST(RebuildText, wants_a_host) {
  EXPECT_EQ(rebuild_told(""),
            "r.toml, line 1: rebuild \"R\" names no host; add model = \"...\", or kind = \"...\" "
            "when the "
            "model is not recorded.");
}

TEST(RebuildText, refuses_what_contradicts_itself) {
  EXPECT_EQ(rebuild_told("model = \"M\"\n[[part]]\nplace = \"lamp\"\n[[part]]\nplace = \"lamp\"\n"),
            "r.toml, line 6: a part for the place \"lamp\" is already written in line 4; rename "
            "one or take it away.");
  EXPECT_THAT(
      rebuild_told(
          "model = \"M\"\n[[part]]\nplace = \"lamp\"\ntype = \"A\"\ncandidates = [\"A\", \"B\"]\n"),
      HasSubstr("has both a type and candidates"));
  EXPECT_THAT(rebuild_told("model = \"M\"\n[[part]]\nplace = \"lamp\"\nrun_hours = -1\n"),
              HasSubstr("run_hours = -1 must not be negative"));
  EXPECT_THAT(rebuild_told("model = \"M\"\n[[parts]]\nplace = \"lamp\"\n"),
              HasSubstr("\"parts\" is not a key of a rebuild file; did you mean \"part\"?"));
  EXPECT_THAT(read_rebuild("format = 7\n", "r.toml").error().message,
              HasSubstr("is newer than this program"));
}

TEST(RebuildText, may_fill_a_place_whose_own_part_the_host_has_lost) {
  EXPECT_EQ(rebuild_told("model = \"M\"\nmissing = [\"lamp\"]\n[[part]]\nplace = \"lamp\"\n"), "");
}

TEST(ChangesText, names_what_a_change_has_to_say) {
  EXPECT_EQ(changes_told("change = \"plug cut\"\n"),
            "c.toml, line 1: change = \"plug cut\" has no \"port\"; add it.");
  EXPECT_THAT(changes_told("change = \"contact moved\"\nport = \"P\"\nfrom = 1\n"),
              HasSubstr("has no \"to\""));
  EXPECT_THAT(changes_told("change = \"contact removed\"\nport = \"P\"\n"),
              HasSubstr("has no \"from\""));
  EXPECT_THAT(changes_told("change = \"contact added\"\nport = \"P\"\n"),
              HasSubstr("has no \"contact\""));
  EXPECT_THAT(changes_told("change = \"piece gone\"\n"), HasSubstr("has no \"piece\""));
  EXPECT_THAT(changes_told("change = \"contact moved\"\nport = \"P\"\nfrom = 1\nto = 1\n"),
              HasSubstr("is moved to where it is"));
  EXPECT_THAT(changes_told("change = \"contact moved\"\nport = \"P\"\nfrom = 1\nto = 0\n"),
              HasSubstr("is not counted from 1"));
  EXPECT_THAT(changes_told("change = \"plug cutt\"\n"), HasSubstr("did you mean \"plug cut\"?"));
  EXPECT_THAT(changes_told("port = \"P\"\n"),
              HasSubstr("a change (port = \"P\") has no \"change\"; add it."));
}

TEST(ChangesText, is_empty_for_no_changes) {
  EXPECT_EQ(write_changes({}), "");
  const auto none = read_changes("", "c.toml");
  ASSERT_TRUE(none.ok());
  EXPECT_TRUE(none.value().empty());
}

TEST(SwapNoteFile, holds_exactly_one_note) {
  const auto none = read_swap_note("format = 1\n", "n.toml");
  ASSERT_FALSE(none.ok());
  EXPECT_EQ(none.error().message,
            "n.toml: the file holds 0 swap notes; it must hold one [[swap_note]].");
}

}  // namespace
}  // namespace benchgraft::catalogue
