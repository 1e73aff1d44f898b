// Collects what is wrong with statements that were read; the first fault is the one told.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "base/result.hpp"
#include "base/source.hpp"
#include "base/text.hpp"
#include "catalogue/toml_tree.hpp"

namespace benchgraft::catalogue {

class Faults {
 public:
  void add(const Where& where, const std::string& sentence, ErrorKind kind = ErrorKind::bad_input) {
    if (!first_) first_ = Error{kind, place(where.file, where.line) + one_line(sentence)};
  }
  void add(const Error& error) {
    if (!first_) first_ = error;
  }
  [[nodiscard]] Result<void> result() const {
    if (first_) return *first_;
    return {};
  }

 private:
  std::optional<Error> first_;
};

/// `; did you mean "x"?` or, when nothing is near, `; <otherwise>.`
inline std::string mend(const std::string& word, const std::vector<std::string>& known,
                        const std::string& otherwise) {
  const std::string near = nearest_word(word, known);
  return near.empty() ? fmt::format("; {}.", otherwise)
                      : fmt::format("; did you mean \"{}\"?", near);
}

/// The names of `things`, as `name` gives them.
template <class Things, class Name>
std::vector<std::string> names_of(const Things& things, Name name) {
  std::vector<std::string> names;
  names.reserve(things.size());
  for (const auto& thing : things) names.push_back(name(thing));
  return names;
}

/// Faults the second of two things with the same name. Things without a place of their own use
/// `owner`'s.
template <class Things, class Name>
void refuse_doubles(Faults& faults, const std::string& what, const Things& things,
                    const Where& owner, Name name) {
  const auto where = [&](const auto& thing) -> const Where& {
    if constexpr (requires { thing.where; })
      return thing.where;
    else
      return owner;
  };
  std::map<std::string, const Where*> seen;
  for (const auto& thing : things) {
    const auto [first, fresh] = seen.emplace(name(thing), &where(thing));
    if (!fresh)
      return faults.add(
          where(thing),
          fmt::format("{} \"{}\" is already written in line {}; rename one or take it "
                      "away.",
                      what, name(thing), first->second->line));
  }
}

}  // namespace benchgraft::catalogue
