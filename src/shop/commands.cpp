#include "shop/commands.hpp"

#include <array>

#include <fmt/format.h>

#include "shop/carrying_out.hpp"
#include "shop/codes.hpp"
#include "shop/contradiction.hpp"
#include "shop/dates.hpp"

namespace benchgraft::shop {

namespace {

// In the order of Command.
constexpr std::array<const char*, std::variant_size_v<Command>> kCommandWords = {
    "take in",    "add part",      "move part",      "set state",      "record change",
    "change set", "change part",   "add wish",       "withdraw wish",  "set terms",
    "add note",   "begin rebuild", "finish rebuild", "give up rebuild"};

}  // namespace

Result<void> check_occasion(const Occasion& occasion) {
  if (occasion.who.empty())
    return Error{ErrorKind::bad_input, "nobody is named for this change; say who makes it."};
  if (occasion.when.size() < 10 || !is_date(occasion.when.substr(0, 10)))
    return Error{
        ErrorKind::bad_input,
        fmt::format("\"{}\" is not the time of a change; it starts with a day such as 2026-05-31.",
                    occasion.when)};
  return {};
}

Result<Effect> effect_of(const Command& command, const Shop& now, const Occasion& occasion) {
  if (auto sound = check_occasion(occasion); !sound) return sound.error();
  Work work{now, occasion};
  auto what = std::visit([&](const auto& one) { return carry_out(one, work); }, command);
  if (!what) return what.error();
  if (auto wrong = first_contradiction(work.shop)) return Error{wrong->kind, wrong->sentence};
  return Effect{kCommandWords[command.index()], std::move(what.value()), std::move(work.shop)};
}

std::string free_code(const Shop& shop, const RandomBits& random) {
  return draw_code(
      [&](const std::string& code) {
        return shop.set_by_code(code) != nullptr || shop.part_by_code(code) != nullptr;
      },
      random);
}

}  // namespace benchgraft::shop
