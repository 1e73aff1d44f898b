// The shop a task works on, and the occasion of a change: who, when, fresh ids.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "store/store.hpp"

namespace benchgraft::tasks {

struct ShopAt {
  std::string path;  ///< shop file; "" = none was named
  std::string who;   ///< who acts
};

/// fails: not_found with a clear sentence when no shop was named or the file is not there.
Result<store::Store> open_shop(const ShopAt& at, store::Mode mode);

/// Now, by the clock of this machine, with unseeded random ids.
shop::Occasion occasion(const ShopAt& at);

/// What was recorded, for every command that changes something.
struct Recorded {
  std::int64_t entry = 0;  ///< of the journal; 0 when there was nothing to change
  std::string what;        ///< one sentence
  std::vector<std::string> made;
  std::vector<std::string> remarks = {};  ///< names nobody has recorded, one sentence each
};

/// Opens the shop for writing and carries out one command.
Result<Recorded> carry_out(const ShopAt& at, const shop::Command& command);

}  // namespace benchgraft::tasks
