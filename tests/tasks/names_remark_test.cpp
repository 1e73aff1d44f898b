#include "tasks/names_remark.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace benchgraft::tasks {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::vector<catalogue::Family> recorded() {
  catalogue::Family family;
  family.name = "tern";
  family.models.emplace_back().name = "Tern 40";
  auto& type = family.part_types.emplace_back();
  type.name = "LD-20";
  type.revision = "B";
  return {family};
}

TEST(NamesRemark, names_the_nearest_for_a_model_nobody_recorded) {
  shop::TakeIn take;
  take.set.model = "Tern 4O";
  EXPECT_THAT(
      remarks_on_names(take, recorded()),
      ElementsAre("The model \"Tern 4O\" is not in the catalogue; did you mean \"Tern 40\"?"));
  take.set.model = "Tern 40";
  EXPECT_THAT(remarks_on_names(take, recorded()), IsEmpty());
}

TEST(NamesRemark, takes_a_part_type_with_and_without_its_revision) {
  shop::AddPart add;
  for (const char* good : {"LD-20", "LD-20/B", ""}) {
    add.part.type = good;
    EXPECT_THAT(remarks_on_names(add, recorded()), IsEmpty()) << good;
  }
  add.part.type = "grey board";
  EXPECT_THAT(remarks_on_names(add, recorded()),
              ElementsAre("The part type \"grey board\" is not in the catalogue yet."));
}

TEST(NamesRemark, looks_at_what_a_swap_note_moved_and_into_what) {
  shop::AddNote add;
  add.note.into = "Tern 40/late";
  add.note.moved = {"LD-20", "LD-2O"};
  EXPECT_THAT(
      remarks_on_names(add, recorded()),
      ElementsAre("The part type \"LD-2O\" is not in the catalogue; did you mean \"LD-20\"?"));
}

}  // namespace
}  // namespace benchgraft::tasks
