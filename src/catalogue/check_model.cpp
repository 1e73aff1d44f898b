#include "catalogue/check_family.hpp"
#include "catalogue/circle.hpp"

namespace benchgraft::catalogue {

namespace {

void check_order(Faults& faults, const Model& model) {
  WaitsFor waits;
  for (const auto& position : model.positions) waits[position.name] = position.after;
  if (const auto circle = find_circle(waits); !circle.empty())
    faults.add(
        model.where,
        fmt::format("positions of model \"{}\" wait for each other in a circle: {}; take one "
                    "\"after\" away.",
                    model.name, circle_text(circle)));
}

void check_variant(Faults& faults, const Variant& variant,
                   const std::vector<std::string>& positions) {
  for (const auto& [position, reference] : variant.parts)
    if (!contains(positions, position))
      faults.add(
          variant.where,
          fmt::format("variant \"{}\" puts \"{}\" into \"{}\", which is not a position of its "
                      "model{}",
                      variant.name, reference, position,
                      mend(position, positions, "add the position")));
}

void check_direction(Faults& faults, const Model& model, const std::string& key,
                     const Point& direction) {
  if (direction == Point{0, 0, 0})
    faults.add(model.where,
               fmt::format("{} = [0, 0, 0] of model \"{}\" points nowhere; write a direction.", key,
                           model.name));
}

void check_optics(Faults& faults, const Model& model) {
  const ModelOptics& optics = *model.optics;
  const auto normals = optics.mirror_normals.value_or(std::vector<Point>{});
  for (const auto& normal : normals) check_direction(faults, model, "mirror_normals", normal);
  if (optics.beam) check_direction(faults, model, "beam", *optics.beam);
  if (optics.beam_up) check_direction(faults, model, "beam_up", *optics.beam_up);
  if (optics.mirror_normals && optics.fold_mirrors &&
      normals.size() != static_cast<std::size_t>(*optics.fold_mirrors))
    faults.add(model.where,
               fmt::format("model \"{}\" has fold_mirrors = {} but {} mirror_normals; correct one.",
                           model.name, *optics.fold_mirrors, normals.size()));
}

void check_link_end(Faults& faults, const Model& model, const StatedLink& link,
                    const std::string& end) {
  const auto colon = end.rfind(':');
  if (colon == std::string::npos || colon == 0 || colon + 1 == end.size())
    return faults.add(
        link.where,
        fmt::format("\"{}\" does not name an end of a link; write it as \"role:port\".", end));
  std::vector<std::string> roles;
  for (const auto& position : model.positions)
    roles.insert(roles.end(), position.roles.begin(), position.roles.end());
  const std::string role = end.substr(0, colon);
  if (!model.positions.empty() && !contains(roles, role))
    faults.add(
        link.where,
        fmt::format("the link names the role \"{}\", which no position of model \"{}\" fills{}",
                    role, model.name, mend(role, roles, "add it to a position")));
}

void check_role_names(Faults& faults, const SetKind& kind, const std::string& what,
                      const std::vector<std::string>& named) {
  const auto roles = names_of(kind.roles, [](const KindRole& role) { return role.role; });
  for (const auto& role : named)
    if (!contains(roles, role))
      faults.add(kind.where,
                 fmt::format("{} names \"{}\", which is not a role of set kind \"{}\"{}", what,
                             role, kind.name, mend(role, roles, "add the role")));
}

void check_role_order(Faults& faults, const SetKind& kind) {
  WaitsFor waits;
  for (const auto& role : kind.roles) waits[role.role] = role.after;
  if (const auto circle = find_circle(waits); !circle.empty())
    faults.add(kind.where,
               fmt::format("roles of set kind \"{}\" wait for each other in a circle: {}; take one "
                           "\"after\" away.",
                           kind.name, circle_text(circle)));
}

}  // namespace

void check_model(Faults& faults, const Model& model) {
  const auto positions = names_of(model.positions, [](const Position& own) { return own.name; });
  refuse_doubles(faults, "position", model.positions, model.where,
                 [](const Position& own) { return own.name; });
  refuse_doubles(faults, "variant", model.variants, model.where,
                 [](const Variant& own) { return own.name; });
  check_order(faults, model);
  for (const auto& variant : model.variants) check_variant(faults, variant, positions);
  if (model.optics) check_optics(faults, model);
  for (const auto& link : model.links) {
    check_link_end(faults, model, link, link.from);
    check_link_end(faults, model, link, link.to);
  }
}

void check_set_kind(Faults& faults, const SetKind& kind) {
  if (!kind.judged && kind.not_judged.empty())
    faults.add(
        kind.where,
        fmt::format("set kind \"{}\" has judged = false but not why; add not_judged = \"...\", one "
                    "sentence.",
                    kind.name));
  refuse_doubles(faults, "role", kind.roles, kind.where,
                 [](const KindRole& role) { return role.role; });
  refuse_doubles(faults, "hazard", kind.hazards, kind.where,
                 [](const Hazard& own) { return own.name; });
  for (const auto& role : kind.roles)
    check_role_names(faults, kind, fmt::format("\"after\" of role \"{}\"", role.role), role.after);
  check_role_order(faults, kind);
  for (const auto& link : kind.links)
    check_role_names(faults, kind, "a link", {link.from, link.to});
  for (const auto& hazard : kind.hazards)
    check_role_names(faults, kind, fmt::format("hazard \"{}\"", hazard.name), hazard.roles);
}

}  // namespace benchgraft::catalogue
