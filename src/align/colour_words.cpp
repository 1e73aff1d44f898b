// Words for colours: places in the CIE 1976 u'v' diagram, taken halfway along the mixtures that
// bars run through. A word is the likelier the nearer its place; eyes differ by about kEye.
#include <array>
#include <cmath>

#include "align/wheel_delay.hpp"

namespace benchgraft::align {
namespace {

constexpr double kEye = 0.055;  // assumed; in u'v'
constexpr double kSlip = 0.03;  // words in a hundred that say anything

struct Named {
  std::string_view word;
  LinearRgb light;
};
constexpr std::array<Named, 12> kWords{{{"red", {1, 0, 0}},
                                        {"orange", {.85, .15, 0}},
                                        {"yellow", {.5, .5, 0}},
                                        {"yellowish", {.25, .75, 0}},
                                        {"green", {0, 1, 0}},
                                        {"turquoise", {0, .6, .4}},
                                        {"light blue", {0, .13, .87}},
                                        {"blue", {0, 0, 1}},
                                        {"violet", {.15, 0, .85}},
                                        {"magenta", {.5, 0, .5}},
                                        {"purplish", {.8, 0, .2}},
                                        {"white", {1, 1, 1}}}};

/// CIE 1976 u', v'. source: CIE 15:2004.
std::array<double, 2> uniform_place(const Xyz& c) {
  const double sum = c.x + 15 * c.y + 3 * c.z;
  if (!(sum > 0)) return {0, 0};
  return {4 * c.x / sum, 9 * c.y / sum};
}

const std::array<std::array<double, 2>, kWords.size()>& places() {
  static const auto kPlaces = [] {
    std::array<std::array<double, 2>, kWords.size()> all{};
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = uniform_place(xyz_of(kWords[i].light));
    return all;
  }();
  return kPlaces;
}

}  // namespace

std::vector<std::string> colour_words() {
  std::vector<std::string> words;
  for (const auto& named : kWords) words.emplace_back(named.word);
  return words;
}

std::vector<double> word_chances(const Xyz& light) {
  const auto place = uniform_place(light);
  std::vector<double> chances;
  double sum = 0;
  for (const auto& other : places()) {
    const double off = std::hypot(place[0] - other[0], place[1] - other[1]) / kEye;
    sum += chances.emplace_back(std::exp(-off * off / 2) + 1e-12);
  }
  for (double& chance : chances)
    chance = (1 - kSlip) * chance / sum + kSlip / static_cast<double>(chances.size());
  return chances;
}

std::string_view colour_word(const Xyz& light) {
  const auto chances = word_chances(light);
  std::size_t best = 0;
  for (std::size_t i = 0; i < chances.size(); ++i)
    if (chances[i] > chances[best]) best = i;
  return kWords[best].word;
}

}  // namespace benchgraft::align
