#include "align/photo_bars.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "align/pattern_layout.hpp"

namespace benchgraft::align {
namespace {

constexpr int kWidth = 960, kHeight = 540;  // of the straightened page
constexpr double kClipped = 0.97, kDark = 0.04;

Error refuse(std::string_view why) { return {ErrorKind::bad_input, std::string(why)}; }

/// The straightened page, read in page places whichever way up it is seen.
class SeenPage {
 public:
  explicit SeenPage(LinearPicture picture) : picture_(std::move(picture)) {}

  bool upside_down = false;
  double shift = 0, scale = 1;  ///< screen x = 0.5 + shift + scale (page x - 0.5)

  /// Mean light of a box given in shares of the page, upright as seen after `upside_down`.
  [[nodiscard]] BarColour mean(double left, double top, double right, double bottom) const {
    if (upside_down) std::swap(top, bottom), top = 1 - top, bottom = 1 - bottom;
    const int x0 = column(left), x1 = std::max(x0 + 1, column(right));
    const int y0 = row(top), y1 = std::max(y0 + 1, row(bottom));
    BarColour sum{};
    for (int y = y0; y < y1; ++y)
      for (int x = x0; x < x1; ++x) {
        const PixelLight light = picture_.at(std::min(x, kWidth - 1), std::min(y, kHeight - 1));
        for (std::size_t c = 0; c < 3; ++c) sum[c] += light[c];
      }
    for (double& channel : sum) channel /= static_cast<double>(x1 - x0) * (y1 - y0);
    return sum;
  }

  [[nodiscard]] int column(double page_x) const {
    return std::clamp(static_cast<int>((0.5 + shift + scale * (page_x - 0.5)) * kWidth), 0,
                      kWidth - 1);
  }

 private:
  static int row(double page_y) {
    return std::clamp(static_cast<int>(page_y * kHeight), 0, kHeight - 1);
  }
  LinearPicture picture_;
};

double least(const BarColour& c) { return std::min({c[0], c[1], c[2]}); }
double most(const BarColour& c) { return std::max({c[0], c[1], c[2]}); }

/// Finds how far the page is shifted and stretched across by its white strips and black gaps; how
/// well it fits (1 at best) comes back. A shown picture is often a few per cent too large.
double line_up(SeenPage& page) {
  std::array<BarColour, kWidth> columns{};
  for (int x = 0; x < kWidth; ++x)
    columns[static_cast<std::size_t>(x)] =
        page.mean((x + 0.0) / kWidth, 0.42, (x + 1.0) / kWidth, 0.58);
  double white = 0;
  for (const BarColour& c : columns) white = std::max(white, least(c));
  double best = -1, best_shift = 0, best_scale = 1;
  for (double scale = 0.88; scale < 1.121; scale += 0.01)
    for (double shift = -0.06; shift < 0.0601; shift += 0.004) {
      const auto at = [&](double x) -> const BarColour& {
        const double place = (0.5 + shift + scale * (x - 0.5)) * kWidth;
        return columns[static_cast<std::size_t>(std::clamp(place, 0.0, kWidth - 1.0))];
      };
      double score = 0;
      for (const double x : index_page::kStripMiddles) {
        score += 0.5 * (least(at(x - 0.012)) + least(at(x + 0.012))) / 4;
      }
      for (const double x : index_page::kGapMiddles) score -= most(at(x)) / 6;
      if (score > best) best = score, best_shift = shift, best_scale = scale;
    }
  page.shift = best_shift;
  page.scale = best_scale;
  return white > 0 ? best / white : 0;
}

/// White squares side by side in the band below a bar: the most that five rows agree on.
int squares_below(const SeenPage& page, double middle, double white) {
  std::array<int, 8> rows{};
  for (double y = 0.71; y < 0.90; y += 1.0 / kHeight) {
    std::size_t runs = 0;
    bool inside = false;
    for (double x = middle - 0.105; x < middle + 0.105; x += 1.0 / kWidth) {
      const bool lit = least(page.mean(x, y, x, y)) > 0.4 * white;
      runs += lit && !inside;
      inside = lit;
    }
    ++rows[std::min(runs, rows.size() - 1)];
  }
  for (std::size_t n = rows.size() - 1; n > 0; --n)
    if (rows[n] >= 5) return static_cast<int>(n);
  return 0;
}

using Counts = std::array<int, 3>;

Counts counts_below(const SeenPage& page, double white) {
  Counts counts{};
  for (std::size_t i = 0; i < 3; ++i)
    counts[i] = squares_below(page, index_page::kBarMiddles[i], white);
  return counts;
}

constexpr Counts kForward{1, 2, 3}, kBackward{3, 2, 1};

/// White across the page at one height, through the four strips.
struct WhiteAcross {
  std::array<Parabola, 3> channel;
  WhiteAcross(const SeenPage& page, double top, double bottom) {
    std::array<std::vector<Point>, 3> points;
    for (const double x : index_page::kStripMiddles) {
      const double half = 0.6 * index_page::kStripHalfWidth;
      const BarColour c = page.mean(x - half, top, x + half, bottom);
      for (std::size_t i = 0; i < 3; ++i) points[i].push_back({x, c[i]});
    }
    for (std::size_t i = 0; i < 3; ++i) channel[i] = fit_parabola(points[i]);
  }
};

/// Mean and deviation of the patches of one bar, each against the white beside it.
void measure_bar(const SeenPage& page, double middle, BarColour& mean, BarColour& error) {
  constexpr int kRows = 6, kColumns = 5;
  const double half = 0.6 * index_page::kBarHalfWidth;
  const double top = index_page::kBarTop + 0.07, bottom = index_page::kBarBottom - 0.07;
  const BarColour black = page.mean(middle - half, 0.70, middle + half, 0.74);
  std::vector<BarColour> patches;
  for (int j = 0; j < kRows; ++j) {
    const double y0 = top + (bottom - top) * j / kRows, y1 = top + (bottom - top) * (j + 1) / kRows;
    const WhiteAcross white(page, y0, y1);
    for (int i = 0; i < kColumns; ++i) {
      const double x0 = middle - half + 2 * half * i / kColumns, x1 = x0 + 2 * half / kColumns;
      BarColour patch = page.mean(x0, y0, x1, y1);
      for (std::size_t c = 0; c < 3; ++c)
        patch[c] =
            (patch[c] - black[c]) / std::max(white.channel[c]((x0 + x1) / 2) - black[c], 1e-3);
      patches.push_back(patch);
    }
  }
  const auto n = static_cast<double>(patches.size());
  for (std::size_t c = 0; c < 3; ++c) {
    double sum = 0, squares = 0;
    for (const BarColour& p : patches) sum += p[c];
    mean[c] = sum / n;
    for (const BarColour& p : patches) squares += (p[c] - mean[c]) * (p[c] - mean[c]);
    error[c] = std::sqrt(squares / (n - 1) / n);
  }
}

std::optional<Error> unfit_light(const SeenPage& page, double& white) {
  white = 0;
  for (const double x : index_page::kStripMiddles)
    white = std::max(white, most(page.mean(x - 0.012, 0.42, x + 0.012, 0.58)));
  if (white > kClipped)
    return refuse(
        "the photo is too bright: the white strips are clipped, so the colours cannot be "
        "compared; make the exposure darker by one or two steps and take it again");
  if (white < kDark)
    return refuse(
        "the photo is too dark for its colours to be measured; darken the room and make "
        "the exposure brighter");
  return std::nullopt;
}

}  // namespace

Result<BarColours> measure_bars(const Photo& photo, const Screen& screen) {
  SeenPage page(straightened(photo, screen, kWidth, kHeight));
  const double fit = line_up(page);
  if (fit < 0.4)
    return refuse(
        "this is not the index page: its four white strips between the bars are not "
        "there; show the index page, upright, and take the photo again");
  BarColours found;
  if (const auto unfit = unfit_light(page, found.white)) return *unfit;
  Counts counts = counts_below(page, found.white);
  if (counts != kForward && counts != kBackward) {
    page.upside_down = found.standing.upside_down = true;
    counts = counts_below(page, found.white);
  }
  if (counts != kForward && counts != kBackward)
    return refuse(
        "the squares below the bars (one, two, three) cannot be counted in this photo; "
        "show the whole index page and go nearer");
  const bool backward = counts == kBackward;
  found.standing.left_right = backward;
  for (std::size_t bar = 0; bar < 3; ++bar)
    measure_bar(page, index_page::kBarMiddles[backward ? 2 - bar : bar], found.bar[bar],
                found.error[bar]);
  return found;
}

}  // namespace benchgraft::align
