#include "tasks/files.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

namespace benchgraft::tasks {
namespace {

namespace fs = std::filesystem;

class Files : public testing::Test {
 protected:
  Files() {
    std::string pattern = (fs::temp_directory_path() / "files-XXXXXX").string();
    folder_ = ::mkdtemp(pattern.data());
  }
  ~Files() override {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  std::string at(const std::string& name) const { return (folder_ / name).string(); }
  std::string put(const std::string& name, const std::string& bytes) const {
    fs::create_directories((folder_ / name).parent_path());
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return at(name);
  }
  static std::vector<std::string> paths(const Result<std::vector<shop::NamedText>>& texts) {
    std::vector<std::string> all;
    if (texts)
      for (const auto& text : texts.value()) all.push_back(text.path);
    return all;
  }
  static std::string fault(const Result<std::vector<shop::NamedText>>& texts) {
    return texts ? "no fault" : texts.error().message;
  }

  fs::path folder_;
};

TEST_F(Files, of_folders_are_read_in_order_and_each_once) {
  put("b/sets.csv", "code\n");
  put("a/tern.toml", "x");
  put("a/photo.jpg", "x");
  put("a/README.md", "x");
  const auto texts = read_files({at("b"), folder_.string(), at("a/tern.toml")});
  EXPECT_EQ(paths(texts), (std::vector<std::string>{at("b/sets.csv"), at("a/tern.toml")}));
  EXPECT_EQ(texts.value()[0].bytes, "code\n");
}

TEST_F(Files, named_directly_may_have_any_ending) {
  EXPECT_EQ(paths(read_files({put("note.txt", "x")})), std::vector<std::string>{at("note.txt")});
}

TEST_F(Files, that_cannot_be_read_are_named) {
  EXPECT_EQ(fault(read_files({at("away")})),
            at("away") + ": there is no such file or folder; correct the path.");
  fs::create_directory(at("empty"));
  EXPECT_EQ(fault(read_files({at("empty")})),
            at("empty") + ": there is no .toml or .csv file in this folder.");
  ASSERT_EQ(::mkfifo(at("pipe").c_str(), 0600), 0);
  EXPECT_EQ(fault(read_files({at("pipe")})),
            at("pipe") + ": this is neither a file nor a folder; give one of the two.");
}

TEST_F(Files, that_are_too_large_are_refused) {
  put("large.toml", "");
  fs::resize_file(at("large.toml"), (8U << 20U) + 1);
  auto texts = read_files({at("large.toml")});
  ASSERT_FALSE(texts);
  EXPECT_EQ(texts.error().kind, ErrorKind::limit);
  EXPECT_EQ(texts.error().message, at("large.toml") + ": the file has more than 8 MB; split it.");
  put("large.csv", "");
  fs::resize_file(at("large.csv"), (8U << 20U) + 1);
  EXPECT_TRUE(read_files({at("large.csv")}));
  fs::resize_file(at("large.csv"), (64U << 20U) + 1);
  EXPECT_EQ(fault(read_files({at("large.csv")})),
            at("large.csv") + ": the file has more than 64 MB; split it.");
}

TEST_F(Files, that_are_written_replace_the_old_ones_whole) {
  put("out/sets.csv", "old and longer\n");
  ASSERT_TRUE(write_files(at("out"), {{"sets.csv", "new\n"}, {"deeper/parts.csv", "p\n"}}));
  const auto texts = read_files({at("out")});
  ASSERT_EQ(paths(texts),
            (std::vector<std::string>{at("out/deeper/parts.csv"), at("out/sets.csv")}));
  EXPECT_EQ(texts.value()[1].bytes, "new\n");
  EXPECT_FALSE(fs::exists(at("out/sets.csv.part")));
}

TEST_F(Files, that_cannot_be_written_are_named) {
  put("plain", "x");
  auto written = write_files(at("plain"), {{"sets.csv", "new\n"}});
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().kind, ErrorKind::storage);
  EXPECT_EQ(written.error().message, at("plain") +
                                         ": the folder cannot be made; check that nothing else has "
                                         "its name and who may write there.");
  // A folder stands where the file should go.
  fs::create_directories(at("out/sets.csv/inner"));
  written = write_files(at("out"), {{"sets.csv", "new\n"}});
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().message, at("out/sets.csv") +
                                         ": the file cannot be written; check who may write "
                                         "in the folder and that the disk has room.");
  EXPECT_FALSE(fs::exists(at("out/sets.csv.part")));
}

}  // namespace
}  // namespace benchgraft::tasks
