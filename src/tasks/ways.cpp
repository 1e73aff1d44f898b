#include "tasks/ways.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "plan/facts.hpp"
#include "sheets/ways_page.hpp"
#include "tasks/offers.hpp"

namespace benchgraft::tasks {
namespace {

constexpr double kChanceOfBought = 0.95;  // where no shop says otherwise (assumed, as in a shop)

struct Asking {
  Room room;  ///< `shop` empty without one
  bool has_shop = false;
};

Result<Asking> asking_of(const RebuildAsked& asked) {
  if (asked.at.path.empty()) {
    auto known = known_catalogue(asked.knowledge);
    if (!known) return known.error();
    return Asking{{std::move(known).value(), {}}, false};
  }
  auto room = load_room(asked.at, asked.knowledge);
  if (!room) return room.error();
  return Asking{std::move(room).value(), true};
}

// The host as it stands: what it lacks is missing, and what was tested bad comes out.
Result<catalogue::RebuildText> host_of(const Room& room, const std::string& named) {
  const auto* set = room.shop.set_by_code(named);
  if (set == nullptr)
    return Error{
        ErrorKind::not_found,
        fmt::format("\"{}\" is neither a rebuild file nor the code of a set of this shop.", named)};
  if (set->model.empty())
    return Error{ErrorKind::not_found,
                 fmt::format("The model of {} is not known; find the label, then write: benchgraft "
                             "set {} --model MODEL.",
                             set->code, set->code)};
  auto text = plan::host_as_text(room.known, room.shop, *set);
  text.missing = set->missing;
  for (const auto* part : room.shop.parts_in(set->id)) {
    for (auto& seen : text.seen)
      if (seen.place == part->position) seen.where.file = "part " + part->code;
    if (part->state == shop::State::bad && !part->position.empty() &&
        std::find(text.missing.begin(), text.missing.end(), part->position) == text.missing.end())
      text.missing.push_back(part->position);
  }
  return text;
}

Result<fit::WaysOut> found(const Asking& asking, const catalogue::RebuildText& rebuild,
                           const fit::WaysAsked& most) {
  const auto& terms = asking.room.shop.terms;
  auto offers = asking.has_shop ? offers_of(asking.room, rebuild.name)
                                : Result(offers_to_buy(asking.room.known, kChanceOfBought));
  if (!offers) return offers.error();
  fit::WaysAsked asked = most;
  asked.minor_per_minute = static_cast<double>(terms.per_hour.minor) / 60;
  return fit::ways_out(asking.room.known, rebuild, conditions_of(terms), offers.value(), asked);
}

}  // namespace

Result<Answer> ways(const RebuildAsked& asked) {
  auto asking = asking_of(asked);
  if (!asking) return asking.error();
  auto rebuild = is_rebuild_file(asked.named) || !asking.value().has_shop
                     ? read_rebuild_file(asked.named)
                     : host_of(asking.value().room, asked.named);
  if (!rebuild) return rebuild.error();
  if (asked.progress) asked.progress("Judging what could be put in ...");
  const auto ways = found(asking.value(), rebuild.value(), {});
  if (!ways) return ways.error();
  const sheets::About about{rebuild.value().name, asking.value().room.shop.terms.currency};
  return Answer{sheets::ways_page(ways.value(), about), sheets::ways_json(ways.value(), about)};
}

Result<std::optional<fit::Way>> cheapest_way(const RebuildAsked& asked,
                                             const catalogue::RebuildText& rebuild,
                                             std::size_t most_judgements) {
  auto asking = asking_of(asked);
  if (!asking) return asking.error();
  fit::WaysAsked most;
  most.most_judgements = most_judgements;
  most.most_ways = 1;
  auto ways = found(asking.value(), rebuild, most);
  if (!ways) return ways.error();
  if (ways.value().ways.empty()) return std::optional<fit::Way>{};
  return std::optional(std::move(ways.value().ways.front()));
}

}  // namespace benchgraft::tasks
