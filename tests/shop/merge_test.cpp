#include <gtest/gtest.h>

#include "shop/contradiction.hpp"
#include "shop/text.hpp"
#include "support/some_shops.hpp"

namespace benchgraft::shop {
namespace {

using support::repeatable;

// A shop that has grown draws other ids than an empty one.
Result<Merged> merge_into(const Records& here, const std::vector<NamedText>& texts) {
  auto bundle = sort_texts(texts);
  if (!bundle) return bundle.error();
  return merge(here, bundle.value(), repeatable(here.shop.sets.size() + 1));
}

Records imported(const std::vector<NamedText>& texts, const Records& here = {}) {
  auto result = merge_into(here, texts);
  EXPECT_TRUE(result.ok()) << (result ? "" : result.error().message);
  return result ? result.value().after : here;
}

std::string fault(const std::vector<NamedText>& texts, const Records& here = {}) {
  auto result = merge_into(here, texts);
  return result ? "no fault" : result.error().message;
}

const NamedText kTwoSets = {"sets.csv",
                            "code,model,consent\nK7,Tern 50,may strip\nD3,Tern 46,must go back\n"};
const NamedText kTwoParts = {
    "parts.csv", "code,type,in_set,position,place\nA2,LD-20,K7,supply,\nA3,LD-20,,,shelf 2\n"};

TEST(Import, makes_ids_and_draws_codes_where_none_are_given) {
  const Records records =
      imported({{"sets.csv", "model\nTern 50\nTern 46\n"}, {"parts.csv", "type\nLD-20\n"}});
  ASSERT_EQ(records.shop.sets.size(), 2U);
  const Set &one = records.shop.sets[0], &two = records.shop.sets[1];
  EXPECT_TRUE(is_short_code(one.code));
  EXPECT_NE(one.code, two.code);
  EXPECT_NE(one.code, records.shop.parts.at(0).code);
  EXPECT_FALSE(one.id.empty());
  EXPECT_NE(one.id, two.id);
  EXPECT_FALSE(first_contradiction(records.shop).has_value());
}

TEST(Import, never_draws_a_code_that_another_row_names) {
  // The first code drawn for the unnamed set would be the one that the part's row names.
  const Records alone = imported({{"sets.csv", "model\nTern 50\n"}});
  const std::string drawn = alone.shop.sets.at(0).code;
  const Records both = imported(
      {{"sets.csv", "model\nTern 50\n"}, {"parts.csv", "code,type\n" + drawn + ",LD-20\n"}});
  EXPECT_NE(both.shop.sets.at(0).code, drawn);
  EXPECT_EQ(both.shop.parts.at(0).code, drawn);
}

TEST(Import, changes_nothing_the_second_time_when_rows_have_codes_only) {
  const std::vector<NamedText> texts = {
      kTwoSets, kTwoParts, {"wishes.csv", "wish,set,part\nbuild this,K7,\nkeep part,,A3\n"}};
  const Records once = imported(texts);
  auto again = merge_into(once, texts);
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(again.value().after, once);
  EXPECT_EQ(again.value().sets, (Count{0, 0, 2}));
  EXPECT_EQ(again.value().parts, (Count{0, 0, 2}));
  EXPECT_EQ(again.value().wishes, (Count{0, 0, 2}));
}

TEST(Import, takes_a_row_without_id_and_code_for_a_set_about_which_it_says_nothing_new) {
  const std::vector<NamedText> texts = {{"sets.csv", "model,place\nTern 50,wall\nTern 50,wall\n"}};
  const Records once = imported(texts);
  EXPECT_EQ(once.shop.sets.size(), 2U);
  EXPECT_EQ(imported(texts, once), once);
  // A third like them is a new one.
  const Records more =
      imported({{"sets.csv", "model,place\nTern 50,wall\nTern 50,wall\nTern 50,wall\n"}}, once);
  EXPECT_EQ(more.shop.sets.size(), 3U);
}

TEST(Import, keeps_fields_whose_column_is_not_in_the_file_and_empties_those_whose_cell_is_empty) {
  const Records once = imported({kTwoSets, kTwoParts});
  const Records after = imported({{"sets.csv", "code,consent,looks\nK7,,good\n"}}, once);
  EXPECT_EQ(after.shop.sets[0].model, "Tern 50");
  EXPECT_EQ(after.shop.sets[0].consent, Consent::unknown);
  EXPECT_EQ(after.shop.sets[0].looks, Looks::good);
  EXPECT_EQ(after.shop.sets[1], once.shop.sets[1]);
}

TEST(Import, counts_what_is_new_changed_and_the_same) {
  const Records once = imported({kTwoSets});
  auto result =
      merge_into(once, {{"sets.csv", "code,model\nK7,Tern 51\nD3,Tern 46\nX9,Tern 60\n"}});
  ASSERT_TRUE(result);
  EXPECT_EQ(result.value().sets, (Count{1, 1, 1}));
}

TEST(Import, refuses_a_code_that_another_set_has) {
  const Records once = imported({kTwoSets});
  const std::string id(32, 'a');
  EXPECT_EQ(fault({{"sets.csv", "code,id\nK7," + id + "\n"}}, once),
            "sets.csv, line 2: code K7 is already on the set with id " +
                to_text(once.shop.sets[0].id) + ", not " + id + "; give one of them another code.");
}

TEST(Import, refuses_a_code_that_a_thing_of_the_other_sort_has) {
  EXPECT_EQ(
      fault({kTwoSets, {"parts.csv", "code,type\nK7,LD-20\n"}}),
      "parts.csv, line 2: code K7 is on a set and also on a part; give one of them another code.");
}

TEST(Import, refuses_two_rows_about_the_same_thing) {
  EXPECT_EQ(fault({{"sets.csv", "code\nK7\nD3\nK7\n"}}),
            "sets.csv, line 4: set K7 stands in sets.csv, line 2 too; keep one of the two rows.");
  const Records once = imported({kTwoSets});
  EXPECT_EQ(fault({{"sets.csv", "code,id\nK7,\n," + to_text(once.shop.sets[0].id) + "\n"}}, once),
            "sets.csv, line 3: set K7 stands in sets.csv, line 2 too; keep one of the two rows.");
}

TEST(Import, follows_a_set_to_its_new_code) {
  const Records once = imported({kTwoSets,
                                 {"parts.csv", "code,from,place\nA2,K7,shelf\n"},
                                 {"wishes.csv", "wish,set\nbuild this,K7\n"}});
  const Records after =
      imported({{"sets.csv", "code,id\nK9," + to_text(once.shop.sets[0].id) + "\n"}}, once);
  EXPECT_EQ(after.shop.sets[0].code, "K9");
  EXPECT_EQ(after.shop.wishes[0].set, "K9");
  EXPECT_EQ(after.shop.parts[0].from, "K9");
}

TEST(Import, names_the_nearest_set_for_a_code_that_is_not_here) {
  EXPECT_EQ(fault({kTwoSets, {"parts.csv", "code,in_set,position\nA2,K8,supply\n"}}),
            "parts.csv, line 2: column \"in_set\": set K8 is not here; did you mean K7?");
  EXPECT_EQ(fault({kTwoSets, {"parts.csv", "code,in_set,position\nA2,XXXXX,supply\n"}}),
            "parts.csv, line 2: column \"in_set\": set XXXXX is not here; correct the code, or add "
            "the set to "
            "sets.csv.");
}

TEST(Import, refuses_two_parts_in_one_position_and_a_part_in_two_places) {
  EXPECT_EQ(fault({kTwoSets, {"parts.csv", "code,in_set,position\nA2,K7,supply\nA3,K7,supply\n"}}),
            "parts.csv, line 3: parts A2 and A3 are both in position \"supply\" of set K7; move "
            "one of them.");
  EXPECT_EQ(fault({kTwoSets, {"parts.csv", "code,in_set,position,place\nA2,K7,supply,shelf 2\n"}}),
            "parts.csv, line 2: part A2 is in set K7 and also on shelf \"shelf 2\"; a part is in "
            "one place: "
            "keep one of the two.");
  EXPECT_EQ(fault({kTwoSets, {"parts.csv", "code,position\nA2,supply\n"}}),
            "parts.csv, line 2: part A2 has position \"supply\" but is in no set; name the set in "
            "in_set, or "
            "take the position away.");
}

TEST(Import, refuses_a_part_in_a_position_that_is_missing) {
  EXPECT_EQ(fault({{"sets.csv", "code,missing\nK7,lamp | supply\n"},
                   {"parts.csv", "code,in_set,position\nA2,K7,supply\n"}}),
            "parts.csv, line 2: \"supply\" of set K7 is recorded as missing, but part A2 is in it; "
            "take it off "
            "the missing list, or move the part.");
}

TEST(Import, lets_a_part_leave_the_old_place_when_only_the_new_one_is_named) {
  const Records once = imported({kTwoSets, kTwoParts});
  const Records out = imported({{"parts.csv", "code,place\nA2,shelf 9\n"}}, once);
  EXPECT_EQ(out.shop.parts[0].place, "shelf 9");
  EXPECT_FALSE(out.shop.parts[0].in_set.has_value());
  EXPECT_EQ(out.shop.parts[0].position, "");
  EXPECT_EQ(out.shop.sets[0].missing, std::vector<std::string>{"supply"});
  const Records in = imported({{"parts.csv", "code,in_set,position\nA3,K7,supply\n"}}, out);
  EXPECT_EQ(in.shop.parts[1].place, "");
  EXPECT_EQ(in.shop.parts[1].in_set, in.shop.sets[0].id);
  EXPECT_TRUE(in.shop.sets[0].missing.empty());
}

TEST(Import, lets_two_parts_change_places) {
  const Records once =
      imported({kTwoSets, {"parts.csv", "code,in_set,position\nA2,K7,supply\nA3,D3,supply\n"}});
  const Records after =
      imported({{"parts.csv", "code,in_set,position\nA2,D3,supply\nA3,K7,supply\n"}}, once);
  EXPECT_EQ(after.shop.parts[0].in_set, after.shop.sets[1].id);
  EXPECT_EQ(after.shop.parts[1].in_set, after.shop.sets[0].id);
  EXPECT_TRUE(after.shop.sets[0].missing.empty());
}

TEST(Import, takes_changes_of_parts_by_code) {
  const NamedText changes = {
      "changes.toml",
      "format = 1\n[[part]]\npart = \"A2\"\n[[part.change]]\nchange = \"plug cut\"\n"
      "port = \"CN3\"\n"};
  const Records records = imported({kTwoSets, kTwoParts, changes});
  ASSERT_EQ(records.shop.parts[0].changes.size(), 1U);
  EXPECT_EQ(records.shop.parts[0].changes[0].port, "CN3");
  EXPECT_EQ(fault({kTwoSets,
                   kTwoParts,
                   {"changes.toml",
                    "[[part]]\npart = \"A4\"\n[[part.change]]\nchange = \"plug cut\"\n"
                    "port = \"CN3\"\n"}}),
            "changes.toml, line 1: part A4 is not here; did you mean A2?");
  EXPECT_EQ(fault({kTwoSets,
                   kTwoParts,
                   {"changes.toml",
                    "[[part]]\npart = \"A2\"\n[[part.change]]\nchange = \"plug cut\"\n"}}),
            "changes.toml, line 3: change = \"plug cut\" has no \"port\"; add it.");
}

std::string rebuild_text(const std::string& name, const std::string& host, const std::string& state,
                         const std::string& part) {
  return "[[rebuild]]\nname = \"" + name + "\"\nhost = \"" + host + "\"\nstate = \"" + state +
         "\"\nparts = [{position = \"supply\", part = \"" + part + "\"}]\n";
}

TEST(Import, takes_rebuilds_by_name_and_says_what_is_wrong_in_them) {
  const std::vector<NamedText> base = {kTwoSets, kTwoParts};
  const auto with = [&](const std::string& rebuilds) {
    auto texts = base;
    texts.push_back({"rebuilds.toml", "format = 1\n" + rebuilds});
    return texts;
  };
  const Records once = imported(with(rebuild_text("first", "D3", "begun", "A3")));
  ASSERT_EQ(once.shop.rebuilds.size(), 1U);
  const Records after = imported(with(rebuild_text("first", "D3", "given up", "A3")), once);
  ASSERT_EQ(after.shop.rebuilds.size(), 1U);
  EXPECT_EQ(after.shop.rebuilds[0].state, "given up");
  EXPECT_EQ(after.shop.rebuilds[0].id, once.shop.rebuilds[0].id);
  EXPECT_EQ(fault(with(rebuild_text("first", "D4", "begun", "A3"))),
            "rebuilds.toml, line 2: host: set D4 is not here; did you mean D3?");
  EXPECT_EQ(fault(with(rebuild_text("first", "D3", "half done", "A3"))),
            "rebuilds.toml, line 2: rebuild \"first\": state = \"half done\" must be one of begun, "
            "finished "
            "and given up.");
  EXPECT_EQ(fault(with(rebuild_text("one", "D3", "begun", "A3") +
                       rebuild_text("two", "K7", "begun", "A3"))),
            "rebuilds.toml, line 7: part A3 is already claimed by rebuild \"one\"; finish it or "
            "give it up "
            "before \"two\" begins.");
}

TEST(Import, replaces_a_swap_note_of_the_same_name) {
  const auto note = [](const std::string& result) {
    return NamedText{"notes.toml",
                     "format = 1\n[[swap_note]]\nswap_note = \"first\"\ninto = \"Tern 50\"\n"
                     "result = \"" +
                         result + "\"\n"};
  };
  const Records once = imported({note("works")});
  const Records after = imported({note("failed")}, once);
  ASSERT_EQ(after.shop.notes.size(), 1U);
  EXPECT_EQ(after.shop.notes[0].result, catalogue::SwapResult::failed);
}

TEST(Import, changes_only_the_terms_that_are_written) {
  const Records once = imported({{"shop.toml", "format = 1\nhours = 12\nmains_volts = 120\n"}});
  const Records after = imported({{"shop.toml", "currency = \"CHF\"\n"}}, once);
  EXPECT_EQ(after.shop.terms.currency, "CHF");
  EXPECT_EQ(after.shop.terms.hours, 12);
  EXPECT_EQ(after.shop.terms.mains_volts, 120);
}

TEST(Import, refuses_wishes_about_nothing) {
  const auto wish = [&](const std::string& row) {
    return fault({kTwoSets, kTwoParts, {"wishes.csv", "wish,set,part\n" + row + "\n"}});
  };
  EXPECT_EQ(wish("build this,,"),
            "wishes.csv, line 2: the wish \"build this\" names no set; give its code.");
  EXPECT_EQ(wish("keep part,,K7"),
            "wishes.csv, line 2: the wish \"keep part\" names part K7, which is not here; correct "
            "the code.");
  EXPECT_EQ(
      wish("keep part,K7,A2"),
      "wishes.csv, line 2: the wish \"keep part\" is not about a set, but names K7; take it away.");
}

TEST(Import, refuses_the_same_family_in_two_files) {
  EXPECT_EQ(fault({{"a.toml", "format = 1\nfamily = \"Tern\"\n"},
                   {"b.toml", "format = 1\nfamily = \"Tern\"\n"}}),
            "b.toml: family \"Tern\" stands in a.toml too; rename one or leave one out.");
}

}  // namespace
}  // namespace benchgraft::shop
