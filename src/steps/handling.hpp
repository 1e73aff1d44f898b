// What has to be handled, and in which order it goes back in.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "steps/site.hpp"

namespace benchgraft::steps {

/// A seat of the set, or a piece that is fitted by itself.
struct Item {
  const fit::Seat* seat = nullptr;  ///< null for a piece
  std::string piece;
  std::string piece_from;  ///< where a carried-over piece comes from, "" when it stays in the set
  std::string code;        ///< of the reason why a piece must come along
  std::vector<std::string> roles;
  std::vector<std::string> after;  ///< recorded: what must be in before it
  bool comes_out = false;
  bool goes_in = false;

  [[nodiscard]] const std::string& name() const { return seat != nullptr ? seat->position : piece; }
};

struct Handling {
  std::vector<Item> put_in;    ///< in order
  std::vector<Item> take_out;  ///< in order; only what is there
  std::vector<Item> on_bench;  ///< pieces moved across before anything goes in
};

/// method: all seats and pieces are ordered over what is recorded, then by what is usual for the
/// kind; handled are the changed ones and everything that was put in after them.
/// fails: a circle.
Result<Handling> handle(const Site& site);

}  // namespace benchgraft::steps
