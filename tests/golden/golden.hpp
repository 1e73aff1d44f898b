// Compares what a test made with an approved text in tests/golden.
// BENCHGRAFT_APPROVE=1 in the environment writes it anew: look at the difference before committing
// it.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

namespace benchgraft {

inline std::string golden_path(const std::string& name) {
  return std::string(BENCHGRAFT_SOURCE_DIR) + "/tests/golden/" + name;
}

inline void expect_golden(const std::string& name, const std::string& made) {
  const std::string path = golden_path(name);
  if (std::getenv("BENCHGRAFT_APPROVE") != nullptr) {
    std::ofstream(path, std::ios::binary) << made;
    return;
  }
  std::ifstream file(path, std::ios::binary);
  ASSERT_TRUE(file) << path << " is not there; approve it with BENCHGRAFT_APPROVE=1";
  std::stringstream approved;
  approved << file.rdbuf();
  EXPECT_EQ(approved.str(), made) << path << " differs; BENCHGRAFT_APPROVE=1 approves the new text";
}

}  // namespace benchgraft
