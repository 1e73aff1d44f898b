// A day at the bench, through the program itself.
#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

namespace benchgraft::cli {
namespace {

using Json = nlohmann::json;
using testing::HasSubstr;
using testing::Not;

std::vector<std::string> first_with(const std::string& command,
                                    std::vector<std::string> more = {}) {
  std::vector<std::string> words{command, source("data/demo/rebuilds/first.toml"), "--catalogue",
                                 source("data/demo/catalogue")};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

Json json_of(const Ran& ran) {
  EXPECT_EQ(ran.code, 0) << ran.err;
  return Json::parse(ran.out);
}

TEST(Day, judges_a_file_and_answers_scripts) {
  Program program;
  const auto json = json_of(program.run(first_with("judge", {"--json"})));
  for (const char* key :
       {"verdict", "reasons", "companions", "adaptations", "lost", "gained", "settings", "counters",
        "orientation", "questions", "work_minutes", "waiting_minutes", "material", "chance"})
    EXPECT_TRUE(json.contains(key)) << key;
  EXPECT_FALSE(json["reasons"].empty());
}

TEST(Day, explains_every_code_it_has_shown) {
  Program program;
  const auto json = json_of(program.run(first_with("judge", {"--json"})));
  std::vector<std::string> codes;
  for (const char* list : {"reasons", "companions", "settings", "counters", "questions", "repins"})
    for (const auto& said : json[list]) codes.push_back(said["code"]);
  codes.push_back(json["orientation"]["code"]);
  ASSERT_GT(codes.size(), 8U);
  for (const auto& code : codes) {
    if (code.empty()) continue;
    const auto why = program.run({"why", code, source("data/demo/rebuilds/first.toml"),
                                  "--catalogue", source("data/demo/catalogue")});
    EXPECT_EQ(why.code, 0) << code << ": " << why.err;
    EXPECT_THAT(why.out, HasSubstr("Why " + code));
  }
}

TEST(Day, writes_the_sheet_for_the_phone) {
  Program program;
  const auto ran = program.run(first_with("sheet", {"--html", program.path("first.html")}));
  EXPECT_EQ(ran.code, 0) << ran.err;
  const auto html = read(program.path("first.html"));
  EXPECT_THAT(html, HasSubstr("<!DOCTYPE html>"));
  EXPECT_THAT(html, HasSubstr("Before you open it"));
  EXPECT_THAT(html, Not(HasSubstr("<script")));
}

TEST(Day, answers_why_from_what_was_said_in_the_shop) {
  Program program;
  program.fill_shop();
  const auto judged =
      json_of(program.shop({"judge", source("data/demo/rebuilds/first.toml"), "--json"}));
  const std::string code = judged["reasons"][0]["code"];
  const auto why = program.shop({"why", code});
  EXPECT_EQ(why.code, 0) << why.err;
  for (const char* part : {"RULE", "FACTS", "HOW SURE", "WHAT WOULD CHANGE IT"})
    EXPECT_THAT(why.out, HasSubstr(part));
}

TEST(Day, says_so_when_nothing_was_said_under_a_code) {
  Program program;
  program.fill_shop();
  EXPECT_EQ(program.shop({"why", "ZZZZ"}).code, 4);
}

TEST(Day, takes_in_marks_moves_changes_and_takes_back) {
  Program program;
  program.fill_shop();
  EXPECT_EQ(
      program.shop({"take-in", "--code", "NEW", "--model", "Alder 46", "--consent", "may strip"})
          .code,
      0);
  EXPECT_EQ(program.shop({"part", "7KR", "--new", "--type", "HD-20/A", "--place", "shelf 3"}).code,
            0);
  EXPECT_EQ(program.shop({"mark", "7KR", "good", "--how", "ran an hour"}).code, 0);
  EXPECT_EQ(program.shop({"change", "7KR", "plug cut", "--port", "CTL"}).code, 0);
  EXPECT_EQ(program.shop({"move", "7KR", "--place", "shelf 4"}).code, 0);
  auto part = json_of(program.shop({"show", "7KR", "--json"}));
  EXPECT_EQ(part["state"], "good");
  EXPECT_EQ(part["place"], "shelf 4");
  EXPECT_EQ(part["changes"].size(), 1U);
  EXPECT_EQ(part["history"].size(), 4U);

  EXPECT_EQ(program.shop({"undo"}).code, 0);
  part = json_of(program.shop({"show", "7KR", "--json"}));
  EXPECT_EQ(part["place"], "shelf 3");
  const auto journal = json_of(program.shop({"journal", "--json", "--most", "1"}));
  EXPECT_EQ(journal["journal"].size(), 1U);
  EXPECT_EQ(journal["journal"][0]["command"], "undo");
}

TEST(Day, refuses_a_change_that_cannot_be_made_to_that_part) {
  Program program;
  program.fill_shop();
  EXPECT_EQ(program.shop({"part", "7KR", "--new", "--type", "HD-20/A", "--place", "shelf 3"}).code,
            0);
  const auto ran = program.shop({"change", "7KR", "plug cut", "--port", "NOPE"});
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.err, HasSubstr("NOPE"));
}

TEST(Day, names_the_words_there_are_for_one_that_is_none) {
  Program program;
  program.fill_shop();
  const auto ran = program.shop({"take-in", "--consent", "perhaps"});
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.err, HasSubstr("may strip and must go back"));
}

TEST(Day, says_what_stands_in_the_way_of_taking_something_back) {
  Program program;
  program.fill_shop();
  EXPECT_EQ(program.shop({"part", "7KR", "--new", "--type", "HD-20/A", "--place", "shelf 3"}).code,
            0);
  EXPECT_EQ(program.shop({"mark", "7KR", "good"}).code, 0);
  const auto ran = program.shop({"undo", "2"});
  EXPECT_EQ(ran.code, 5);
  EXPECT_THAT(ran.err, HasSubstr("--and-later"));
  EXPECT_EQ(program.shop({"undo", "2", "--and-later"}).code, 0);
  EXPECT_EQ(program.shop({"show", "7KR"}).code, 4);
}

TEST(Day, wishes_and_withdraws) {
  Program program;
  program.fill_shop();
  EXPECT_EQ(program.shop({"wish", "never-strip", "--set", "D3"}).code, 0);
  auto wishes = json_of(program.shop({"list", "wishes", "--json"}))["wishes"];
  const auto before = wishes.size();
  const std::string id = wishes.back()["id"];
  EXPECT_EQ(program.shop({"wish", "--withdraw", id.substr(0, 8)}).code, 0);
  EXPECT_EQ(json_of(program.shop({"list", "wishes", "--json"}))["wishes"].size(), before - 1);
  EXPECT_EQ(program.shop({"wish", "--withdraw", "xyz"}).code, 4);
}

TEST(Day, finds_by_starts_of_words_in_shop_and_catalogue) {
  Program program;
  program.fill_shop();
  EXPECT_THAT(program.shop({"find", "cedar"}).out, HasSubstr("Set D3"));
  EXPECT_THAT(program.run({"find", "single", "chip"}).out,
              HasSubstr("Kind single-chip rear projection"));
}

TEST(Day, exports_what_it_imported_and_takes_it_in_again) {
  Program program;
  program.fill_shop();
  EXPECT_EQ(program.shop({"export", program.path("text")}).code, 0);
  const auto again = json_of(program.run(
      {"--shop", program.path("second.shop"), "import", program.path("text"), "--json"}));
  EXPECT_EQ(again["sets"]["new"], 35);
  EXPECT_EQ(
      program.run({"--shop", program.path("second.shop"), "export", program.path("twice")}).code,
      0);
  for (const char* file : {"shop/sets.csv", "shop/parts.csv", "shop/shop.toml", "shop/wishes.csv"})
    EXPECT_EQ(read(program.path(std::string("text/") + file)),
              read(program.path(std::string("twice/") + file)))
        << file;
  const auto same = json_of(program.shop({"import", program.path("text"), "--json"}));
  EXPECT_EQ(same["entry"], 0);
}

TEST(Day, takes_nothing_in_when_one_file_is_wrong) {
  Program program;
  program.write("in/good.toml", "format = 1\nfamily = \"good\"\n");
  program.write("in/wrong.toml", "format = 1\nfamily = \"wrong\"\nfamly = 3\n");
  const auto ran = program.shop({"import", program.path("in")});
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.err, HasSubstr("wrong.toml"));
  EXPECT_FALSE(std::filesystem::exists(program.path("loft.shop")));
}

TEST(Day, lets_a_swap_note_count_from_then_on) {
  Program program;
  program.fill_shop();
  const auto file = program.write("note.toml", R"toml(format = 1
[[swap_note]]
swap_note = "third engine tried"
into = "Bramble 56"
moved = ["QE-30/A"]
saw = "mirrored"
result = "works"
by = "bench 1"
date = 2026-05-31
)toml");
  const auto before =
      json_of(program.shop({"judge", source("data/demo/rebuilds/first.toml"), "--json"}));
  EXPECT_EQ(program.shop({"note", file}).code, 0);
  const auto after =
      json_of(program.shop({"judge", source("data/demo/rebuilds/first.toml"), "--json"}));
  EXPECT_NE(before, after);
}

TEST(Day, checks_a_catalogue_and_says_what_is_unknown) {
  Program program;
  const auto ran = program.run({"check", source("data/demo/catalogue")});
  EXPECT_EQ(ran.code, 0);
  EXPECT_THAT(ran.out, HasSubstr("It loads: 13 families"));
  EXPECT_THAT(ran.out, HasSubstr("Not known yet"));
  const auto json = json_of(program.run({"check", source("data/demo/catalogue"), "--json"}));
  EXPECT_GT(json["part_types"], 10);
}

}  // namespace
}  // namespace benchgraft::cli
