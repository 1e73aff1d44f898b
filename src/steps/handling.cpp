#include "steps/handling.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "steps/precedence.hpp"

namespace benchgraft::steps {
namespace {

using Numbers = std::vector<std::size_t>;

bool fills(const Item& item, const std::string& role) {
  return std::find(item.roles.begin(), item.roles.end(), role) != item.roles.end();
}

// What "after" means by a word: the place or piece of that name, else whatever fills that role.
Numbers meant_by(const std::vector<Item>& items, const std::string& word) {
  Numbers named, filling;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].name() == word) named.push_back(i);
    if (items[i].seat != nullptr && fills(items[i], word)) filling.push_back(i);
  }
  return named.empty() ? filling : named;
}

Item& piece_item(const catalogue::Piece& piece, const fit::Seat& seat, std::vector<Item>& items) {
  for (auto& held : items)
    if (held.seat == nullptr && held.piece == piece.name) {
      if (held.after.empty()) held.after = piece.after;
      return held;
    }
  Item item;
  item.piece = piece.name;
  item.roles = seat.roles;
  item.after = piece.after;
  items.push_back(std::move(item));
  return items.back();
}

void add_pieces(const Site& site, const fit::Seat& seat, std::vector<Item>& items) {
  const auto* out = site.type_out(seat);
  if (out != nullptr && out->carries)
    for (const auto& piece : *out->carries) piece_item(piece, seat, items).comes_out = true;
  const auto* in = site.type_in(seat);
  if (in == nullptr) return;
  for (const auto* list : {&in->carries, &in->needs})
    if (*list)
      for (const auto& piece : **list) piece_item(piece, seat, items).goes_in = true;
}

// Pieces that must come along stay in the set even though their old part leaves it.
void add_companions(const fit::Judgement& judged, std::vector<Item>& items) {
  for (const auto& along : judged.companions) {
    if (along.sort != "piece") continue;
    fit::Seat seat;
    seat.roles = {along.role};
    auto& item = piece_item({along.what, "", {}, {}}, seat, items);
    item.goes_in = true;
    item.piece_from = along.from;
    item.code = along.code;
  }
}

bool is_there(const Site& site, const fit::Seat& seat) {
  if (seat.changed) return !seat.was.empty() || !site.build_known();
  return !seat.type.empty() || seat.from == "host";
}

std::vector<Item> all_items(const Site& site) {
  std::vector<Item> items;
  for (const auto& seat : site.judged().seats) {
    Item item;
    item.seat = &seat;
    item.roles = seat.roles;
    item.after = seat.after;
    item.comes_out = is_there(site, seat);
    item.goes_in = !seat.changed || !seat.type.empty() || seat.from != "host";
    items.push_back(std::move(item));
  }
  for (const auto& seat : site.judged().seats) add_pieces(site, seat, items);
  add_companions(site.judged(), items);
  return items;
}

Result<void> no_circle(const Precedence& before, const std::vector<Item>& items,
                       const std::string& model) {
  const auto outcome = before.sorted();
  if (outcome.circle.empty()) return {};
  std::string round;
  for (const std::size_t i : outcome.circle)
    round += fmt::format("\"{}\" before ", items[i].name());
  round += fmt::format("\"{}\"", items[outcome.circle.front()].name());
  return Error{
      ErrorKind::bad_input,
      fmt::format("Positions and pieces of \"{}\" wait for each other in a circle: {}; take one of "
                  "these \"after\" out.",
                  model, round)};
}

// Recorded "after" of positions and pieces.
void require_recorded(const std::vector<Item>& items, Precedence& before) {
  for (std::size_t then = 0; then < items.size(); ++then)
    for (const auto& word : items[then].after)
      for (const std::size_t first : meant_by(items, word))
        if (first != then || items[first].name() == word) before.require(first, then);
}

// A piece with no order of its own goes in with, and so after, the part it belongs to.
void prefer_carrier_first(const std::vector<Item>& items, Precedence& before) {
  for (std::size_t piece = 0; piece < items.size(); ++piece) {
    if (items[piece].seat != nullptr || !items[piece].after.empty()) continue;
    for (std::size_t seat = 0; seat < items.size(); ++seat)
      if (items[seat].seat != nullptr && shares(items[seat].roles, items[piece].roles))
        before.prefer(seat, piece);
  }
}

// What is usual for the kind, where the records do not say the opposite.
void prefer_usual(const catalogue::SetKind& kind, const std::vector<Item>& items,
                  Precedence& before) {
  for (const auto& usual : kind.roles)
    for (const auto& earlier : usual.after)
      for (std::size_t first = 0; first < items.size(); ++first)
        for (std::size_t then = 0; then < items.size(); ++then)
          if (items[first].seat != nullptr && items[then].seat != nullptr &&
              fills(items[first], earlier) && fills(items[then], usual.role))
            before.prefer(first, then);
}

// A piece is a step of its own only when something recorded hangs on when it goes in.
bool has_a_moment(const std::vector<Item>& items, std::size_t piece) {
  if (!items[piece].after.empty()) return true;
  return std::any_of(items.begin(), items.end(), [&](const Item& other) {
    return std::find(other.after.begin(), other.after.end(), items[piece].piece) !=
           other.after.end();
  });
}

bool belongs_to_a_change(const std::vector<Item>& items, const Item& piece) {
  return std::any_of(items.begin(), items.end(), [&](const Item& other) {
    return other.seat != nullptr && other.seat->changed && shares(other.roles, piece.roles);
  });
}

Numbers changed_ones(const std::vector<Item>& items) {
  Numbers changed;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Item& item = items[i];
    if (item.seat != nullptr
            ? item.seat->changed
            : !item.code.empty() || (has_a_moment(items, i) && belongs_to_a_change(items, item)))
      changed.push_back(i);
  }
  return changed;
}

Handling sorted_out(const std::vector<Item>& items, const Numbers& order,
                    const std::vector<bool>& touched) {
  Handling handling;
  for (const std::size_t i : order) {
    const Item& item = items[i];
    if (!touched[i]) continue;
    if (item.seat == nullptr && !has_a_moment(items, i)) {
      if (!item.code.empty()) handling.on_bench.push_back(item);
      continue;
    }
    if (item.goes_in) handling.put_in.push_back(item);
    if (item.comes_out) handling.take_out.insert(handling.take_out.begin(), item);
  }
  return handling;
}

}  // namespace

Result<Handling> handle(const Site& site) {
  const auto items = all_items(site);
  Precedence before(items.size());
  require_recorded(items, before);
  const auto together = no_circle(before, items, site.judged().model);
  if (!together) return together.error();

  // With no model on record the usual order of the kind also says what is in the way.
  const Precedence recorded = before;
  prefer_carrier_first(items, before);
  if (site.kind() != nullptr) prefer_usual(*site.kind(), items, before);
  const auto& in_the_way = site.model() != nullptr ? recorded : before;
  return sorted_out(items, before.sorted().order, in_the_way.waiting_for(changed_ones(items)));
}

}  // namespace benchgraft::steps
