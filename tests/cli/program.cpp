#include "cli/program.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

namespace benchgraft::cli {
namespace {

namespace fs = std::filesystem;

std::vector<char*> pointers(std::vector<std::string>& words) {
  std::vector<char*> all;
  for (auto& word : words) all.push_back(word.data());
  all.push_back(nullptr);
  return all;
}

[[noreturn]] void become(std::vector<std::string> words, std::vector<std::string> environment,
                         const std::string& out, const std::string& err) {
  const int to_out = ::open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  const int to_err = ::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  ::dup2(to_out, STDOUT_FILENO);
  ::dup2(to_err, STDERR_FILENO);
  ::execve(words.front().c_str(), pointers(words).data(), pointers(environment).data());
  ::_exit(127);
}

}  // namespace

Program::Program() {
  std::string pattern = (fs::temp_directory_path() / "benchgraft_test_XXXXXX").string();
  folder_ = ::mkdtemp(pattern.data());
}

Program::~Program() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

Ran Program::run(const std::vector<std::string>& words,
                 const std::vector<std::string>& environment) {
  std::vector<std::string> all{BENCHGRAFT_PROGRAM};
  all.insert(all.end(), words.begin(), words.end());
  const std::string out = path("out"), err = path("err");
  const pid_t child = ::fork();
  if (child == 0) become(all, environment, out, err);
  int status = 0;
  ::waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read(out), read(err)};
}

Ran Program::shop(std::vector<std::string> words) {
  words.insert(words.begin(), {"--shop", path("loft.shop")});
  return run(words);
}

void Program::fill_shop() {
  const auto filled = shop({"import", source("data/demo")});
  ASSERT_EQ(filled.code, 0) << filled.err;
}

std::string Program::write(const std::string& name, const std::string& text) const {
  fs::create_directories(fs::path(path(name)).parent_path());
  std::ofstream(path(name), std::ios::binary) << text;
  return path(name);
}

std::string source(const std::string& path) {
  return std::string(BENCHGRAFT_SOURCE_DIR) + "/" + path;
}

std::string read(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace benchgraft::cli
