// Photos of 12 megapixels from bytes to figures, with the error beside the time. Limit: 400 ms.
#include <array>
#include <cmath>
#include <string>

#include <benchmark/benchmark.h>

#include "align/pattern_page.hpp"
#include "align/photo_bars.hpp"
#include "align/photo_check.hpp"
#include "align/photo_edge.hpp"
#include "align/photo_glyph.hpp"
#include "align/photo_read.hpp"
#include "align/photo_screen.hpp"
#include "support/renderer.hpp"

namespace benchgraft {
namespace {

renderer::Phone large_phone() {
  renderer::Phone phone;
  phone.width = 4000;
  phone.height = 3000;
  phone.orientation = 6;  // the dearer way: turned after decoding
  phone.blur = 1.5;
  return phone;
}

renderer::Sheet sheet_of(align::Page page) {
  auto drawn = align::draw_page(page, 1920, 1080);
  return {1920, 1080, std::move(drawn).value().rgb};
}

constexpr double kLate = 10;  // degrees

const std::string& bars_file(double delay) {
  static const std::string kRight = renderer::photograph(
      sheet_of(align::Page::index_bars), renderer::Wheel{}, 0, large_phone(), renderer::Room{}, 1);
  static const std::string kOff =
      renderer::photograph(sheet_of(align::Page::index_bars), renderer::Wheel{}, kLate,
                           large_phone(), renderer::Room{}, 2);
  return delay == 0 ? kRight : kOff;
}

Result<align::BarColours> bars_of(const std::string& file) {
  const auto photo = align::read_photo(file, "photo");
  if (!photo) return photo.error();
  const auto screen = align::find_screen(photo.value());
  if (!screen) return screen.error();
  benchmark::DoNotOptimize(align::check_photo(photo.value(), screen.value()));
  return align::measure_bars(photo.value(), screen.value());
}

void bars_of_a_12_megapixel_photo(benchmark::State& state) {
  const auto pure = bars_of(bars_file(0));
  double share = 0;
  for (auto _ : state) {
    const auto seen = bars_of(bars_file(kLate));
    if (!seen || !pure) return state.SkipWithError("the photo was refused");
    share = align::mixing(seen.value(), pure.value(), {}).overlap;
  }
  state.counters["share_error"] =
      share - renderer::true_mixing(renderer::Wheel{}, 'R', kLate).share;
}
BENCHMARK(bars_of_a_12_megapixel_photo)->Unit(benchmark::kMillisecond);

void grid_of_a_12_megapixel_photo(benchmark::State& state) {
  renderer::Room room;
  room.size_x = 1.07;
  room.size_y = 1.09;
  room.shift_x = 0.01;
  const std::string file = renderer::photograph(sheet_of(align::Page::grid), renderer::Wheel{}, 0,
                                                large_phone(), room, 3);
  double offset = 0;
  for (auto _ : state) {
    const auto photo = align::read_photo(file, "photo");
    const auto screen = align::find_screen(photo.value());
    if (!screen) return state.SkipWithError("the photo was refused");
    benchmark::DoNotOptimize(align::check_photo(photo.value(), screen.value()));
    const auto seen = align::measure_grid(photo.value(), screen.value());
    if (!seen) return state.SkipWithError("the grid was refused");
    offset = seen.value().offset.x;
  }
  state.counters["offset_error_pixels"] = (offset - room.shift_x) * 1920;
}
BENCHMARK(grid_of_a_12_megapixel_photo)->Unit(benchmark::kMillisecond);

void edges_of_a_12_megapixel_close_up(benchmark::State& state) {
  constexpr double kLow = 0.8, kHigh = 1.1;
  renderer::Phone phone = large_phone();
  phone.exposure_s = 0.25;
  std::array<std::string, 2> files;
  for (std::size_t i = 0; i < 2; ++i) {
    renderer::Actuator actuator;
    actuator.gain = i == 0 ? kLow : kHigh;
    files[i] = renderer::close_up(sheet_of(align::Page::edge), actuator, {300, 200, 7, 3, 0.01},
                                  phone, 4 + i);
  }
  const auto shift_of = [](const std::string& file) {
    const auto photo = align::read_photo(file, "photo");
    const auto reading = align::measure_edge_page(photo.value());
    return reading.ok() ? reading.value().shift : std::nan("");
  };
  const double low = shift_of(files[0]);
  double high = 0;
  for (auto _ : state) high = shift_of(files[1]);
  if (std::isnan(low + high)) return state.SkipWithError("the close-up was refused");
  state.counters["gain_error"] = kLow - low * (kHigh - kLow) / (high - low) - 1;
}
BENCHMARK(edges_of_a_12_megapixel_close_up)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace benchgraft
