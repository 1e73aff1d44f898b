#include "tasks/terms.hpp"

#include <cmath>

namespace benchgraft::tasks {

Result<Recorded> set_terms(const ShopAt& at, const TermsWords& words) {
  auto store = open_shop(at, store::Mode::read);
  if (!store) return store.error();
  auto room = store.value().load();
  if (!room) return room.error();
  shop::Terms terms = room.value().terms;
  if (words.currency) terms.currency = *words.currency;
  if (words.touch_profile) terms.touch_profile = *words.touch_profile;
  if (words.per_hour) terms.per_hour.minor = std::llround(*words.per_hour * 100);
  if (words.hours) terms.hours = *words.hours > 0 ? words.hours : std::nullopt;
  if (words.mains_volts) terms.mains_volts = *words.mains_volts;
  if (words.mains_hz) terms.mains_hz = *words.mains_hz;
  return carry_out(at, shop::SetTerms{terms});
}

}  // namespace benchgraft::tasks
