// Image orientation as algebra: which way round a picture comes up, by mirrors, lens and mount.
// Elements are two bits (left-right, upside-down) composed by exclusive or. Method:
// docs/methods/fit.md.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/model.hpp"

namespace benchgraft::fit {

using Vector = std::array<double, 3>;

/// A picture leaving the engine: direction of travel and up of the picture; both are made unit
/// length.
struct Beam {
  Vector travel, up;
};

/// The flip seen by a viewer who looks along -z at a screen whose world up is +y, after `normals`
/// in beam order. Each mirror reflects x <- x - 2 (x.n) n; a lens turns right and up round. A
/// mirror normal of zero length is ignored. Roll of the picture is not reported.
catalogue::Flip propagate(const Beam& beam, const std::vector<Vector>& normals, bool lens);

/// The flip a cabinet needs when only counts are known: from behind and every fold mirror toggle
/// left-right; a lens and an inverted mount toggle both. Folds in the plane of the picture's
/// middle.
catalogue::Flip needed_flip(bool from_behind, int fold_mirrors, bool lens, bool inverted);

/// For a recorded cabinet and engine; nothing when a fact is missing, whose names go to `missing`.
std::optional<catalogue::Flip> needed_flip(const catalogue::ModelOptics& cabinet,
                                           const catalogue::EngineOptics& engine,
                                           std::vector<std::string>& missing);

/// "the right way round", "mirrored left-right", "upside down and mirrored", "turned by half a
/// turn".
std::string flip_words(catalogue::Flip flip);

}  // namespace benchgraft::fit
