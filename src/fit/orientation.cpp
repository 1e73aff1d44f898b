#include "fit/orientation.hpp"

#include <cmath>

namespace benchgraft::fit {
namespace {

using catalogue::Flip;

double dot(const Vector& a, const Vector& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

Vector cross(const Vector& a, const Vector& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

Vector unit(const Vector& v) {
  const double length = std::sqrt(dot(v, v));
  return length > 0 ? Vector{v[0] / length, v[1] / length, v[2] / length} : v;
}

Vector reflected(const Vector& x, const Vector& n) {
  const double k = 2 * dot(x, n);
  return {x[0] - k * n[0], x[1] - k * n[1], x[2] - k * n[2]};
}

Vector opposite(const Vector& v) { return {-v[0], -v[1], -v[2]}; }

constexpr Flip kLeftRight{true, false}, kBoth{true, true};

}  // namespace

Flip propagate(const Beam& beam, const std::vector<Vector>& normals, bool lens) {
  Vector f = unit(beam.travel), u = unit(beam.up);
  Vector r = cross(f, u);
  if (lens) r = opposite(r), u = opposite(u);
  for (const auto& raw : normals) {
    if (dot(raw, raw) == 0) continue;
    const Vector n = unit(raw);
    r = reflected(r, n);
    u = reflected(u, n);
    f = reflected(f, n);
  }
  const Vector world_up{0, 1, 0};
  const Vector viewer_right = cross(opposite(f), world_up);
  return {dot(r, viewer_right) < 0, dot(u, world_up) < 0};
}

Flip needed_flip(bool from_behind, int fold_mirrors, bool lens, bool inverted) {
  Flip flip = from_behind ? kLeftRight : Flip{};
  if (fold_mirrors % 2 != 0) flip = flip ^ kLeftRight;
  if (lens) flip = flip ^ kBoth;
  if (inverted) flip = flip ^ kBoth;
  return flip;
}

std::optional<Flip> needed_flip(const catalogue::ModelOptics& cabinet,
                                const catalogue::EngineOptics& engine,
                                std::vector<std::string>& missing) {
  const std::size_t before = missing.size();
  if (!engine.lens) missing.emplace_back("lens of the engine");
  if (engine.mount == catalogue::Mount::unknown) missing.emplace_back("mount of the engine");
  if (cabinet.mount == catalogue::Mount::unknown) missing.emplace_back("mount in the cabinet");
  const bool measured = cabinet.mirror_normals && cabinet.beam && cabinet.beam_up;
  if (!measured && !cabinet.fold_mirrors) missing.emplace_back("number of fold mirrors");
  if (!measured && !cabinet.seen_from_behind)
    missing.emplace_back("whether it is seen from behind");
  if (missing.size() != before) return std::nullopt;
  const bool inverted = engine.mount != cabinet.mount;
  if (!measured)
    return needed_flip(*cabinet.seen_from_behind, *cabinet.fold_mirrors, *engine.lens, inverted);
  const Flip flip =
      propagate({*cabinet.beam, *cabinet.beam_up}, *cabinet.mirror_normals, *engine.lens);
  return inverted ? flip ^ kBoth : flip;
}

std::string flip_words(Flip flip) {
  if (flip.h && flip.v) return "turned by half a turn";
  if (flip.h) return "mirrored left-right";
  if (flip.v) return "mirrored upside-down";
  return "the right way round";
}

}  // namespace benchgraft::fit
