// Generic kinds of set and part, without makers: what is inside, what joins what, what surprises.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/source.hpp"

namespace benchgraft::catalogue {

/// A usual job inside a set of this kind, with the usual minutes.
struct KindRole {
  std::string role;
  bool optional = false;
  std::optional<double> out_minutes;
  std::optional<double> in_minutes;
  std::vector<std::string> after;  ///< roles usually in before it
  bool operator==(const KindRole&) const = default;
};

struct KindLink {
  std::string from, to;  ///< roles
  std::string carries;
  bool operator==(const KindLink&) const = default;
};

/// A hazard and the caution that stands on every step that meets it.
struct Hazard {
  std::string name;
  std::string caution;
  std::optional<double> waiting_minutes;
  std::vector<std::string>
      roles;  ///< steps on these roles meet it; empty: every opening of the set
  std::string source;
  bool operator==(const Hazard&) const = default;
};

/// "May": usual when the part in `changed` is changed. Folded into one "look here" line.
struct Surprise {
  std::string changed;
  std::string look;
  std::optional<double> work_minutes;
  std::optional<double> chance;
  std::string source;
  bool operator==(const Surprise&) const = default;
};

struct SetKind {
  std::string name;
  bool judged = true;      ///< false: taken in, stripped and sent on, transplants are not judged
  std::string not_judged;  ///< why not, one sentence
  bool rear = false;       ///< seen from behind
  std::optional<double> open_minutes;
  std::optional<double> close_minutes;
  std::vector<KindRole> roles;
  std::vector<KindLink> links;
  std::vector<Hazard> hazards;
  std::vector<Surprise> surprises;
  std::string note;
  Where where;
  bool operator==(const SetKind&) const = default;
};

struct PartKind {
  std::string name;
  std::vector<std::string> usual_roles;
  std::string note;
  Where where;
  bool operator==(const PartKind&) const = default;
};

}  // namespace benchgraft::catalogue
