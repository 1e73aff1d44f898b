// What would it take, asked of the program itself.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

namespace benchgraft::cli {
namespace {

using Json = nlohmann::json;
using testing::HasSubstr;

Json json_of(const Ran& ran) {
  EXPECT_EQ(ran.code, 0) << ran.err;
  return Json::parse(ran.out);
}

TEST(Ways, of_a_customers_set_name_the_donor_and_what_is_sold) {
  Program program;
  program.fill_shop();
  const auto json = json_of(program.shop({"ways", "C7", "--json"}));
  EXPECT_EQ(json["verdict"], "does_not_fit");
  ASSERT_GE(json["ways"].size(), 2U);
  bool here = false, sold = false;
  double before = 0;
  for (const auto& way : json["ways"]) {
    EXPECT_GE(way["cost_minor"].get<double>(), before) << "cheapest first";
    before = way["cost_minor"];
    for (const auto& change : way["changes"]) {
      here = here || (change["step"] == "put_in" && change["place"] == "supply");
      sold = sold || (change["step"] == "buy" && change["price_minor"] > 0);
    }
  }
  EXPECT_TRUE(here);
  EXPECT_TRUE(sold);
}

TEST(Ways, never_take_a_part_of_a_customers_set_but_name_it) {
  Program program;
  program.fill_shop();
  const auto json = json_of(program.shop({"ways", "J5", "--json"}));
  EXPECT_EQ(json["refused"]["changes"][0]["from"], "J6");
  EXPECT_THAT(json["refused"]["refused"].get<std::string>(), HasSubstr("J6 must go back"));
  ASSERT_FALSE(json["ways"].empty()) << "the next best";
  for (const auto& way : json["ways"])
    for (const auto& change : way["changes"]) EXPECT_NE(change["from"], "J6");
}

TEST(Ways, without_a_shop_offer_what_is_sold) {
  Program program;
  const auto ran =
      program.run({"ways", source("data/demo/rebuilds/late_engine_into_early_build.toml"),
                   "--catalogue", source("data/demo/catalogue"), "--json"});
  const auto json = json_of(ran);
  EXPECT_EQ(json["verdict"], "destroys");
  EXPECT_FALSE(json["in_the_way"].empty());
  for (const auto& way : json["ways"])
    for (const auto& change : way["changes"]) EXPECT_NE(change["step"], "put_in");
}

TEST(Ways, are_named_in_one_line_on_the_sheet_of_what_must_not_be_built) {
  Program program;
  const auto ran =
      program.run({"sheet", source("data/demo/rebuilds/late_engine_into_early_build.toml"),
                   "--catalogue", source("data/demo/catalogue")});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, AnyOf(HasSubstr("Cheapest way out: "), HasSubstr("No way out was found")));
}

TEST(Ways, fail_as_judge_does) {
  Program program;
  program.fill_shop();
  EXPECT_EQ(program.shop({"ways", "ZZZZ"}).code, 4);
  EXPECT_EQ(program.shop({"ways", "T3"}).code, 4) << "its model is not known";
  EXPECT_EQ(program.run({"ways", "nothing.toml"}).code,
            program.run({"judge", "nothing.toml"}).code);
  EXPECT_THAT(program.run({"ways", "--help"}).out,
              HasSubstr("benchgraft --shop loft.shop ways H2"));
}

}  // namespace
}  // namespace benchgraft::cli
