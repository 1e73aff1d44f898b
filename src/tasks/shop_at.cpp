#include "tasks/shop_at.hpp"

#include <chrono>
#include <ctime>
#include <filesystem>
#include <memory>
#include <random>

#include <fmt/format.h>

#include "tasks/names_remark.hpp"

namespace benchgraft::tasks {
namespace {

std::string now_text() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  gmtime_r(&now, &parts);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", parts.tm_year + 1900, parts.tm_mon + 1,
                     parts.tm_mday, parts.tm_hour, parts.tm_min, parts.tm_sec);
}

RandomBits fresh_bits() {
  auto device = std::make_shared<std::random_device>();
  return [device] {
    const std::uint64_t high = (*device)();
    return high << 32U | (*device)();
  };
}

}  // namespace

Result<store::Store> open_shop(const ShopAt& at, store::Mode mode) {
  if (at.path.empty())
    return Error{ErrorKind::not_found,
                 "No shop is named; write --shop FILE, or set BENCHGRAFT_SHOP to its file."};
  std::error_code ignored;
  if (mode != store::Mode::create && !std::filesystem::exists(at.path, ignored))
    return Error{ErrorKind::not_found,
                 fmt::format("There is no shop \"{0}\"; make it with: benchgraft --shop {0} import "
                             "FOLDER",
                             at.path)};
  return store::Store::open(at.path, mode);
}

shop::Occasion occasion(const ShopAt& at) { return {at.who, now_text(), fresh_bits()}; }

Result<Recorded> carry_out(const ShopAt& at, const shop::Command& command) {
  auto store = open_shop(at, store::Mode::write);
  if (!store) return store.error();
  auto done = store.value().execute(command, occasion(at));
  if (!done) return done.error();
  const auto families = store.value().families();
  if (!families) return families.error();
  return Recorded{done.value().entry, done.value().what, done.value().made,
                  remarks_on_names(command, families.value())};
}

}  // namespace benchgraft::tasks
