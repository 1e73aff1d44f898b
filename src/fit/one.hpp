// Judges one fully decided rebuild: one variant, one type per place.
#pragma once

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "fit/judge.hpp"

namespace benchgraft::fit {

/// What the rebuild is judged as.
struct Host {
  const catalogue::Model* model = nullptr;
  const catalogue::SetKind* kind = nullptr;
  const catalogue::Variant* variant = nullptr;
};

/// All rules over one rebuild whose candidates are settled.
Result<Judgement> judge_one(const catalogue::Catalogue& known,
                            const catalogue::RebuildText& rebuild, const Host& host,
                            const Conditions& conditions);

/// Model and kind the rebuild names. Fails when they are not recorded.
Result<Host> host_of(const catalogue::Catalogue& known, const std::string& model,
                     const std::string& kind, const Where& where);

}  // namespace benchgraft::fit
