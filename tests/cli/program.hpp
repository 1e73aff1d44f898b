// Runs the built program as a user does, each test in a folder of its own.
#pragma once

#include <string>
#include <vector>

namespace benchgraft::cli {

struct Ran {
  int code = -1;
  std::string out, err;
};

class Program {
 public:
  Program();
  ~Program();
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  Ran run(const std::vector<std::string>& words, const std::vector<std::string>& environment = {});
  /// With --shop and a shop file in the folder.
  Ran shop(std::vector<std::string> words);
  /// A shop that holds the invented loft.
  void fill_shop();

  [[nodiscard]] std::string path(const std::string& name) const { return folder_ + "/" + name; }
  std::string write(const std::string& name, const std::string& text) const;

 private:
  std::string folder_;
};

/// A file of the source tree.
std::string source(const std::string& path);
std::string read(const std::string& path);

}  // namespace benchgraft::cli
