// Where answers, progress and failures are shown.
#pragma once

#include <string>

#include "base/result.hpp"
#include "sheets/page.hpp"

namespace benchgraft::cli {

/// What the environment says: is this a terminal, does it want colour, which shop, who.
struct Surroundings {
  bool out_is_terminal = false;
  bool err_is_terminal = false;
  bool no_colour = false;
  std::size_t columns = 80;
  std::string shop;
  std::string who;
};
Surroundings surroundings();

int exit_code(ErrorKind kind);

class Screen {
 public:
  explicit Screen(Surroundings around) : around_(std::move(around)) {}

  void show(const sheets::Page& page) const;
  void print(const std::string& text) const;
  /// One sentence on stderr. out: the exit code of that kind of failure.
  int fail(const Error& error) const;
  /// On stderr, on a terminal only, once more than a second has passed.
  void progress(const std::string& text);
  void end_progress();

 private:
  Surroundings around_;
  double begun_ = 0;
  bool shown_ = false;
};

}  // namespace benchgraft::cli
