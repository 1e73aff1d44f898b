// The few words and figures all sheets share.
#pragma once

#include <string>

#include "base/units.hpp"
#include "fit/verdict.hpp"
#include "sheets/page.hpp"

namespace benchgraft::sheets {

/// "12.50 EUR"; currencies without minor units are written whole.
std::string money_text(Money money, const std::string& currency);
/// "Fits with work", as it stands on top of a sheet.
std::string verdict_mark(fit::Verdict verdict);
Tone tone_of(fit::Verdict verdict);
/// "one question", "3 questions".
std::string counted(std::size_t count, const std::string& one, const std::string& many);
/// `text` with its first letter small.
std::string lower_first(std::string text);
/// `text` with a full stop at its end, if it has no mark there.
std::string sentence(std::string text);

/// Blanks between a number and its unit made unbreakable (U+00A0): "5 V" stays on one line.
std::string bind_units(const std::string& text);

/// The lines every sheet that leads to work ends with.
std::vector<std::string> safety_foot();

}  // namespace benchgraft::sheets
