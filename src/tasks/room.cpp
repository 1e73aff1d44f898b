#include "tasks/room.hpp"

namespace benchgraft::tasks {

Result<Room> load_room(const ShopAt& at, const Knowledge& knowledge) {
  auto store = open_shop(at, store::Mode::read);
  if (!store) return store.error();
  auto room = store.value().load();
  if (!room) return room.error();
  auto families = store.value().families();
  if (!families) return families.error();
  if (!room.value().notes.empty()) families.value().push_back(notes_of_the_shop(room.value()));
  auto known = known_catalogue(knowledge, families.value());
  if (!known) return known.error();
  return Room{std::move(known).value(), std::move(room).value()};
}

}  // namespace benchgraft::tasks
