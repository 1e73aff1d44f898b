#include "support/renderer.hpp"

#include <algorithm>
#include <cmath>

namespace benchgraft::renderer {
namespace {

struct V3 {
  double x = 0, y = 0, z = 0;
};

V3 turned(V3 v, const Phone& phone) {
  const double a = phone.yaw_deg * M_PI / 180, b = phone.pitch_deg * M_PI / 180;
  const double c = phone.roll_deg * M_PI / 180;
  V3 r{std::cos(c) * v.x - std::sin(c) * v.y, std::sin(c) * v.x + std::cos(c) * v.y, v.z};
  V3 p{r.x, std::cos(b) * r.y - std::sin(b) * r.z, std::sin(b) * r.y + std::cos(b) * r.z};
  return {std::cos(a) * p.x + std::sin(a) * p.z, p.y, -std::sin(a) * p.x + std::cos(a) * p.z};
}

/// Where on the screen (0..1 across and down) the ray of a photo place ends.
class View {
 public:
  View(const Phone& phone, const Room& room) : phone_(phone), aspect_(room.aspect) {
    half_ = std::hypot(phone.width, phone.height) / 2;
    focal_ = 0.9 * phone.width;
    // Screen width is 1; the camera stands so far off that it fills the wanted share.
    distance_ = focal_ / (phone.fill * phone.width);
    const V3 ahead = turned({0, 0, 1}, phone_);
    eye_ = {-ahead.x * distance_, -ahead.y * distance_, -ahead.z * distance_};
  }

  [[nodiscard]] std::array<double, 2> on_screen(double px, double py) const {
    // Lens: ideal -> seen is (1 + k r^2); go back by repetition.
    const double cx = px - (phone_.width - 1) / 2.0, cy = py - (phone_.height - 1) / 2.0;
    double x = cx, y = cy;
    for (int i = 0; i < 4; ++i) {
      const double r2 = (x * x + y * y) / (half_ * half_);
      x = cx / (1 + phone_.lens_k * r2);
      y = cy / (1 + phone_.lens_k * r2);
    }
    const V3 ray = turned({(x - phone_.off_x * phone_.width) / focal_,
                           (y - phone_.off_y * phone_.height) / focal_, 1},
                          phone_);
    const double t = -eye_.z / ray.z;
    return {eye_.x + t * ray.x + 0.5, (eye_.y + t * ray.y) * aspect_ + 0.5};
  }

 private:
  const Phone& phone_;
  double aspect_, half_ = 1, focal_ = 1, distance_ = 1;
  V3 eye_;
};

/// Place on the page (0..1) of a place on the screen.
std::array<double, 2> on_page(const Room& room, double u, double v) {
  // Keystone: the top is narrower, so a place near the top lies further out on the page.
  const double s = (u - 0.5 - room.shift_x), t = (v - 0.5 - room.shift_y) / room.aspect;
  const double a = room.turned_deg * M_PI / 180;
  double x = std::cos(a) * s + std::sin(a) * t, y = -std::sin(a) * s + std::cos(a) * t;
  x /= room.size_x, y /= room.size_y;
  const double narrow = 1 + room.keystone * y * room.aspect;  // y * aspect runs -0.5..0.5
  x /= narrow;
  // The turn says where the page's axes appear; go back with its transpose (it is a rotation or a
  // mirror image of one).
  const double px = room.turn[0] * x + room.turn[2] * y, py = room.turn[1] * x + room.turn[3] * y;
  return {px + 0.5, py * room.aspect + 0.5};
}

int colour_at(const Sheet& sheet, double u, double v) {
  const int x = static_cast<int>(std::floor(u * sheet.width));
  const int y = static_cast<int>(std::floor(v * sheet.height));
  if (x < 0 || y < 0 || x >= sheet.width || y >= sheet.height) return 0;
  const std::size_t at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(sheet.width) +
                              static_cast<std::size_t>(x));
  return (sheet.rgb[at] > 127 ? 1 : 0) | (sheet.rgb[at + 1] > 127 ? 2 : 0) |
         (sheet.rgb[at + 2] > 127 ? 4 : 0);
}

}  // namespace

namespace {

/// Where the middle of each pixel of one photo row ends: on the screen and on the page.
struct Row {
  std::vector<std::array<double, 4>> places;
  Row(const View& view, const Room& room, int y, int width) {
    places.reserve(static_cast<std::size_t>(width) + 1);
    for (int x = 0; x <= width; ++x) {
      const auto [u, v] = view.on_screen(x, y);
      const auto [pu, pv] = on_page(room, u, v);
      places.push_back({u, v, pu, pv});
    }
  }
};

/// Place of a quarter of pixel `x`, its middle at (`right`, `down`) of the way to the next.
std::array<double, 4> part_of(const Row& here, const Row& below, std::size_t x, double right,
                              double down) {
  std::array<double, 4> place{};
  for (std::size_t i = 0; i < 4; ++i) {
    const double at = here.places[x][i];
    place[i] = at + right * (here.places[x + 1][i] - at) + down * (below.places[x][i] - at);
  }
  return place;
}

/// Light lost towards the corners of the screen and in the lines between image pixels.
double uneven(const Room& room, const Sheet& sheet, const std::array<double, 4>& place,
              double phase) {
  const double du = place[0] - 0.5, dv = place[1] - 0.5;
  double share = 1 - room.hot_spot * 2 * (du * du + dv * dv);
  if (room.pixel_grid > 0)
    share *=
        1 - room.pixel_grid * (0.5 + 0.25 * std::cos(2 * M_PI * place[2] * sheet.width + phase) +
                               0.25 * std::cos(2 * M_PI * place[3] * sheet.height));
  return share;
}

}  // namespace

std::string photograph(const Sheet& sheet, const Wheel& wheel, double delay_deg, const Phone& phone,
                       const Room& room, std::uint64_t seed) {
  Dice dice(seed);
  const TurnedLight light(wheel, phone.sensor, delay_deg);
  const Three white = light.response(7, 0, 1);
  const View view(phone, room);
  const double first_turn = dice.unit();
  const double lasting = phone.exposure_s * wheel.turns_per_second;
  const double moire_phase = dice.between(0, 2 * M_PI);
  std::vector<float> raw(std::size_t{3} * static_cast<std::size_t>(phone.width) *
                         static_cast<std::size_t>(phone.height));
  const double half2 = (phone.width * phone.width + phone.height * phone.height) / 4.0;
  std::size_t at = 0;
  Row here(view, room, 0, phone.width);
  for (int y = 0; y < phone.height; ++y) {
    const double start = first_turn + phone.readout_s * wheel.turns_per_second * y / phone.height;
    std::array<Three, kPageColours> colours{};
    for (int c = 0; c < kPageColours; ++c)
      colours[static_cast<std::size_t>(c)] = light.response(c, start, lasting);
    Row below(view, room, y + 1, phone.width);
    for (int x = 0; x < phone.width; ++x) {
      Three sum{};
      for (int k = 0; k < 4; ++k) {
        const auto place = part_of(here, below, static_cast<std::size_t>(x), -0.25 + 0.5 * (k % 2),
                                   -0.25 + 0.5 * (k / 2));
        if (place[0] < 0 || place[1] < 0 || place[0] > 1 || place[1] > 1) continue;
        const auto& colour =
            colours[static_cast<std::size_t>(colour_at(sheet, place[2], place[3]))];
        const double share = 0.25 * uneven(room, sheet, place, moire_phase);
        for (std::size_t c = 0; c < 3; ++c) sum[c] += share * colour[c];
      }
      const double dx = x - phone.width / 2.0, dy = y - phone.height / 2.0;
      const double fall = 1 - phone.vignetting * (dx * dx + dy * dy) / half2;
      for (std::size_t c = 0; c < 3; ++c)
        raw[at++] = static_cast<float>(fall * (sum[c] + room.ambient * white[c]));
    }
    here = std::move(below);
  }
  return develop(std::move(raw), white, phone, dice);
}

Wheel some_wheel(Dice& dice) {
  Wheel wheel;
  if (dice.chance(0.3)) wheel.segments = {{'R', 120}, {'G', 120}, {'B', 120}};
  wheel.spot_deg = dice.between(9, 15);
  wheel.guard_deg = dice.between(0.5, 1.5);
  wheel.turns_per_second = dice.chance(0.5) ? 120 : 180;
  wheel.lines = dice.between(0.6, 1.4);
  for (double& cut : wheel.cut) cut = dice.between(-5, 5);
  wheel.leak = dice.between(0.003, 0.02);
  return wheel;
}

Phone some_phone(Dice& dice) {
  Phone phone;
  phone.sensor.peak = {dice.between(592, 608), dice.between(527, 543), dice.between(453, 467)};
  phone.sensor.width = {dice.between(32, 44), dice.between(35, 46), dice.between(25, 34)};
  phone.sensor.cross = dice.between(0.03, 0.12);
  phone.exposure_s = dice.between(0.14, 0.3);
  phone.readout_s = dice.between(0.008, 0.03);
  phone.full_well = dice.between(3000, 9000);
  phone.read_noise = dice.between(2, 7);
  phone.exposure = dice.between(0.45, 0.85);
  phone.blur = dice.between(0.5, 1.5);
  phone.vignetting = dice.between(0.1, 0.4);
  phone.lens_k = dice.between(-0.05, 0.03);
  phone.flare = dice.between(0.001, 0.01);
  phone.cast = dice.between(0.93, 1.07);
  phone.quality = 80 + static_cast<int>(dice.between(0, 16));
  phone.yaw_deg = dice.between(-12, 12);
  phone.pitch_deg = dice.between(-8, 8);
  phone.roll_deg = dice.between(-4, 4);
  phone.fill = dice.between(0.55, 0.8);
  phone.off_x = dice.between(-0.05, 0.05);
  phone.off_y = dice.between(-0.05, 0.05);
  return phone;
}

Room some_room(Dice& dice) {
  Room room;
  room.hot_spot = dice.between(0.05, 0.5);
  room.ambient = dice.between(0.0005, 0.01);
  room.pixel_grid = dice.between(0, 0.15);
  return room;
}

}  // namespace benchgraft::renderer
