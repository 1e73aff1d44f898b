#include "tasks/wish.hpp"

#include "shop/words.hpp"
#include "tasks/read_word.hpp"

namespace benchgraft::tasks {

Result<Recorded> make_wish(const ShopAt& at, const std::string& sort, const std::string& set,
                           const std::string& part, const std::string& note) {
  auto known = read_word(shop::kWishWords, sort, "a wish");
  if (!known) return known.error();
  shop::AddWish add;
  add.wish.sort = known.value();
  add.wish.set = set;
  add.wish.part = part;
  add.wish.note = note;
  return carry_out(at, add);
}

Result<Recorded> withdraw_wish(const ShopAt& at, const std::string& id_start) {
  auto store = open_shop(at, store::Mode::read);
  if (!store) return store.error();
  auto room = store.value().load();
  if (!room) return room.error();
  const shop::Wish* found = nullptr;
  for (const auto& wish : room.value().wishes) {
    if (id_start.empty() || !to_text(wish.id).starts_with(id_start)) continue;
    if (found != nullptr)
      return Error{ErrorKind::conflict,
                   fmt::format("Several wishes begin with \"{}\"; write more of it.", id_start)};
    found = &wish;
  }
  if (found == nullptr)
    return Error{ErrorKind::not_found,
                 fmt::format("No wish begins with \"{}\"; \"list wishes\" shows them.", id_start)};
  return carry_out(at, shop::WithdrawWish{found->id});
}

}  // namespace benchgraft::tasks
