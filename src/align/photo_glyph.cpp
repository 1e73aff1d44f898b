#include "align/photo_glyph.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "align/photo_marks.hpp"

namespace benchgraft::align {
namespace {

constexpr int kWidth = 960, kHeight = 540;
constexpr double kLeastArea = 0.004;  // of the page; the F of the glyph page covers about 0.06
constexpr double kLeastMatch = 0.6, kLeastMargin = 0.12;

Error refuse(std::string_view why) { return {ErrorKind::bad_input, std::string(why)}; }

}  // namespace

std::string standing_words(const Standing& s) {
  if (!s.axes_exchanged) {
    if (s.left_right && s.upside_down) return "turned by half a turn";
    if (s.left_right) return "mirrored left to right";
    if (s.upside_down) return "mirrored top to bottom";
    return "the right way round";
  }
  // Exchanged axes, then mirrored left to right, is a quarter turn clockwise.
  if (s.left_right && !s.upside_down) return "turned by a quarter to the right";
  if (!s.left_right && s.upside_down) return "turned by a quarter to the left";
  return s.left_right ? "turned by a quarter to the left and mirrored left to right"
                      : "turned by a quarter to the right and mirrored left to right";
}

Result<SeenGlyph> see_glyph(const Photo& photo, const Screen& screen) {
  const Marks marks = find_marks(straightened(photo, screen, kWidth, kHeight), false);
  const Mark* largest = nullptr;
  for (const Mark& mark : marks.marks)
    if (!mark.at_border && mark.area > kLeastArea * kWidth * kHeight &&
        (largest == nullptr || mark.area > largest->area))
      largest = &mark;
  if (largest == nullptr)
    return refuse(
        "there is no F in this photo; show the glyph page on the whole screen and take "
        "it again");
  const GlyphMatch found = match_glyph(marks, *largest);
  if (found.match < kLeastMatch || found.margin < kLeastMargin)
    return refuse(
        "the mark in this photo is not the F of the glyph page, or is too unclear to tell "
        "which way round it stands; show the glyph page and go nearer");
  return SeenGlyph{found.standing,
                   {(largest->left + largest->right) / 2 / kWidth,
                    (largest->top + largest->bottom) / 2 / kHeight},
                   found.match,
                   found.margin};
}

}  // namespace benchgraft::align
