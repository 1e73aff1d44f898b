// What to get, by where it comes from.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

// Usual minutes, common practice, no source; replaced by the kind's own where it has them.
constexpr double kFetchMinutes = 2;

// Where a part is fetched: a donor by its code or model, or one of these.
constexpr const char* kBought = "bought";
constexpr const char* kShelf = "shelf";
constexpr const char* kReady = "";
constexpr const char* kNobodySaid = "elsewhere";

std::string fetch_title(const std::string& from) {
  if (from == kBought) return "Have these bought parts on the bench.";
  if (from == kShelf) return "Take these parts from the shelf.";
  if (from == kReady) return "Lay these ready as well.";
  if (from == kNobodySaid) return "Have these parts on the bench.";
  return fmt::format("Take these parts out of {}.", from);
}

struct Fetched {
  std::string from;
  std::vector<Statement> parts;
  std::vector<std::string> roles;
};

Fetched& fetched_from(const std::string& from, std::vector<Fetched>& sources) {
  for (auto& known : sources)
    if (known.from == from) return known;
  return sources.emplace_back(Fetched{from, {}, {}});
}

bool is_a_seat(const fit::Judgement& judged, const std::string& what) {
  return std::any_of(judged.seats.begin(), judged.seats.end(),
                     [&](const fit::Seat& seat) { return seat.changed && seat.type == what; });
}

// What to get, by where it comes from, in the order the sources are first named.
std::vector<Fetched> by_source(const Site& site) {
  std::vector<Fetched> sources;
  const auto& judged = site.judged();
  for (const auto& seat : judged.seats) {
    if (!seat.changed || seat.from.empty() || seat.from == "host") continue;
    auto& fetched = fetched_from(is_bought(seat.from) ? kBought : seat.from, sources);
    fetched.parts.push_back({sentence(named(seat.position, seat.type)), ""});
    fetched.roles.insert(fetched.roles.end(), seat.roles.begin(), seat.roles.end());
  }
  for (const auto& along : judged.companions)
    if (is_bought(along.from) && !is_a_seat(judged, along.what))
      fetched_from(kBought, sources).parts.push_back({sentence(along.what), along.code});
  for (const auto& chosen : judged.adaptations)
    for (const auto& brought : chosen.brings)
      fetched_from(kReady, sources)
          .parts.push_back({fmt::format("{}, for: {}.", capitalised(brought), chosen.name),
                            chosen.codes.empty() ? "" : chosen.codes.front()});
  return sources;
}

}  // namespace

void fetch(const Site& site, Steps& steps) {
  for (auto& fetched : by_source(site)) {
    const auto& from = fetched.from;
    const bool donor = from != kBought && from != kShelf && from != kReady;
    auto made = step(Stage::fetch, fetch_title(from), kFetchMinutes);
    made.details = std::move(fetched.parts);
    if (donor) {
      const auto out = site.out_minutes(fetched.roles);
      const auto opening = site.kind() != nullptr ? site.kind()->open_minutes : std::nullopt;
      made.work_minutes = out && opening ? std::optional(*out + *opening) : std::nullopt;
      made.roles = fetched.roles;
      made.details.push_back(
          {"Make that set safe in the same way first: plug out, cooled down, "
           "discharged, proven dead by meter.",
           ""});
      made.details.push_back(
          {"Keep each part's own leads, screws, brackets and shields with it. "
           "Bag and label it.",
           ""});
    }
    steps.push_back(std::move(made));
  }
}

}  // namespace benchgraft::steps
