#include <chrono>
#include <filesystem>
#include <fstream>
#include <iostream>

#include <gmock/gmock.h>
#include <unistd.h>

#include "faults_told.hpp"

namespace benchgraft::catalogue {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

/// A folder of its own for each test, gone with it.
class Load : public ::testing::Test {
 protected:
  Load() {
    std::string name = (fs::temp_directory_path() / "benchgraft_load_XXXXXX").string();
    folder_ = mkdtemp(name.data());
  }
  ~Load() override { fs::remove_all(folder_); }

  void put(const std::string& file, const std::string& text) const {
    std::ofstream(folder_ / file) << text;
  }
  [[nodiscard]] std::string folder() const { return folder_.string(); }

  fs::path folder_;
};

TEST_F(Load, takes_every_toml_of_a_folder_in_the_order_of_their_names) {
  for (const std::string name : {"d", "a", "f", "c", "e", "b"})
    put(name + ".toml", "format = 1\nfamily = \"" + name + "\"\n");
  put("readme.txt", "not a family");
  fs::create_directory(folder_ / "inside");
  put("inside/g.toml", "broken");
  const auto loaded = load_catalogue({folder()});
  ASSERT_TRUE(loaded.ok()) << loaded.error().message;
  std::vector<std::string> names;
  for (const auto& family : loaded.value().families()) names.push_back(family.name);
  EXPECT_THAT(names, ElementsAre("a", "b", "c", "d", "e", "f"));
  EXPECT_EQ(loaded.value().families()[0].where.file, (folder_ / "a.toml").string());
}

TEST_F(Load, gives_nothing_when_one_file_is_wrong) {
  put("a.toml", "format = 1\nfamily = \"a\"\n");
  put("b.toml", "format = 1\nfamilly = \"b\"\n");
  const auto loaded = load_catalogue({folder()});
  ASSERT_FALSE(loaded.ok());
  EXPECT_EQ(loaded.error().message,
            (folder_ / "b.toml").string() +
                ", line 2: \"familly\" is not a key of a family file; did you mean \"family\"?");
}

TEST_F(Load, says_that_a_folder_is_missing_or_empty) {
  const auto missing = load_catalogue({folder() + "/nowhere"});
  ASSERT_FALSE(missing.ok());
  EXPECT_EQ(missing.error().kind, ErrorKind::not_found);
  EXPECT_THAT(missing.error().message, HasSubstr("nowhere: there is no such folder"));
  const auto empty = load_catalogue({folder()});
  ASSERT_FALSE(empty.ok());
  EXPECT_EQ(empty.error().kind, ErrorKind::not_found);
  EXPECT_THAT(empty.error().message,
              HasSubstr("the folder holds no family file; put at least one *.toml there."));
}

TEST_F(Load, refuses_a_huge_file_by_its_size_without_reading_it) {
  put("huge.toml", "");
  fs::resize_file(folder_ / "huge.toml",
                  50'000'000'000ULL);  // a hole: it takes no room on the disk
  const auto loaded = load_catalogue({folder()});
  ASSERT_FALSE(loaded.ok());
  EXPECT_EQ(loaded.error().kind, ErrorKind::limit);
  EXPECT_THAT(loaded.error().message,
              HasSubstr("huge.toml: the file has 50000000000 bytes and at most 8388608 are read"));
}

TEST_F(Load, refuses_the_same_family_from_two_folders) {
  put("a.toml", "format = 1\nfamily = \"a\"\n");
  const auto loaded = load_catalogue({folder(), folder()});
  ASSERT_FALSE(loaded.ok());
  EXPECT_THAT(loaded.error().message, HasSubstr("family \"a\" is already recorded in"));
}

TEST(LoadKinds, reads_the_kinds_and_limits_that_come_with_the_program) {
  const std::string data = std::string(BENCHGRAFT_SOURCE_DIR) + "/data/";
  const auto loaded = load_catalogue({data + "kinds", data + "limits"});
  ASSERT_TRUE(loaded.ok()) << loaded.error().message;
  EXPECT_FALSE(loaded.value().limits().empty());
  for (const auto& family : loaded.value().families()) {
    const auto again = read_family(write_family(family), family.name);
    ASSERT_TRUE(again.ok()) << again.error().message;
    EXPECT_EQ(again.value(), family);
  }
}

TEST(LoadSpeed, reads_a_family_of_300_part_types_well_under_a_second) {
  std::string text = kHead;
  for (int i = 0; i < 300; ++i) {
    text += "[[part_type]]\npart_type = \"P" + std::to_string(i) +
            "\"\nkind = \"main board\"\nroles = [\"supply\"]\n";
    for (int port = 1; port <= 4; ++port) {
      text += "[[part_type.port]]\nport = \"CN" + std::to_string(port) +
              "\"\nconnector = {ways = 10}\ncontacts = [\n";
      for (int n = 1; n <= 10; ++n)
        text += "{n = " + std::to_string(n) +
                ", signal = \"5 V\", class = \"supply\", volts = [4.9, 5.1], amps = 2},\n";
      text += "]\n";
    }
  }
  const auto start = std::chrono::steady_clock::now();
  const auto read = read_family(text, "tern.toml");
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  ASSERT_TRUE(read.ok()) << read.error().message;
  EXPECT_EQ(read.value().part_types.size(), 300U);
  RecordProperty("milliseconds", std::to_string(took.count()));
  std::cout << "300 part types, 12000 contacts, " << text.size() << " bytes: " << took.count()
            << " ms\n";
  EXPECT_LT(took.count(), 1000) << "wide, for sanitizer builds and busy machines";
}

}  // namespace
}  // namespace benchgraft::catalogue
