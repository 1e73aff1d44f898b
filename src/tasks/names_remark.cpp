#include "tasks/names_remark.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::tasks {
namespace {

struct Known {
  std::vector<std::string> models, types;
};

Known known_names(const std::vector<catalogue::Family>& families) {
  Known known;
  for (const auto& family : families) {
    for (const auto& model : family.models) known.models.push_back(model.name);
    for (const auto& type : family.part_types) {
      known.types.push_back(type.reference());
      if (!type.revision.empty()) known.types.push_back(type.name);
    }
  }
  return known;
}

void remark(const std::string& what, const std::string& name, const std::vector<std::string>& known,
            std::vector<std::string>& remarks) {
  if (name.empty() || contains(known, name)) return;
  const std::string near = nearest_word(name, known);
  remarks.push_back(
      fmt::format("The {} \"{}\" is not in the catalogue{}", what, name,
                  near.empty() ? " yet." : fmt::format("; did you mean \"{}\"?", near)));
}

// The model of "Model/Variant".
std::string model_of(const std::string& written) { return written.substr(0, written.find('/')); }

}  // namespace

std::vector<std::string> remarks_on_names(const shop::Command& command,
                                          const std::vector<catalogue::Family>& families) {
  const Known known = known_names(families);
  std::vector<std::string> remarks;
  if (const auto* take = std::get_if<shop::TakeIn>(&command))
    remark("model", take->set.model, known.models, remarks);
  if (const auto* change = std::get_if<shop::ChangeSet>(&command))
    remark("model", change->model.value_or(""), known.models, remarks);
  if (const auto* add = std::get_if<shop::AddPart>(&command))
    remark("part type", add->part.type, known.types, remarks);
  if (const auto* change = std::get_if<shop::ChangePart>(&command))
    remark("part type", change->type.value_or(""), known.types, remarks);
  if (const auto* add = std::get_if<shop::AddNote>(&command)) {
    remark("model", model_of(add->note.into), known.models, remarks);
    for (const auto& moved : add->note.moved) remark("part type", moved, known.types, remarks);
  }
  return remarks;
}

}  // namespace benchgraft::tasks
