#include "cli/screen.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>

#include <sys/ioctl.h>
#include <unistd.h>

namespace benchgraft::cli {
namespace {

std::string from_environment(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr ? value : "";
}

std::size_t terminal_columns() {
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return 80;
  return std::clamp<std::size_t>(size.ws_col, 40, 100);
}

double seconds_now() {
  using namespace std::chrono;
  return duration<double>(steady_clock::now().time_since_epoch()).count();
}

}  // namespace

Surroundings surroundings() {
  Surroundings around;
  around.out_is_terminal = isatty(STDOUT_FILENO) != 0;
  around.err_is_terminal = isatty(STDERR_FILENO) != 0;
  around.no_colour = !from_environment("NO_COLOR").empty() || from_environment("TERM") == "dumb";
  if (around.out_is_terminal) around.columns = terminal_columns();
  around.shop = from_environment("BENCHGRAFT_SHOP");
  around.who = from_environment("USER");
  if (around.who.empty()) around.who = "bench";
  return around;
}

int exit_code(ErrorKind kind) {
  switch (kind) {
    case ErrorKind::bad_input:
      return 3;
    case ErrorKind::not_found:
      return 4;
    case ErrorKind::conflict:
      return 5;
    case ErrorKind::storage:
      return 6;
    case ErrorKind::too_new:
      return 7;
    case ErrorKind::limit:
      return 8;
  }
  return 1;
}

void Screen::show(const sheets::Page& page) const {
  print(sheets::as_text(page, {around_.out_is_terminal && !around_.no_colour, around_.columns}));
}

void Screen::print(const std::string& text) const {
  std::fwrite(text.data(), 1, text.size(), stdout);
}

int Screen::fail(const Error& error) const {
  std::fprintf(stderr, "benchgraft: %s\n", error.message.c_str());
  return exit_code(error.kind);
}

void Screen::progress(const std::string& text) {
  if (!around_.err_is_terminal) return;
  if (begun_ == 0) begun_ = seconds_now();
  if (seconds_now() - begun_ < 1) return;
  std::fprintf(stderr, "\r\033[K%s", text.c_str());
  std::fflush(stderr);
  shown_ = true;
}

void Screen::end_progress() {
  if (shown_) std::fprintf(stderr, "\r\033[K");
  shown_ = false;
}

}  // namespace benchgraft::cli
