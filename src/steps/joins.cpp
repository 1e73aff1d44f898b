#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

const fit::Seat* seat_of(const Site& site, const std::string& role, const std::string& type) {
  const fit::Seat* by_role = nullptr;
  for (const auto& seat : site.judged().seats) {
    if (std::find(seat.roles.begin(), seat.roles.end(), role) == seat.roles.end()) continue;
    if (seat.type == type) return &seat;
    if (by_role == nullptr) by_role = &seat;
  }
  return by_role;
}

const fit::Seat* seat_of_lead(const Site& site, const std::string& lead) {
  if (lead.empty()) return nullptr;
  for (const auto& seat : site.judged().seats)
    if (seat.type == lead) return &seat;
  return nullptr;
}

// Place in the order of putting in, counted from 1; 0 when it never came out.
std::size_t turn(const Handling& handling, const fit::Seat* seat) {
  for (std::size_t i = 0; seat != nullptr && i < handling.put_in.size(); ++i)
    if (handling.put_in[i].seat == seat) return i + 1;
  return 0;
}

std::string end_words(const std::string& port, const std::string& type, const std::string& role) {
  return fmt::format("{} of {}", port, type.empty() ? "the " + role : type);
}

bool has(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_about(const fit::Reason& reason, const fit::Link& link) {
  return has(reason.ports, link.from_port) && has(reason.ports, link.to_port) &&
         has(reason.types, link.from_type) && has(reason.types, link.to_type);
}

// The worst finding about the link as it was found; null when there is none.
const fit::Reason* reason_for(const fit::Judgement& judged, const fit::Link& link) {
  const fit::Reason* worst = nullptr;
  for (const auto& reason : judged.reasons)
    if (reason.will && is_about(reason, link) &&
        (worst == nullptr || reason.before > worst->before))
      worst = &reason;
  return worst;
}

// "once this is done: ..." for a link that the chosen work makes good.
std::string once_done(const fit::Judgement& judged, const fit::Link& link) {
  const auto* reason = reason_for(judged, link);
  if (reason == nullptr) return "";
  for (const auto& chosen : judged.adaptations)
    if (has(chosen.codes, reason->code)) return fmt::format(", once this is done: {}", chosen.name);
  return "";
}

std::string join_words(const fit::Judgement& judged, const fit::Link& link) {
  const std::string from = end_words(link.from_port, link.from_type, link.from_role);
  const std::string to = end_words(link.to_port, link.to_type, link.to_role);
  const std::string what = link.carries.empty() ? "" : fmt::format(" ({})", link.carries);
  const std::string with = link.lead.empty() ? "" : fmt::format(" with the lead {}", link.lead);
  switch (after_work(judged, link)) {
    case fit::Verdict::destroys:
      return fmt::format("Never join {} to {}{}.", from, to, what);
    case fit::Verdict::does_not_fit:
      return fmt::format("{} does not go to {}{}: leave it open.", capitalised(from), to, what);
    case fit::Verdict::unknown:
      return fmt::format("Join {} to {}{}{} only when its question is settled.", from, to, with,
                         what);
    case fit::Verdict::fits_with_work:
      return fmt::format("Join {} to {}{}{}{}.", from, to, with, what, once_done(judged, link));
    case fit::Verdict::fits:
      return fmt::format("Join {} to {}{}{}.", from, to, with, what);
  }
  return "";
}

// Two ports that the same plug goes into, as far as both are recorded.
bool alike(const catalogue::Connector& a, const catalogue::Connector& b) {
  return !a.family.empty() && a.family == b.family && a.ways && a.ways == b.ways &&
         (a.half == b.half || a.half == catalogue::Half::unknown ||
          b.half == catalogue::Half::unknown);
}

struct Socket {
  const catalogue::Port* port;
  std::string type;
};

std::vector<Socket> sockets(const Site& site, const Item& item) {
  std::vector<Socket> found;
  const auto* type = item.seat != nullptr ? site.type_out(*item.seat) : nullptr;
  if (type != nullptr && type->ports && !type->is_lead())
    for (const auto& port : *type->ports) found.push_back({&port, type->reference()});
  return found;
}

}  // namespace

fit::Verdict after_work(const fit::Judgement& judged, const fit::Link& link) {
  if (link.verdict < fit::Verdict::does_not_fit) return link.verdict;
  std::optional<fit::Verdict> worst;
  for (const auto& reason : judged.reasons)
    if (reason.will && is_about(reason, link))
      worst = std::max(worst.value_or(fit::Verdict::fits), reason.verdict);
  return worst.value_or(link.verdict);
}

std::vector<Statement> joins(const Site& site, const Handling& handling, std::size_t at) {
  std::vector<Statement> said;
  for (const auto& link : site.judged().links) {
    const std::size_t last =
        std::max({turn(handling, seat_of(site, link.from_role, link.from_type)),
                  turn(handling, seat_of(site, link.to_role, link.to_type)),
                  turn(handling, seat_of_lead(site, link.lead))});
    if (last != at + 1) continue;
    const auto* reason = reason_for(site.judged(), link);
    said.push_back({join_words(site.judged(), link), reason != nullptr ? reason->code : ""});
  }
  return said;
}

std::vector<Statement> alike_plugs(const Site& site, const Handling& handling, std::size_t at) {
  std::vector<Socket> within_reach;
  for (std::size_t later = at; later < handling.take_out.size(); ++later)
    for (auto& socket : sockets(site, handling.take_out[later])) within_reach.push_back(socket);

  std::vector<Statement> said;
  std::vector<const catalogue::Port*> told;
  for (const auto& own : sockets(site, handling.take_out[at])) {
    if (std::find(told.begin(), told.end(), own.port) != told.end()) continue;
    std::vector<std::string> group;
    for (const auto& other : within_reach)
      if (alike(own.port->connector, other.port->connector)) {
        group.push_back(fmt::format("{} of {}", other.port->name, other.type));
        told.push_back(other.port);
      }
    if (group.size() > 1)
      said.push_back(
          {fmt::format("{} take the same plug: mark both ends of each lead before you pull it.",
                       listed(group)),
           ""});
  }
  return said;
}

}  // namespace benchgraft::steps
