#include "sheets/shop_pages.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/words.hpp"
#include "shop/words.hpp"

namespace benchgraft::sheets {
namespace {

using shop::word_of;

Page titled(const std::string& title) {
  Page page;
  page.title = title;
  return page;
}

Page tabled(const std::string& title, const std::string& when_empty,
            const std::vector<std::string>& head, std::vector<std::vector<std::string>> rows) {
  Page page = titled(title);
  Block block;
  if (rows.empty()) block.lead = when_empty;
  block.table = {head, std::move(rows)};
  page.blocks.push_back(std::move(block));
  return page;
}

std::string or_unknown(const std::string& word) { return word.empty() ? "not known" : word; }

template <class List, class E>
std::string word(const List& list, E value) {
  return or_unknown(std::string(word_of(list, value)));
}

std::string model_of(const shop::Set& set) {
  if (!set.model.empty()) return set.variant.empty() ? set.model : set.model + ", " + set.variant;
  if (!set.candidates.empty()) return "one of: " + listed(set.candidates);
  return set.kind.empty() ? "not known" : set.kind;
}

std::string type_of(const shop::Part& part) {
  if (!part.type.empty()) return part.changes.empty() ? part.type : part.type + ", changed";
  if (!part.candidates.empty()) return "one of: " + listed(part.candidates);
  return part.roles.empty() ? "not known" : "not known: " + listed(part.roles);
}

std::string place_of(const shop::Shop& room, const shop::Part& part) {
  if (!part.in_set) return part.place.empty() ? "not said where" : part.place;
  const auto* set = room.set(*part.in_set);
  return fmt::format("in {}, {}", set != nullptr ? set->code : "a set", part.position);
}

void add_fact(Block& block, const std::string& name, const std::string& value) {
  if (value.empty()) return;
  Line line;
  line.mark = name;
  line.text = value;
  block.lines.push_back(std::move(line));
}

Block history_block(const std::vector<JournalLine>& history) {
  Block block;
  block.heading = "What was done";
  for (const auto& entry : history) {
    Line line;
    line.text = fmt::format("{} {}: {}", entry.when.substr(0, 10), entry.who, sentence(entry.what));
    line.aside = fmt::format("entry {}", entry.number);
    if (entry.taken_back_by != 0) line.mark = "Taken back";
    block.lines.push_back(std::move(line));
  }
  return block;
}

std::string hours_text(const std::optional<double>& hours) {
  return hours ? fmt::format("{:g} h", *hours) : "";
}

std::string changes_text(const shop::Part& part) {
  std::vector<std::string> words;
  for (const auto& change : part.changes) {
    std::string text(catalogue::word_of(catalogue::kChangeSortWords, change.sort));
    for (const auto* more : {&change.port, &change.piece, &change.setting})
      if (!more->empty()) text += " " + *more;
    words.push_back(text);
  }
  return listed(words);
}

std::vector<std::string> part_row(const shop::Shop& room, const shop::Part& part) {
  return {part.code, type_of(part), word(shop::kStateWords, part.state), place_of(room, part),
          part.from};
}

const std::vector<std::string> kPartHead{"Code", "Type", "State", "Where", "From"};

}  // namespace

Page sets_page(const shop::Shop& room) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& set : room.sets)
    rows.push_back({set.code, model_of(set), word(shop::kConsentWords, set.consent),
                    set.fate == shop::Fate::here ? set.place : word(shop::kFateWords, set.fate),
                    set.complaint});
  return tabled("Sets", "No set is here yet.", {"Code", "Model", "Strip it?", "Where", "Complaint"},
                std::move(rows));
}

Page parts_page(const shop::Shop& room) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& part : room.parts) rows.push_back(part_row(room, part));
  return tabled("Parts", "No part is here yet.", kPartHead, std::move(rows));
}

Page wishes_page(const shop::Shop& room) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& wish : room.wishes)
    rows.push_back({word(shop::kWishWords, wish.sort), wish.set, wish.part, wish.note,
                    to_text(wish.id).substr(0, 8)});
  return tabled("Wishes", "Nothing is insisted on.", {"Wish", "Set", "Part", "Note", "Withdraw by"},
                std::move(rows));
}

Page rebuilds_page(const shop::Shop& room) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& rebuild : room.rebuilds) {
    const auto* host = room.set(rebuild.host);
    rows.push_back({rebuild.name, host != nullptr ? host->code : "", rebuild.state, rebuild.started,
                    rebuild.finished,
                    rebuild.work_minutes ? minutes_text(*rebuild.work_minutes) : ""});
  }
  return tabled("Rebuilds", "No rebuild was begun yet.",
                {"Name", "Host", "State", "Begun", "Finished", "Work"}, std::move(rows));
}

Page terms_page(const shop::Terms& terms) {
  Page page = titled("Terms of this shop");
  Block block;
  add_fact(block, "Hour at the bench", money_text(terms.per_hour, terms.currency));
  add_fact(block, "Hours to plan for",
           terms.hours ? fmt::format("{:g}", *terms.hours) : "no limit");
  add_fact(block, "Mains", fmt::format("{:g} V, {:g} Hz", terms.mains_volts, terms.mains_hz));
  add_fact(block, "Touch limit",
           terms.touch_profile.empty() ? "the strictest on record" : terms.touch_profile);
  add_fact(block, "An untested part works", percent_text(terms.chance_untested));
  add_fact(block, "A part tested good works", percent_text(terms.chance_good));
  add_fact(block, "A suspect part works", percent_text(terms.chance_suspect));
  page.blocks.push_back(std::move(block));
  return page;
}

Page set_page(const shop::Shop& room, const shop::Set& set,
              const std::vector<JournalLine>& history) {
  Page page = titled("Set " + set.code);
  Block facts;
  add_fact(facts, "Model", model_of(set));
  add_fact(facts, "Owner", set.owner);
  add_fact(facts, "May it be stripped", word(shop::kConsentWords, set.consent));
  add_fact(facts, "Looks", word(shop::kLooksWords, set.looks));
  add_fact(facts, "Complaint", set.complaint);
  add_fact(facts, "Missing", listed(set.missing));
  add_fact(facts, "Place", set.place);
  add_fact(facts, "Taken in", set.taken_in);
  add_fact(facts, "What became of it", word(shop::kFateWords, set.fate));
  add_fact(facts, "Note", set.note);
  page.blocks.push_back(std::move(facts));

  Block parts;
  parts.heading = "Parts in it";
  for (const auto* part : room.parts_in(set.id)) parts.table.rows.push_back(part_row(room, *part));
  if (parts.table.rows.empty()) parts.lead = "No part in it is on record by itself.";
  parts.table.head = kPartHead;
  page.blocks.push_back(std::move(parts));
  page.blocks.push_back(history_block(history));
  return page;
}

Page part_page(const shop::Shop& room, const shop::Part& part,
               const std::vector<JournalLine>& history) {
  Page page = titled("Part " + part.code);
  Block facts;
  add_fact(facts, "Type", type_of(part));
  add_fact(facts, "State", word(shop::kStateWords, part.state));
  add_fact(facts, "Tested", part.tested_how);
  add_fact(facts, "Tested in", part.tested_in);
  add_fact(facts, "Tested on", part.tested_on);
  add_fact(facts, "Run", hours_text(part.run_hours));
  if (part.chance) add_fact(facts, "Works at", percent_text(*part.chance));
  add_fact(facts, "Where", place_of(room, part));
  add_fact(facts, "From", part.from);
  add_fact(facts, "Changes", changes_text(part));
  add_fact(facts, "Note", part.note);
  page.blocks = {std::move(facts), history_block(history)};
  return page;
}

Page journal_page(const std::vector<JournalLine>& lines) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& line : lines)
    rows.push_back({std::to_string(line.number), line.when, line.who,
                    line.taken_back_by != 0
                        ? fmt::format("{} (taken back by {})", line.what, line.taken_back_by)
                        : line.what});
  return tabled("Journal, newest first", "Nothing was done yet.", {"Entry", "When", "Who", "What"},
                std::move(rows));
}

Page found_page(const std::string& words, const std::vector<Found>& found) {
  Page page = titled("Found for: " + words);
  Block block;
  if (found.empty()) block.lead = "Nothing here has every one of these words.";
  for (const auto& each : found) {
    Line line;
    line.mark = capitalised(each.sort) + " " + each.code;
    line.text = each.text;
    block.lines.push_back(std::move(line));
  }
  page.blocks.push_back(std::move(block));
  return page;
}

}  // namespace benchgraft::sheets
