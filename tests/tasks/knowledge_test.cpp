#include "tasks/knowledge.hpp"

#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace benchgraft::tasks {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

class KnowledgeOf : public testing::Test {
 protected:
  KnowledgeOf() {
    std::string pattern = (fs::temp_directory_path() / "benchgraft_known_XXXXXX").string();
    folder_ = ::mkdtemp(pattern.data());
  }
  ~KnowledgeOf() override {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  void write(const std::string& name, const std::string& text) const {
    fs::create_directories((fs::path(folder_) / name).parent_path());
    std::ofstream(fs::path(folder_) / name) << text;
  }
  [[nodiscard]] std::string at(const std::string& name) const { return folder_ + "/" + name; }

  std::string folder_;
};

constexpr const char* kType = R"toml(format = 1
family = "mine"
[[part_type]]
part_type = "ZZ-1"
kind = "lamp"
roles = ["lamp"]
[[model]]
model = "Zed"
kind = "single-chip rear projection"
)toml";

constexpr const char* kNote = R"toml(format = 1
[[swap_note]]
swap_note = "tried it"
into = "Zed"
moved = ["ZZ-1"]
result = "works"
)toml";

TEST_F(KnowledgeOf, the_program_alone_has_kinds_and_limits) {
  const auto known = known_catalogue({});
  ASSERT_TRUE(known) << known.error().message;
  EXPECT_NE(known.value().set_kind("single-chip rear projection"), nullptr);
  EXPECT_FALSE(known.value().limits().empty());
}

TEST_F(KnowledgeOf, a_folder_adds_its_types_and_loose_notes) {
  write("mine/types.toml", kType);
  write("mine/note.toml", kNote);
  const auto known = known_catalogue({"", {at("mine")}});
  ASSERT_TRUE(known) << known.error().message;
  EXPECT_NE(known.value().part_type("ZZ-1"), nullptr);
  EXPECT_EQ(known.value().notes().size(), 1U);
}

TEST_F(KnowledgeOf, a_later_family_of_the_same_name_replaces_the_earlier) {
  write("mine/types.toml", kType);
  catalogue::Family newer;
  newer.name = "mine";
  catalogue::PartType type;
  type.name = "ZZ-2";
  type.kind = "lamp";
  newer.part_types = {type};
  const auto known = known_catalogue({"", {at("mine")}}, {newer});
  ASSERT_TRUE(known) << known.error().message;
  EXPECT_EQ(known.value().part_type("ZZ-1"), nullptr);
  EXPECT_NE(known.value().part_type("ZZ-2"), nullptr);
}

TEST_F(KnowledgeOf, another_data_folder_must_hold_kinds) {
  write("other/limits/x.toml", "format = 1\nfamily = \"x\"\n");
  const auto known = known_catalogue({at("other"), {}});
  ASSERT_FALSE(known);
  EXPECT_EQ(known.error().kind, ErrorKind::not_found);
  EXPECT_THAT(known.error().message, HasSubstr("has no folder \"kinds\""));
}

TEST_F(KnowledgeOf, a_folder_without_catalogue_files_is_named) {
  write("empty/sets.csv", "code\nH2\n");
  const auto known = known_catalogue({"", {at("empty")}});
  ASSERT_FALSE(known);
  EXPECT_THAT(known.error().message, HasSubstr("holds no catalogue file"));
}

}  // namespace
}  // namespace benchgraft::tasks
