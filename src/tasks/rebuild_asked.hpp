// The rebuild a question is about: a file, or what the plan makes of one host of the shop.
#pragma once

#include <string>

#include "catalogue/rebuild_text.hpp"
#include "fit/judge.hpp"
#include "plan/plan.hpp"
#include "tasks/room.hpp"

namespace benchgraft::tasks {

struct RebuildAsked {
  std::string named;  ///< a rebuild file, or with a shop the code of a host
  ShopAt at;          ///< path "" = no shop
  Knowledge knowledge;
  Progress progress;  ///< for the plan, where one is needed
};

/// A rebuild, what is known about it, and what it was judged to be.
struct Judged {
  catalogue::Catalogue known;
  catalogue::RebuildText rebuild;
  fit::Judgement judgement;
  std::string currency;
};

/// The rebuild of `host` as `plan` has it, with what is on record about its own parts.
/// fails: not_found, saying what the plan does with that set instead.
Result<catalogue::RebuildText> rebuild_of(const Room& room, const plan::Plan& plan,
                                          const std::string& host);

/// Reads or plans the rebuild and judges it; with a shop, its statements are remembered.
Result<Judged> judge_asked(const RebuildAsked& asked);

/// True for the name of a file, false for the code of a host.
bool is_rebuild_file(const std::string& named);
Result<catalogue::RebuildText> read_rebuild_file(const std::string& path);
fit::Conditions conditions_of(const shop::Terms& terms);

/// Judges a rebuild that is already text, as `judge_asked` does.
Result<Judged> judge_text(const RebuildAsked& asked, const catalogue::RebuildText& rebuild);

}  // namespace benchgraft::tasks
