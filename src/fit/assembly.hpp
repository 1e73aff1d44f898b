// The set as it will be: every place of the host with the effective type that sits in it.
#pragma once

#include <deque>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"

namespace benchgraft::fit {

/// One place. `type` is null when nobody knows what sits there, or nothing does (`empty`).
struct Place {
  std::string position;
  std::vector<std::string> roles;
  const catalogue::PartType* type = nullptr;  ///< effective type
  const catalogue::PartType* was = nullptr;   ///< factory type of this variant, with what was seen
  std::string from = "host";
  bool changed = false;    ///< something else than the host's own part is put in
  bool same_make = false;  ///< ... of exactly the factory's type, unchanged
  bool altered = false;    ///< the part itself was changed since it was made
  bool empty = false;
  bool host_lost_it = false;  ///< the host's own part is not here
  bool taken_over = false;    ///< its roles are filled by a part in another place
  bool to_get = false;        ///< chosen here because another part asks for it
  bool optional = false;
  std::string taken_over_by;
  std::optional<double> run_hours;
  std::optional<double> own_hours;  ///< of the host's own part
  std::optional<bool> known_good;
  std::vector<std::string> after;
  std::vector<std::string> memory_changed;  ///< settings overwritten; "" = all of them
  const catalogue::Position* place = nullptr;
  Where where;

  [[nodiscard]] bool fills(const std::string& role) const;
  /// "the light engine TE-3/B" or "the supply".
  [[nodiscard]] std::string called() const;
  /// Equal for parts that come out of one set and so were set up for each other; loose parts stand
  /// alone.
  [[nodiscard]] std::string origin() const;
};

struct Assembly {
  const catalogue::Model* model = nullptr;
  const catalogue::SetKind* kind = nullptr;
  const catalogue::Variant* variant = nullptr;
  std::vector<Place> places;
  std::deque<catalogue::PartType> owned;  ///< effective types made here; addresses stay

  /// The place whose part fills `role` now; null when nothing does.
  [[nodiscard]] const Place* filling(const std::string& role) const;
  [[nodiscard]] Place* filling(const std::string& role);
  /// The place whose factory part filled `role`.
  [[nodiscard]] const Place* factory(const std::string& role) const;
};

/// Puts `rebuild` together for one variant (null: positions without factory types).
/// Fails on a place or a type that is not recorded and on a change that cannot be.
Result<Assembly> assemble(const catalogue::Catalogue& known, const catalogue::RebuildText& rebuild,
                          const catalogue::Model* model, const catalogue::SetKind* kind,
                          const catalogue::Variant* variant);

/// True when some recorded variant was built with both types in it, unchanged: proven by the
/// factory.
bool built_together(const catalogue::Catalogue& known, const Place& a, const Place& b);

/// Straight distance in mm.
double distance(const catalogue::Point& a, const catalogue::Point& b);

/// The model `from` names ("Model", "Model/Variant"), else the only model built with `reference`.
const catalogue::Model* donor_model(const catalogue::Catalogue& known, const Place& place);

}  // namespace benchgraft::fit
