#include "catalogue/toml_depth.hpp"

namespace benchgraft::catalogue {

namespace {

// Walks over the text token by token; strings and comments are stepped over whole.
class DepthWalk {
 public:
  explicit DepthWalk(std::string_view toml) : toml_(toml) {}

  int first_too_deep() {
    while (at_ < toml_.size()) {
      const char c = toml_[at_];
      if (c == '"' || c == '\'')
        step_over_string(c);
      else if (c == '#')
        step_over_comment();
      else
        take(c);
      if (brackets_ > kDeepestBrackets || dots_ >= kLongestDottedKey) return line_;
    }
    return 0;
  }

 private:
  void take(char c) {
    if (c == '\n') ++line_;
    if (c == '.')
      ++dots_;
    else if (c == '\n' || c == '=' || c == ',' || c == '{' || c == '[')
      dots_ = 0;
    if (c == '[' || c == '{') ++brackets_;
    if ((c == ']' || c == '}') && brackets_ > 0) --brackets_;
    ++at_;
  }

  void step_over_comment() {
    while (at_ < toml_.size() && toml_[at_] != '\n') ++at_;
  }

  void step_over_string(char quote) {
    const bool long_form =
        toml_.substr(at_, 3) == std::string_view(quote == '"' ? "\"\"\"" : "'''");
    at_ += long_form ? 3 : 1;
    while (at_ < toml_.size()) {
      const char c = toml_[at_];
      if (c == '\n') {
        if (!long_form) return;
        ++line_;
      }
      if (c == '\\' && quote == '"' && at_ + 1 < toml_.size() && toml_[at_ + 1] != '\n') {
        at_ += 2;
        continue;
      }
      if (c == quote && !long_form) {
        ++at_;
        return;
      }
      if (c == quote && ends_long_form(quote)) return;
      if (c != quote || !long_form) ++at_;
    }
  }

  // Three quotes end it; up to two more before them belong to the text.
  bool ends_long_form(char quote) {
    std::size_t run = 0;
    while (at_ + run < toml_.size() && toml_[at_ + run] == quote && run < 5) ++run;
    at_ += run;
    return run >= 3;
  }

  std::string_view toml_;
  std::size_t at_ = 0;
  int line_ = 1;
  int brackets_ = 0;
  int dots_ = 0;
};

}  // namespace

int too_deep_line(std::string_view toml) { return DepthWalk(toml).first_too_deep(); }

}  // namespace benchgraft::catalogue
