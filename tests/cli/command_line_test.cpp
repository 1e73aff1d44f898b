#include <chrono>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/program.hpp"

namespace benchgraft::cli {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const std::vector<std::string> kCommands{
    "plan",  "judge",  "sheet",   "why",     "write-rebuild", "import", "export", "check", "list",
    "find",  "show",   "journal", "take-in", "set",           "part",   "mark",   "move",  "change",
    "begin", "finish", "give-up", "note",    "wish",          "terms",  "undo"};

TEST(CommandLine, lists_every_command_in_its_help) {
  Program program;
  const auto help = program.run({"--help"});
  EXPECT_EQ(help.code, 0);
  for (const auto& command : kCommands) EXPECT_THAT(help.out, HasSubstr("\n  " + command + " "));
}

TEST(CommandLine, shows_an_example_in_the_help_of_every_command) {
  Program program;
  for (const auto& command : kCommands) {
    const auto help = program.run({command, "--help"});
    EXPECT_EQ(help.code, 0) << command;
    EXPECT_THAT(help.out, HasSubstr("Example:\n  benchgraft")) << command;
    EXPECT_THAT(help.out, HasSubstr(" " + command + " ")) << command;
  }
}

TEST(CommandLine, says_its_version) {
  Program program;
  EXPECT_THAT(program.run({"--version"}).out, StartsWith("benchgraft "));
}

TEST(CommandLine, leaves_with_2_when_it_is_written_wrong_and_says_what_is_wrong) {
  Program program;
  const auto nothing = program.run({});
  EXPECT_EQ(nothing.code, 2);
  EXPECT_THAT(nothing.err, HasSubstr("Say what to do"));
  const auto mistyped = program.run({"jugde", "x.toml"});
  EXPECT_EQ(mistyped.code, 2);
  EXPECT_EQ(mistyped.err, "benchgraft: \"jugde\" is no command; did you mean \"judge\"?\n");
  EXPECT_EQ(program.run({"plan", "--bogus"}).err,
            "benchgraft: \"--bogus\" is not understood here; see: benchgraft plan --help\n");
  EXPECT_EQ(program.run({"plan", "--seconds", "long"}).err,
            "benchgraft: \"long\" is not a number; see: benchgraft plan --help\n");
  EXPECT_EQ(program.run({"judge"}).err,
            "benchgraft: REBUILD is missing; see: benchgraft judge --help\n");
  EXPECT_EQ(program.run({"judge"}).code, 2);
}

TEST(CommandLine, leaves_with_3_on_a_file_that_is_wrong) {
  Program program;
  const auto file = program.write("wrong.toml", "format = 1\nrebuild = \"x\"\nmodle = \"y\"\n");
  const auto ran = program.run({"judge", file});
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.err, HasSubstr("modle"));
  EXPECT_THAT(ran.err, HasSubstr("line 3"));
  EXPECT_EQ(ran.out, "");
}

TEST(CommandLine, leaves_with_4_when_a_named_thing_is_not_there) {
  Program program;
  EXPECT_EQ(program.run({"judge", program.path("none.toml")}).code, 4);
  const auto shop = program.shop({"plan"});
  EXPECT_EQ(shop.code, 4);
  EXPECT_THAT(shop.err, HasSubstr("There is no shop"));
  const auto unnamed = program.run({"plan"});
  EXPECT_EQ(unnamed.code, 4);
  EXPECT_THAT(unnamed.err, HasSubstr("--shop FILE"));
}

TEST(CommandLine, leaves_with_5_on_a_conflict) {
  Program program;
  program.fill_shop();
  EXPECT_EQ(program.shop({"take-in", "--code", "H2"}).code, 5);
}

TEST(CommandLine, leaves_with_6_when_the_disk_says_no) {
  Program program;
  const auto not_a_shop = program.write("loft.shop", "this is no shop");
  const auto ran = program.shop({"list", "sets"});
  EXPECT_EQ(ran.code, 6) << ran.err;
  EXPECT_EQ(program
                .run({"sheet", source("data/demo/rebuilds/first.toml"), "--catalogue",
                      source("data/demo/catalogue"), "--html", "/nowhere/at/all.html"})
                .code,
            6);
}

TEST(CommandLine, leaves_with_7_on_a_file_of_a_newer_program) {
  Program program;
  const auto file = program.write("new.toml", "format = 99\nrebuild = \"x\"\nkind = \"y\"\n");
  EXPECT_EQ(program.run({"judge", file}).code, 7);
}

TEST(CommandLine, leaves_with_8_on_a_file_that_is_too_large) {
  Program program;
  const auto file = program.write("large.toml", std::string(9U << 20U, '#'));
  EXPECT_EQ(program.run({"judge", file}).code, 8);
}

TEST(CommandLine, fails_with_one_sentence_and_no_words_of_programs) {
  Program program;
  for (const auto& ran : {program.run({"judge", program.path("none.toml")}), program.shop({"plan"}),
                          program.run({"why", "ABCD"})}) {
    EXPECT_THAT(ran.err, StartsWith("benchgraft: "));
    EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
    for (const char* word : {"exception", "std::", "errno", "null"})
      EXPECT_THAT(ran.err, Not(HasSubstr(word)));
  }
}

TEST(CommandLine, paints_nothing_and_shows_no_progress_where_there_is_no_terminal) {
  Program program;
  const auto ran = program.run({"sheet", source("data/demo/rebuilds/first.toml"), "--catalogue",
                                source("data/demo/catalogue")});
  EXPECT_EQ(ran.code, 0);
  EXPECT_THAT(ran.out, Not(HasSubstr("\033")));
  EXPECT_EQ(ran.err, "");
}

TEST(CommandLine, takes_the_shop_from_the_environment) {
  Program program;
  program.fill_shop();
  const auto ran = program.run({"list", "sets"}, {"BENCHGRAFT_SHOP=" + program.path("loft.shop")});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("H2"));
}

TEST(CommandLine, is_there_at_once) {
  Program program;
  auto best = std::chrono::milliseconds::max();
  for (int tries = 0; tries < 5; ++tries) {
    const auto begin = std::chrono::steady_clock::now();
    program.run({"--help"});
    best = std::min(best, std::chrono::duration_cast<std::chrono::milliseconds>(
                              std::chrono::steady_clock::now() - begin));
  }
  EXPECT_LT(best.count(), 50);
}

}  // namespace
}  // namespace benchgraft::cli
