// What is here, on pages: sets, parts, wishes, rebuild records, what was found, what was done.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "sheets/page.hpp"
#include "shop/shop.hpp"

namespace benchgraft::sheets {

/// A line of the journal as it is shown.
struct JournalLine {
  std::int64_t number = 0;
  std::string when, who, command, what;
  std::int64_t taken_back_by = 0;  ///< 0 = it stands
};

/// Something a search came upon.
struct Found {
  std::string sort;  ///< "set", "part", "part type", "model", "kind"
  std::string code;  ///< or name
  std::string text;
};

Page sets_page(const shop::Shop& room);
Page parts_page(const shop::Shop& room);
Page wishes_page(const shop::Shop& room);
Page rebuilds_page(const shop::Shop& room);
Page terms_page(const shop::Terms& terms);
/// One set with the parts in it. in: `set` is of `room`.
Page set_page(const shop::Shop& room, const shop::Set& set,
              const std::vector<JournalLine>& history);
Page part_page(const shop::Shop& room, const shop::Part& part,
               const std::vector<JournalLine>& history);
Page journal_page(const std::vector<JournalLine>& lines);
Page found_page(const std::string& words, const std::vector<Found>& found);

std::string sets_json(const shop::Shop& room);
std::string parts_json(const shop::Shop& room);
std::string wishes_json(const shop::Shop& room);
std::string rebuilds_json(const shop::Shop& room);
std::string terms_json(const shop::Terms& terms);
std::string set_json(const shop::Shop& room, const shop::Set& set,
                     const std::vector<JournalLine>& history);
std::string part_json(const shop::Shop& room, const shop::Part& part,
                      const std::vector<JournalLine>& history);
std::string journal_json(const std::vector<JournalLine>& lines);
std::string found_json(const std::vector<Found>& found);

}  // namespace benchgraft::sheets
