#include "shop/commands.hpp"

#include <gtest/gtest.h>

#include "support/some_shops.hpp"

namespace benchgraft::shop {
namespace {

/// A shop changed by one command after the other.
class Bench {
 public:
  Result<Effect> try_out(const Command& command) const {
    // The seed moves on with the shop, so that ids differ from step to step.
    return effect_of(command, shop, support::at_the_bench(1 + steps));
  }
  std::string done(const Command& command) {
    auto effect = try_out(command);
    ++steps;
    if (!effect) return "refused: " + effect.error().message;
    shop = effect.value().after;
    return effect.value().what;
  }
  std::string refused(const Command& command) const {
    auto effect = try_out(command);
    return effect ? "not refused: " + effect.value().what : effect.error().message;
  }
  const Set& set(const std::string& code) const { return *shop.set_by_code(code); }
  const Part& part(const std::string& code) const { return *shop.part_by_code(code); }

  Shop shop;
  std::uint64_t steps = 0;
};

TakeIn take_in(const std::string& code, Consent consent = Consent::may_strip) {
  Set set;
  set.code = code;
  set.model = "Tern 50";
  set.consent = consent;
  return {set};
}

AddPart add_part(const std::string& code, const std::string& in_set = "",
                 const std::string& position = "") {
  Part part;
  part.code = code;
  part.type = "LD-20";
  part.position = position;
  if (in_set.empty()) part.place = "shelf 1";
  return {part, in_set};
}

/// Host H2, donor D3, customer's set C7; a supply in each, one more on the shelf.
Bench furnished() {
  Bench bench;
  for (const auto& command :
       std::vector<Command>{take_in("H2"), take_in("D3"), take_in("C7", Consent::must_go_back),
                            add_part("HA", "H2", "supply"), add_part("DA", "D3", "supply"),
                            add_part("CA", "C7", "supply"), add_part("RA")})
    bench.done(command);
  return bench;
}

TEST(TakeIn, makes_id_code_and_date_when_none_are_given) {
  Bench bench;
  Set set;
  set.kind = "single-chip rear projection";
  const std::string what = bench.done(TakeIn{set});
  const Set& made = bench.shop.sets.at(0);
  EXPECT_TRUE(is_short_code(made.code));
  EXPECT_FALSE(made.id.empty());
  EXPECT_EQ(made.taken_in, "2026-05-31");
  EXPECT_EQ(what, "took in set " + made.code + " (single-chip rear projection)");
}

TEST(TakeIn, tidies_what_was_typed) {
  Bench bench;
  TakeIn command = take_in("h2");
  command.set.owner = "  the loft ";
  command.set.missing = {" lamp ", "", "lamp"};
  command.set.complaint = "dead\r\nsince May\n";
  EXPECT_EQ(bench.done(command), "took in set H2 (Tern 50)");
  EXPECT_EQ(bench.set("H2").owner, "the loft");
  EXPECT_EQ(bench.set("H2").missing, std::vector<std::string>{"lamp"});
  EXPECT_EQ(bench.set("H2").complaint, "dead\nsince May");
}

TEST(TakeIn, says_what_is_wrong) {
  Bench bench = furnished();
  EXPECT_EQ(bench.refused(take_in("H2")), "code H2 is on two sets; give one of them another code.");
  EXPECT_EQ(bench.refused(take_in("RA")),
            "code RA is on a set and also on a part; give one of them another code.");
  EXPECT_EQ(bench.refused(take_in("O1")),
            "set O1: \"O1\" is not a code; use 1 to 5 of 23456789ACDEFHJKMNPRTWXY, which cannot be "
            "mistaken for "
            "one another on tape.");
  TakeIn command = take_in("X2");
  command.set.taken_in = "yesterday";
  EXPECT_EQ(bench.refused(command),
            "set X2: taken_in = \"yesterday\" is not a day; write it as 2026-05-31.");
  command = take_in("X2");
  command.set.owner = "two\nlines";
  EXPECT_EQ(bench.refused(command),
            "set X2: owner = \"two lines\" must be a name without blanks at its ends and without "
            "line breaks.");
  command.set.owner = std::string("a\0b", 3);
  EXPECT_EQ(bench.refused(command),
            "set X2: owner has the unprintable character 0x00 at byte 1; take it out.");
  command.set.owner = "\xC3";
  EXPECT_EQ(bench.refused(command),
            "set X2: owner is not UTF-8 text at byte 0 (0xc3); write it anew.");
}

TEST(Occasion, must_name_somebody_and_a_day) {
  auto effect = effect_of(take_in("H2"), {}, {"", "2026-05-31", support::repeatable(1)});
  ASSERT_FALSE(effect);
  EXPECT_EQ(effect.error().message, "nobody is named for this change; say who makes it.");
  effect = effect_of(take_in("H2"), {}, {"kim", "noon", support::repeatable(1)});
  ASSERT_FALSE(effect);
  EXPECT_EQ(effect.error().message,
            "\"noon\" is not the time of a change; it starts with a day such as 2026-05-31.");
}

TEST(AddPart, puts_it_into_a_position_which_is_not_missing_then) {
  Bench bench;
  TakeIn host = take_in("H2");
  host.set.missing = {"supply", "lamp"};
  bench.done(host);
  EXPECT_EQ(bench.done(add_part("HA", "h2", "supply")), "added part HA (LD-20) in set H2, supply");
  EXPECT_EQ(bench.set("H2").missing, std::vector<std::string>{"lamp"});
  EXPECT_EQ(bench.part("HA").in_set, bench.set("H2").id);
}

TEST(AddPart, says_what_is_wrong) {
  Bench bench = furnished();
  EXPECT_EQ(
      bench.refused(add_part("X2", "H2", "supply")),
      "\"supply\" of set H2 already holds part HA, so part X2 cannot go there; move HA out first.");
  EXPECT_EQ(bench.refused(add_part("X2", "H3", "supply")), "set H3 is not here; did you mean H2?");
  AddPart command = add_part("X2");
  command.part.position = "supply";
  command.part.place.clear();
  EXPECT_EQ(bench.refused(command),
            "position \"supply\" for part X2 needs a set; give the set's code too.");
  command = add_part("X2", "H2", "lamp");
  command.part.place = "shelf 1";
  EXPECT_EQ(bench.refused(command),
            "part X2 cannot be in set H2 and on shelf \"shelf 1\"; a part is in one place: give "
            "one of the "
            "two.");
  command = add_part("X2");
  command.part.chance = 1.5;
  EXPECT_EQ(bench.refused(command), "part X2: chance = 1.5 must lie between 0 and 1.");
  command.part.chance.reset();
  command.part.run_hours = -1;
  EXPECT_EQ(bench.refused(command), "part X2: run_hours = -1 must not be negative.");
}

TEST(MovePart, leaves_its_position_missing_and_remembers_where_it_came_from) {
  Bench bench = furnished();
  EXPECT_EQ(bench.done(MovePart{"DA", "", "", "shelf 4"}),
            "moved part DA from set D3, supply to shelf \"shelf 4\"");
  EXPECT_EQ(bench.set("D3").missing, std::vector<std::string>{"supply"});
  EXPECT_EQ(bench.part("DA").from, "D3");
  EXPECT_EQ(bench.part("DA").place, "shelf 4");
  EXPECT_EQ(bench.done(MovePart{"DA", "D3", "supply", ""}),
            "moved part DA from shelf \"shelf 4\" to set D3, supply");
  EXPECT_TRUE(bench.set("D3").missing.empty());
}

TEST(MovePart, stays_its_own_part_when_it_only_changes_position) {
  Bench bench = furnished();
  bench.done(MovePart{"HA", "H2", "second supply", ""});
  EXPECT_EQ(bench.part("HA").from, "");
  EXPECT_EQ(bench.part("HA").position, "second supply");
  EXPECT_EQ(bench.set("H2").missing, std::vector<std::string>{"supply"});
}

TEST(MovePart, names_both_parts_when_a_position_is_taken) {
  Bench bench = furnished();
  EXPECT_EQ(
      bench.refused(MovePart{"RA", "H2", "supply", ""}),
      "\"supply\" of set H2 already holds part HA, so part RA cannot go there; move HA out first.");
  EXPECT_EQ(bench.try_out(MovePart{"RA", "H2", "supply", ""}).error().kind, ErrorKind::conflict);
}

TEST(MovePart, never_gives_a_customers_part_to_another_set) {
  Bench bench = furnished();
  bench.done(MovePart{"HA", "", "", "shelf 1"});
  const std::string expected =
      "part CA belongs to set C7, which must go back, so it cannot go into set H2; record the "
      "owner's consent "
      "\"may strip\" first.";
  EXPECT_EQ(bench.refused(MovePart{"CA", "H2", "supply", ""}), expected);
  // Nor by way of the shelf.
  bench.done(MovePart{"CA", "", "", "shelf 1"});
  EXPECT_EQ(bench.refused(MovePart{"CA", "H2", "supply", ""}), expected);
  EXPECT_EQ(bench.done(MovePart{"CA", "C7", "supply", ""}),
            "moved part CA from shelf \"shelf 1\" to set C7, supply");
}

TEST(MovePart, takes_unknown_consent_for_must_go_back) {
  Bench bench = furnished();
  bench.done(take_in("X2", Consent::unknown));
  bench.done(add_part("XA", "X2", "lamp"));
  EXPECT_EQ(bench.refused(MovePart{"XA", "H2", "lamp", ""}),
            "part XA belongs to set X2, which has no recorded consent and counts as \"must go "
            "back\", so it "
            "cannot go into set H2; record the owner's consent \"may strip\" first.");
}

TEST(MovePart, says_what_is_wrong) {
  Bench bench = furnished();
  EXPECT_EQ(bench.refused(MovePart{"RA", "", "", ""}),
            "part RA has no place to go to; name a shelf, or a set and a position.");
  EXPECT_EQ(bench.refused(MovePart{"RA", "H2", "lamp", "shelf 2"}),
            "part RA cannot be in set H2 and on shelf \"shelf 2\"; a part is in one place: give "
            "one of the two.");
  EXPECT_EQ(bench.refused(MovePart{"RA", "", "lamp", "shelf 2"}),
            "position \"lamp\" for part RA needs a set; give the set's code too.");
  EXPECT_EQ(bench.refused(MovePart{"RC", "", "", "shelf 2"}),
            "part RC is not here; did you mean RA?");
  EXPECT_EQ(bench.refused(MovePart{"", "", "", "shelf 2"}), "no part is named; give its code.");
  bench.done(ChangeSet{.set = "D3", .fate = Fate::gone});
  EXPECT_EQ(bench.refused(MovePart{"RA", "D3", "lamp", ""}),
            "set D3 is gone, so part RA cannot go into it; correct the set or its fate.");
}

TEST(SetState, records_how_where_and_when_it_was_tested) {
  Bench bench = furnished();
  EXPECT_EQ(bench.done(SetState{"RA", State::good, "all rails right under load", "H2", ""}),
            "part RA is good: all rails right under load");
  EXPECT_EQ(bench.part("RA").tested_on, "2026-05-31");
  EXPECT_EQ(bench.part("RA").tested_in, "H2");
  EXPECT_EQ(bench.done(SetState{"RA", State::untested, "", "", ""}), "part RA is untested");
  EXPECT_EQ(bench.part("RA").tested_on, "");
  EXPECT_EQ(bench.refused(SetState{"RA", State::untested, "looked at", "", ""}),
            "part RA cannot be untested and tested; leave out how, where and when, or give the "
            "result of the "
            "test.");
  EXPECT_EQ(bench.refused(SetState{"RA", State::bad, "", "", "31.5."}),
            "part RA: tested_on = \"31.5.\" is not a day; write it as 2026-05-31.");
}

TEST(RecordChange, keeps_what_was_done_to_the_part) {
  Bench bench = furnished();
  catalogue::Change change;
  change.port = "CN3";
  EXPECT_EQ(bench.done(RecordChange{"RA", change}), "recorded on part RA: plug cut, CN3");
  EXPECT_EQ(bench.part("RA").changes.size(), 1U);
  change.port.clear();
  EXPECT_EQ(bench.refused(RecordChange{"RA", change}),
            "part RA: change = \"plug cut\" has no \"port\"; add it.");
}

TEST(ChangeSet, changes_only_what_is_given) {
  Bench bench = furnished();
  ChangeSet change{.set = "H2"};
  change.variant = std::string("120 W");
  change.looks = Looks::good;
  EXPECT_EQ(bench.done(change), "changed set H2: variant and looks");
  EXPECT_EQ(bench.set("H2").model, "Tern 50");
  EXPECT_EQ(bench.set("H2").variant, "120 W");
  EXPECT_EQ(bench.refused(ChangeSet{.set = "H9"}), "set H9 is not here; did you mean H2?");
}

TEST(ChangeSet, strips_only_what_may_be_stripped) {
  Bench bench = furnished();
  EXPECT_EQ(bench.refused(ChangeSet{.set = "C7", .fate = Fate::stripped}),
            "set C7 must go back; record the owner's consent \"may strip\" before it is stripped.");
  bench.done(take_in("X2", Consent::unknown));
  EXPECT_EQ(bench.refused(ChangeSet{.set = "X2", .fate = Fate::stripped}),
            "set X2 has no recorded consent and counts as \"must go back\"; record the owner's "
            "consent \"may "
            "strip\" before it is stripped.");
  bench.done(BeginRebuild{"", "H2", {}, ""});
  EXPECT_EQ(bench.refused(ChangeSet{.set = "H2", .fate = Fate::gone}),
            "set H2 is the host of rebuild \"H2, 2026-05-31\"; finish it or give it up before the "
            "set is gone.");
}

TEST(ChangeSet, cannot_list_a_position_as_missing_that_holds_a_part) {
  Bench bench = furnished();
  ChangeSet change{.set = "H2"};
  change.missing = std::vector<std::string>{"supply"};
  EXPECT_EQ(bench.refused(change),
            "\"supply\" of set H2 is recorded as missing, but part HA is in it; take it off the "
            "missing list, "
            "or move the part.");
}

TEST(ChangePart, changes_only_what_is_given_and_makes_numbers_unknown_again) {
  Bench bench = furnished();
  ChangePart change{.part = "RA"};
  change.run_hours = std::optional<double>(1200);
  EXPECT_EQ(bench.done(change), "changed part RA: run_hours");
  EXPECT_EQ(bench.part("RA").run_hours, 1200);
  change.run_hours = std::optional<double>{};
  EXPECT_EQ(bench.done(change), "changed part RA: run_hours");
  EXPECT_FALSE(bench.part("RA").run_hours.has_value());
  EXPECT_EQ(bench.part("RA").type, "LD-20");
}

TEST(Wishes, are_recorded_once_and_withdrawn) {
  Bench bench = furnished();
  const AddWish build{{{}, WishSort::build_this, "h2", "", "for a neighbour"}};
  EXPECT_EQ(bench.done(build), "wished \"build this\", set H2");
  EXPECT_EQ(bench.refused(build),
            "the wish \"build this\" for H2 is already recorded; once is enough.");
  const RecordId id = bench.shop.wishes.at(0).id;
  EXPECT_EQ(bench.done(WithdrawWish{id}), "withdrew the wish \"build this\", set H2");
  EXPECT_EQ(bench.refused(WithdrawWish{id}),
            "there is no wish with id " + to_text(id) + "; it may have been withdrawn already.");
  EXPECT_EQ(bench.refused(AddWish{{{}, WishSort::use_part_in, "H2", "", ""}}),
            "the wish \"use part in\" names no part; give its code.");
}

TEST(SetTerms, refuses_terms_that_cannot_be) {
  Bench bench;
  Terms terms;
  terms.per_hour = {2400};
  EXPECT_EQ(bench.done(SetTerms{terms}), "changed the terms: per_hour_minor");
  terms.mains_volts = 0;
  EXPECT_EQ(bench.refused(SetTerms{terms}), "terms: mains_volts = 0 must be more than 0.");
  terms.mains_volts = 230;
  terms.currency = " ";
  EXPECT_EQ(bench.refused(SetTerms{terms}),
            "terms: currency is empty; write a short name such as \"EUR\".");
}

TEST(AddNote, makes_name_writer_and_date) {
  Bench bench;
  catalogue::SwapNote note;
  note.into = "Tern 50";
  EXPECT_EQ(bench.done(AddNote{note}), "wrote swap note \"Tern 50, 2026-05-31\"");
  EXPECT_EQ(bench.done(AddNote{note}), "wrote swap note \"Tern 50, 2026-05-31 (2)\"");
  EXPECT_EQ(bench.shop.notes[0].by, "kim");
  note.name = "Tern 50, 2026-05-31";
  EXPECT_EQ(bench.refused(AddNote{note}),
            "there are two swap notes called \"Tern 50, 2026-05-31\"; rename one.");
  note.name = "third";
  note.into = "";
  EXPECT_EQ(bench.refused(AddNote{note}),
            "swap note \"third\": a swap note (swap_note = \"third\") has no "
            "\"into\"; add it.");
}

TEST(Rebuild, claims_its_host_and_parts_until_it_is_finished_or_given_up) {
  Bench bench = furnished();
  EXPECT_EQ(bench.done(BeginRebuild{"first", "H2", {{"supply", "DA"}}, ""}),
            "began rebuild \"first\" in set H2 with DA");
  EXPECT_EQ(
      bench.refused(BeginRebuild{"second", "C7", {{"supply", "DA"}}, ""}),
      "part DA is already claimed by rebuild \"first\"; finish it or give it up before \"second\" "
      "begins.");
  EXPECT_EQ(
      bench.refused(BeginRebuild{"second", "H2", {}, ""}),
      "set H2 is already the host of rebuild \"first\"; finish it or give it up before \"second\" "
      "begins.");
  EXPECT_EQ(bench.refused(MovePart{"DA", "C7", "second supply", ""}),
            "part DA is claimed by rebuild \"first\", so it cannot go into set C7; finish that "
            "rebuild or give "
            "it up first.");
  EXPECT_EQ(bench.done(GiveUpRebuild{"first", "no time"}), "gave up rebuild \"first\" in set H2");
  EXPECT_EQ(bench.part("DA").in_set, bench.set("D3").id);
  EXPECT_EQ(bench.done(BeginRebuild{"second", "H2", {{"supply", "DA"}}, ""}),
            "began rebuild \"second\" in set H2 with DA");
}

TEST(Rebuild, puts_its_parts_in_place_when_it_is_finished) {
  Bench bench = furnished();
  bench.done(BeginRebuild{"first", "H2", {{"supply", "DA"}}, ""});
  EXPECT_EQ(bench.refused(FinishRebuild{"first", "", {}, "", ""}),
            "\"supply\" of set H2 still holds part HA, so part DA cannot be in it; say where the "
            "old part went, "
            "or move it first.");
  EXPECT_EQ(bench.done(FinishRebuild{"first", "2026-06-02", 95.0, "ran at once", "scrap box"}),
            "finished rebuild \"first\" in set H2");
  EXPECT_EQ(bench.part("DA").in_set, bench.set("H2").id);
  EXPECT_EQ(bench.part("DA").position, "supply");
  EXPECT_EQ(bench.part("DA").from, "D3");
  EXPECT_EQ(bench.part("HA").place, "scrap box");
  EXPECT_EQ(bench.part("HA").from, "H2");
  EXPECT_EQ(bench.set("D3").missing, std::vector<std::string>{"supply"});
  EXPECT_TRUE(bench.set("H2").missing.empty());
  EXPECT_EQ(bench.set("H2").fate, Fate::rebuilt);
  EXPECT_EQ(bench.shop.rebuilds.at(0).state, "finished");
  EXPECT_EQ(bench.shop.rebuilds.at(0).finished, "2026-06-02");
  EXPECT_EQ(bench.shop.rebuilds.at(0).work_minutes, 95);
  EXPECT_EQ(bench.refused(FinishRebuild{"first", "", {}, "", ""}),
            "rebuild \"first\" is already finished; begin a new one.");
}

TEST(Rebuild, lets_two_of_its_parts_change_places) {
  Bench bench = furnished();
  bench.done(add_part("HC", "H2", "second supply"));
  bench.done(BeginRebuild{"turn", "H2", {{"supply", "HC"}, {"second supply", "HA"}}, ""});
  EXPECT_EQ(bench.done(FinishRebuild{"turn", "", {}, "", ""}),
            "finished rebuild \"turn\" in set H2");
  EXPECT_EQ(bench.part("HA").position, "second supply");
  EXPECT_EQ(bench.part("HC").position, "supply");
  EXPECT_TRUE(bench.set("H2").missing.empty());
  EXPECT_EQ(bench.part("HA").from, "");
}

TEST(Rebuild, says_what_is_wrong) {
  Bench bench = furnished();
  EXPECT_EQ(bench.refused(BeginRebuild{"x", "H2", {{"supply", "CA"}}, ""}),
            "part CA belongs to set C7, which must go back; choose another part, or record the "
            "owner's consent "
            "\"may strip\" first.");
  bench.done(SetState{"RA", State::bad, "bus shorted", "", ""});
  EXPECT_EQ(bench.refused(BeginRebuild{"x", "H2", {{"supply", "RA"}}, ""}),
            "part RA is recorded as bad; choose another, or correct its state first.");
  EXPECT_EQ(bench.refused(BeginRebuild{"x", "H2", {{"supply", "HA"}, {"supply", "DA"}}, ""}),
            "rebuild \"x\" puts parts HA and DA into position \"supply\"; leave one out.");
  EXPECT_EQ(bench.refused(BeginRebuild{"x", "H2", {{"supply", "DA"}, {"lamp", "DA"}}, ""}),
            "rebuild \"x\" puts part DA into both \"supply\" and \"lamp\"; leave one out.");
  EXPECT_EQ(bench.refused(FinishRebuild{"first", "", {}, "", ""}),
            "there is no rebuild \"first\"; begin it first.");
  bench.done(BeginRebuild{"first", "H2", {}, ""});
  EXPECT_EQ(bench.refused(GiveUpRebuild{"frist", ""}),
            "there is no rebuild \"frist\"; did you mean \"first\"?");
  bench.done(ChangeSet{.set = "D3", .fate = Fate::stripped});
  EXPECT_EQ(bench.refused(BeginRebuild{"x", "D3", {}, ""}),
            "set D3 is stripped and cannot be a host; choose another set or correct its fate.");
}

TEST(FreeCode, finds_one_when_almost_all_are_taken) {
  Shop shop;
  // The first code that these bits give is on a set already.
  Set set;
  set.code = short_code(support::repeatable(3)(), 3);
  shop.sets.push_back(set);
  const std::string code = free_code(shop, support::repeatable(3));
  EXPECT_TRUE(is_short_code(code));
  EXPECT_NE(code, set.code);
  // Bits that always give the same code end in a longer one.
  const std::string longer = free_code(shop, [bits = support::repeatable(3)()] { return bits; });
  EXPECT_TRUE(is_short_code(longer));
  EXPECT_EQ(longer.size(), 4U);
}

}  // namespace
}  // namespace benchgraft::shop
