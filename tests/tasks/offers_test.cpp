// What the room offers to a host: loose parts, parts of sets that may be stripped, what is sold.
#include "tasks/offers.hpp"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::tasks {
namespace {

using namespace fit_bench;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

shop::SetId set_id(std::uint64_t number) { return {{number, 1}}; }

shop::Set set(std::uint64_t id, const std::string& code, shop::Consent consent) {
  shop::Set made;
  made.id = set_id(id);
  made.code = code;
  made.model = "Tern 40";
  made.consent = consent;
  return made;
}

shop::Part part_of(const std::string& code, const std::string& type,
                   std::optional<shop::SetId> in_set = {}, const std::string& position = "") {
  shop::Part made;
  made.code = code;
  made.type = type;
  made.state = shop::State::good;
  made.in_set = in_set;
  made.position = position;
  return made;
}

/// A host H2 and sets whose every part is on record; the sound board A-2 is sold.
Room room() {
  Room made;
  made.known = catalogue_of(kBenchSet + part("A-1", "sound") + part("D-1", "supply") +
                            part("A-2", "sound", "price_minor = 4000, delivery_days = 2") +
                            model("Tern 40", {{"sound", "A-1"}, {"supply", "D-1"}}));
  made.shop.sets = {set(1, "H2", shop::Consent::may_strip)};
  made.shop.sets[0].missing = {"sound", "supply"};
  return made;
}

void add_donor(Room& room, std::uint64_t id, const std::string& code, shop::Consent consent) {
  room.shop.sets.push_back(set(id, code, consent));
  room.shop.sets.back().missing = {"supply"};
  room.shop.parts.push_back(part_of(code + "S", "A-1", set_id(id), "sound"));
}

std::vector<fit::Offer> here(const Room& room) {
  auto offers = offers_of(room, "H2");
  EXPECT_TRUE(offers.ok());
  std::erase_if(offers.value(), [](const fit::Offer& offer) { return offer.bought; });
  return offers.value();
}

TEST(Offers, are_loose_parts_and_parts_of_sets_that_may_be_stripped) {
  Room r = room();
  r.shop.parts.push_back(part_of("L1", "A-2"));
  add_donor(r, 2, "D3", shop::Consent::may_strip);
  const auto offers = here(r);
  ASSERT_EQ(offers.size(), 2U);
  for (const auto& offer : offers) EXPECT_EQ(offer.refused, "");
  const bool loose_first = offers[0].called == "L1";
  const auto& loose = offers[loose_first ? 0 : 1];
  const auto& donated = offers[loose_first ? 1 : 0];
  EXPECT_EQ(loose.called, "L1");
  EXPECT_EQ(loose.part.from, "shelf");
  EXPECT_EQ(loose.work_minutes, 0);
  EXPECT_EQ(donated.called, "D3S");
  EXPECT_EQ(donated.part.from, "D3");
  // Opened and taken out: 10 minutes each where the kind is silent.
  EXPECT_EQ(donated.work_minutes, 20);
}

TEST(Offers, of_a_customers_set_say_that_it_must_go_back) {
  Room r = room();
  add_donor(r, 2, "C7", shop::Consent::must_go_back);
  add_donor(r, 3, "N1", shop::Consent::unknown);
  const auto offers = here(r);
  ASSERT_FALSE(offers.empty());
  for (const auto& offer : offers)
    EXPECT_THAT(offer.refused, AnyOf(HasSubstr("C7 must go back to its owner"),
                                     HasSubstr("nobody said that set N1 may be stripped")));
}

TEST(Offers, obey_wishes) {
  Room r = room();
  add_donor(r, 2, "D3", shop::Consent::may_strip);
  r.shop.parts.push_back(part_of("L1", "A-2"));
  r.shop.wishes = {{{}, shop::WishSort::never_strip, "D3", "", ""},
                   {{}, shop::WishSort::keep_part, "", "L1", ""}};
  for (const auto& offer : here(r)) EXPECT_THAT(offer.refused, HasSubstr("by your wish"));
  r.shop.wishes = {{{}, shop::WishSort::use_part_in, "X1", "L1", ""}};
  for (const auto& offer : here(r)) EXPECT_NE(offer.called, "L1");
}

TEST(Offers, are_neither_bad_parts_nor_parts_of_the_host_itself) {
  Room r = room();
  r.shop.parts.push_back(part_of("L1", "A-2"));
  r.shop.parts.back().state = shop::State::bad;
  r.shop.sets[0].missing = {"supply"};
  r.shop.parts.push_back(part_of("H2S", "A-1", set_id(1), "sound"));
  EXPECT_THAT(here(r), IsEmpty());
}

TEST(Offers, of_parts_that_are_alike_only_the_nearest_and_the_surest) {
  Room r = room();
  for (const std::string code : {"L1", "L2", "L3"}) r.shop.parts.push_back(part_of(code, "A-2"));
  for (auto& one : r.shop.parts) one.chance = 0.4;
  add_donor(r, 2, "D3", shop::Consent::may_strip);
  r.shop.parts.back().type = "A-2";
  r.shop.parts.back().chance = 0.9;
  std::vector<std::string> codes;
  for (const auto& offer : here(r)) codes.push_back(offer.called);
  EXPECT_THAT(codes, UnorderedElementsAre("L1", "D3S"));
}

TEST(Offers, to_buy_are_the_types_with_a_price) {
  const auto offers = offers_to_buy(room().known, 0.95);
  ASSERT_EQ(offers.size(), 1U);
  EXPECT_EQ(offers[0].part.type, "A-2");
  EXPECT_EQ(offers[0].money.minor, 4000);
  EXPECT_EQ(offers[0].delivery_days, 2);
}

}  // namespace
}  // namespace benchgraft::tasks
