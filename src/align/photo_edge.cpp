#include "align/photo_edge.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "align/pattern_layout.hpp"
#include "align/photo_tiles.hpp"

namespace benchgraft::align {
namespace {

using namespace edge_page;

constexpr double kLeastScale = 4;  // photo pixels per image pixel
constexpr double kReach = 6;       // image pixels looked at on both sides of an edge
constexpr double kStep = 0.15;
constexpr int kPerPixel = 6;  // contour points per image pixel along an edge
constexpr std::size_t kMostEdges = 40;
constexpr double kMostWidth = 3.5;  // image pixels, 10 to 90 %
constexpr double kMostUnbalance = 0.15;
constexpr double kLineReach = 4;

Error refuse(std::string_view why) { return {ErrorKind::bad_input, std::string(why)}; }

/// The photo read in image pixels of the page: (x, y) is the top left corner of pixel x, y.
struct Reader {
  const LevelPicture& picture;
  const Homography& to_photo;
  [[nodiscard]] double operator()(double x, double y) const { return picture.at(to_photo({x, y})); }
};

/// One tile high piece of a bright edge: contours across `x`, bright on the right or on the left.
struct EdgePiece {
  double x = 0, top = 0;
  bool bright_right = true;
};

std::vector<EdgePiece> edge_pieces(const TilePlace& place) {
  std::vector<EdgePiece> pieces;
  const int first_row = static_cast<int>(std::ceil(place.top / kTileHeight));
  const int last_row = static_cast<int>(std::floor(place.bottom / kTileHeight)) - 1;
  const int first = static_cast<int>(std::floor(place.left / kTileWidth));
  const int last = static_cast<int>(std::ceil(place.right / kTileWidth));
  for (int j = first_row; j <= last_row; ++j)
    for (int i = first; i <= last; ++i)
      for (const bool right : {true, false}) {
        const double x = i * kTileWidth + (right ? kWhiteFrom : 0);
        if (x - kReach > place.left && x + kReach < place.right)
          pieces.push_back({x, static_cast<double>(j * kTileHeight), right});
      }
  if (pieces.size() <= kMostEdges) return pieces;
  std::vector<EdgePiece> fewer;  // spread over the photo, the same every time
  for (std::size_t k = 0; k < kMostEdges; ++k)
    fewer.push_back(pieces[k * pieces.size() / kMostEdges]);
  return fewer;
}

/// Brightness from dark to bright along rows close together, and the step's two levels.
struct EdgeProfiles {
  std::vector<std::vector<double>> rows;
  double dark = 0, bright = 0;
};

EdgeProfiles read_profiles(const Reader& read, const EdgePiece& piece) {
  EdgeProfiles profiles;
  const int count = static_cast<int>(2 * kReach / kStep) + 1;
  const int ends = static_cast<int>(2.5 / kStep);
  for (int k = 0; k < kTileHeight * kPerPixel; ++k) {
    const double y = piece.top + (k + 0.5) / kPerPixel;
    std::vector<double> row(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) {
      const double off = -kReach + i * kStep;
      row[static_cast<std::size_t>(i)] = read(piece.x + (piece.bright_right ? off : -off), y);
    }
    for (int i = 0; i < ends; ++i) {
      profiles.dark += row[static_cast<std::size_t>(i)];
      profiles.bright += row[static_cast<std::size_t>(count - 1 - i)];
    }
    profiles.rows.push_back(std::move(row));
  }
  const double all = static_cast<double>(ends) * kTileHeight * kPerPixel;
  profiles.dark /= all;
  profiles.bright /= all;
  return profiles;
}

/// Place of the crossing nearest to the step's middle, in image pixels from the piece's x.
std::optional<double> crossing_at(const std::vector<double>& row, double level) {
  std::optional<double> best;
  for (std::size_t i = 1; i < row.size(); ++i) {
    if (row[i - 1] >= level || row[i] < level) continue;
    const double at = -kReach + kStep * (static_cast<double>(i) - 1 +
                                         (level - row[i - 1]) / (row[i] - row[i - 1]));
    if (!best || std::abs(at) < std::abs(*best)) best = at;
  }
  return best;
}

struct Contour {
  double deviation = 0, middle = 0;
};

/// Deviation of a contour from its line, after a parabola (lens curve) is taken out.
std::optional<Contour> contour_of(const EdgeProfiles& profiles, double from_bright) {
  const double level = profiles.bright - from_bright * (profiles.bright - profiles.dark);
  std::vector<Point> points;
  for (std::size_t k = 0; k < profiles.rows.size(); ++k)
    if (const auto at = crossing_at(profiles.rows[k], level))
      points.push_back({static_cast<double>(k) / kPerPixel, *at});
  if (points.size() < 0.9 * static_cast<double>(profiles.rows.size())) return std::nullopt;
  const Parabola trend = fit_parabola(points);
  double squares = 0, sum = 0;
  for (const Point& p : points) {
    squares += (p.y - trend(p.x)) * (p.y - trend(p.x));
    sum += p.y;
  }
  const auto n = static_cast<double>(points.size());
  return Contour{std::sqrt(squares / n), sum / n};
}

/// Pooled over the edge pieces: raggedness at three contours and the width.
void measure_edges(const Reader& read, const TilePlace& place, EdgeReading& reading) {
  double s60 = 0, s75 = 0, s50 = 0, width = 0;
  for (const EdgePiece& piece : edge_pieces(place)) {
    const EdgeProfiles profiles = read_profiles(read, piece);
    if (profiles.bright < 2 * profiles.dark) continue;
    const auto c60 = contour_of(profiles, 0.60), c75 = contour_of(profiles, 0.75);
    const auto c50 = contour_of(profiles, 0.50), c90 = contour_of(profiles, 0.90);
    const auto c10 = contour_of(profiles, 0.10);
    if (!c60 || !c75 || !c50 || !c90 || !c10) continue;
    s60 += c60->deviation * c60->deviation;
    s75 += c75->deviation * c75->deviation;
    s50 += c50->deviation * c50->deviation;
    width += c10->middle - c90->middle;
    ++reading.edges;
  }
  if (reading.edges == 0) return;
  const double n = reading.edges;
  reading.r60 = std::sqrt(s60 / n);
  reading.r75 = std::sqrt(s75 / n);
  reading.r50 = std::sqrt(s50 / n);
  reading.width = width / n;
}

/// Light of one row of a one-pixel line: how much, and where its middle lies.
struct LineRow {
  double light = 0, place = 0;
};

LineRow line_row(const Reader& read, double x, int row) {
  constexpr double kFine = 0.1;
  const double y = row + 0.5, middle = x + 0.5;
  const int side = static_cast<int>(kLineReach / kFine);
  const double ground = (read(middle - kLineReach - 1, y) + read(middle - kLineReach - 0.5, y) +
                         read(middle + kLineReach + 0.5, y) + read(middle + kLineReach + 1, y)) /
                        4;
  LineRow found;
  for (int i = -side; i <= side; ++i) {
    const double light = read(middle + i * kFine, y) - ground;
    found.light += light;
    found.place += light * i * kFine;
  }
  if (found.light > 0) found.place /= found.light;
  return found;
}

/// What one line says: odd less even rows, from each row against its two neighbours, so that a
/// slanted or bent line adds nothing.
struct LineShift {
  double shift = 0, odd_light = 0, even_light = 0;
  int rows = 0;
};

LineShift line_shift(const Reader& read, double x, int top, int bottom) {
  std::vector<LineRow> rows;
  for (int y = top; y <= bottom; ++y) rows.push_back(line_row(read, x, y));
  LineShift result;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const bool odd = (static_cast<std::size_t>(std::abs(top)) + k) % 2 == 1;
    (odd ? result.odd_light : result.even_light) += rows[k].light;
    if (k == 0 || k + 1 == rows.size()) continue;
    const double d = rows[k].place - (rows[k - 1].place + rows[k + 1].place) / 2;
    result.shift += odd ? d : -d;
    ++result.rows;
  }
  if (result.rows > 0) result.shift /= result.rows;
  return result;
}

void measure_lines(const Reader& read, const TilePlace& place, EdgeReading& reading) {
  const int top = static_cast<int>(std::ceil(place.top)) + 1;
  const int bottom = std::min(static_cast<int>(place.bottom) - 2, top + 255);
  const int first = static_cast<int>(std::floor(place.left / kTileWidth));
  const int last = static_cast<int>(std::ceil(place.right / kTileWidth));
  std::vector<double> shifts;
  double odd = 0, even = 0;
  for (int i = first; i <= last && bottom - top > 16; ++i)
    for (const int line : kLines) {
      const double x = i * kTileWidth + line;
      if (x - kLineReach - 1 < place.left || x + kLineReach + 2 > place.right) continue;
      const LineShift found = line_shift(read, x, top, bottom);
      shifts.push_back(found.shift);
      odd += found.odd_light;
      even += found.even_light;
      reading.rows += found.rows;
    }
  if (shifts.size() < 2) return;
  const auto n = static_cast<double>(shifts.size());
  double sum = 0, squares = 0;
  for (const double s : shifts) sum += s;
  reading.shift = sum / n;
  for (const double s : shifts) squares += (s - reading.shift) * (s - reading.shift);
  reading.shift_error = std::sqrt(squares / (n - 1) / n);
  reading.balance = odd + even > 0 ? (odd - even) / (odd + even) : 0;
}

std::optional<Error> unfit(const EdgeReading& reading) {
  if (reading.edges == 0 || reading.rows == 0)
    return refuse(
        "no edge or no line of the edge page can be followed in this photo; go a little "
        "further off so that two by two tiles are wholly in it");
  if (reading.width > kMostWidth)
    return refuse(
        fmt::format("the photo is blurred: its edges are {:.1f} image pixels wide, at most "
                    "{:.1f}; rest the phone on something, touch the screen in its picture "
                    "to focus, and take it again",
                    reading.width, kMostWidth));
  if (std::abs(reading.balance) > kMostUnbalance)
    return refuse(
        "the exposure caught one half of the frame more than the other; set an exposure "
        "of 1/8 s or longer, or a whole number of frames, and take it again");
  return std::nullopt;
}

/// Share of the brighter pixels that are at the end of the scale.
bool clipped(const Photo& photo) {
  std::size_t bright = 0, at_end = 0;
  for (std::size_t i = 1; i < photo.code.size(); i += 3 * 101) {
    bright += photo.code[i] > 100;
    at_end += photo.code[i] >= 253;
  }
  return at_end * 10 > bright && bright > 0;
}

}  // namespace

Result<EdgeReading> measure_edge_page(const Photo& photo) {
  const auto place = place_tiles(photo);
  if (!place) return place.error();
  EdgeReading reading;
  reading.scale = place.value().scale;
  reading.tilt_deg = place.value().tilt_deg;
  if (reading.scale < kLeastScale)
    return refuse(
        fmt::format("the photo was taken from too far off: {:.1f} photo pixels to one "
                    "image pixel, at least {:.0f} are needed; go nearer",
                    reading.scale, kLeastScale));
  if (clipped(photo))
    return refuse(
        "the photo is too bright: white is clipped, so edges seem too wide; make the "
        "exposure darker and take it again");
  const LevelPicture picture = level_picture(photo);
  const Reader read{picture, place.value().to_photo};
  measure_edges(read, place.value(), reading);
  measure_lines(read, place.value(), reading);
  if (const auto wrong = unfit(reading)) return *wrong;
  return reading;
}

}  // namespace benchgraft::align
