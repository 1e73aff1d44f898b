#include "tasks/check_catalogue.hpp"

#include <algorithm>

namespace benchgraft::tasks {
namespace {

using catalogue::Family;
using catalogue::PartType;

class Tally {
 public:
  explicit Tally(Checked& checked) : checked_(checked) {}

  void missing(bool is_missing, const std::string& what, const std::string& whose) {
    if (!is_missing) return;
    for (auto& entry : checked_.unknown)
      if (entry.what == what) {
        if (std::find(entry.whose.begin(), entry.whose.end(), whose) == entry.whose.end())
          entry.whose.push_back(whose);
        return;
      }
    checked_.unknown.push_back({what, {whose}});
  }

 private:
  Checked& checked_;
};

void count_ports(const PartType& type, Tally& tally) {
  if (!type.ports) return;
  for (const auto& port : *type.ports) {
    tally.missing(!port.contacts, "what runs on each contact of some ports", type.reference());
    tally.missing(port.connector.family.empty(), "the connector of some ports", type.reference());
  }
}

void count_part_type(const PartType& type, Tally& tally) {
  tally.missing(!type.ports, "ports", type.reference());
  count_ports(type, tally);
  if (type.is_lead()) return;
  tally.missing(!type.mount, "mount", type.reference());
  tally.missing(!type.carries, "pieces it carries", type.reference());
  tally.missing(!type.needs, "pieces it needs", type.reference());
  tally.missing(!type.stores, "settings it stores", type.reference());
  tally.missing(!type.counters, "counters", type.reference());
}

void count_model(const catalogue::Model& model, Tally& tally) {
  tally.missing(model.positions.empty(), "positions", model.name);
  tally.missing(model.variants.empty(), "variants", model.name);
  tally.missing(!model.optics, "optics of the cabinet", model.name);
  tally.missing(model.protection == catalogue::Protection::unknown, "class I or II", model.name);
  tally.missing(model.prices.empty(), "what a finished set fetches", model.name);
}

void count_family(const Family& family, Checked& checked) {
  ++checked.families;
  checked.part_types += family.part_types.size();
  checked.models += family.models.size();
  checked.adaptations += family.adaptations.size();
  checked.settings += family.settings.size();
  checked.notes += family.notes.size();
  Tally tally(checked);
  for (const auto& type : family.part_types) count_part_type(type, tally);
  for (const auto& model : family.models) count_model(model, tally);
}

}  // namespace

Result<Checked> check_catalogue(const Knowledge& knowledge) {
  auto shipped = known_catalogue({knowledge.data_dir, {}});
  if (!shipped) return shipped.error();
  auto whole = known_catalogue(knowledge);
  if (!whole) return whole.error();
  Checked checked;
  const auto& own = shipped.value().families();
  for (const auto& family : whole.value().families()) {
    const bool ours = std::find(own.begin(), own.end(), family) != own.end();
    if (!ours) count_family(family, checked);
  }
  return checked;
}

}  // namespace benchgraft::tasks
