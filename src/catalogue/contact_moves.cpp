#include "catalogue/contact_moves.hpp"

#include "catalogue/faults.hpp"

namespace benchgraft::catalogue {

Result<NewPlaces> new_places(const std::vector<const Change*>& moves) {
  Faults faults;
  NewPlaces places, came_from;
  for (const Change* move : moves) {
    if (!places.emplace(move->from, move->to).second)
      faults.add(move->where,
                 fmt::format("contact {} of port \"{}\" is moved twice; write where it "
                             "ended up.",
                             move->from, move->port));
    if (!came_from.emplace(move->to, move->from).second)
      faults.add(move->where,
                 fmt::format("two contacts of port \"{}\" are moved to {}; correct one.",
                             move->port, move->to));
  }
  if (auto sound = faults.result(); !sound) return sound.error();
  for (const Change* move : moves) {
    if (places.contains(move->to)) continue;  // whoever sat there moves by itself
    std::string left_empty = move->to;
    while (came_from.contains(left_empty)) left_empty = came_from.at(left_empty);
    places[move->to] = left_empty;
  }
  return places;
}

}  // namespace benchgraft::catalogue
