// What the front page tells people to write must work as it stands there.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/program.hpp"

namespace benchgraft::cli {
namespace {

std::vector<std::string> toml_blocks(const std::string& page) {
  std::vector<std::string> blocks;
  const std::string open = "```toml\n";
  for (auto at = page.find(open); at != std::string::npos; at = page.find(open, at + 1)) {
    const auto from = at + open.size();
    blocks.push_back(page.substr(from, page.find("```", from) - from));
  }
  return blocks;
}

TEST(Readme, has_examples_that_load_and_a_note_that_counts) {
  Program program;
  const auto blocks = toml_blocks(read(source("README.md")));
  ASSERT_EQ(blocks.size(), 2U);
  program.write("mine/larch.toml", blocks[0]);
  const auto note = program.write("note.toml", blocks[1]);
  const auto checked = program.run({"check", program.path("mine")});
  EXPECT_EQ(checked.code, 0) << checked.err;
  EXPECT_THAT(checked.out, testing::HasSubstr("1 part type"));
  EXPECT_EQ(program.shop({"import", program.path("mine")}).code, 0);
  const auto noted = program.shop({"note", note});
  EXPECT_EQ(noted.code, 0) << noted.err;
}

TEST(Readme, names_every_exit_code_there_is) {
  const auto page = read(source("README.md"));
  for (const char* row :
       {"| 0 |", "| 1 |", "| 2 |", "| 3 |", "| 4 |", "| 5 |", "| 6 |", "| 7 |", "| 8 |"})
    EXPECT_THAT(page, testing::HasSubstr(row));
}

}  // namespace
}  // namespace benchgraft::cli
