#include "shop/dates.hpp"

#include <chrono>

namespace benchgraft::shop {

bool is_date(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (const std::size_t i : {0U, 1U, 2U, 3U, 5U, 6U, 8U, 9U})
    if (text[i] < '0' || text[i] > '9') return false;
  const auto number = [&](std::size_t from, std::size_t length) {
    return std::stoi(text.substr(from, length));
  };
  return std::chrono::year_month_day{std::chrono::year(number(0, 4)),
                                     std::chrono::month(static_cast<unsigned>(number(5, 2))),
                                     std::chrono::day(static_cast<unsigned>(number(8, 2)))}
      .ok();
}

}  // namespace benchgraft::shop
