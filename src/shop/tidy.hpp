// Makes texts clean in place by walking the keys of a struct, and finds what no text may hold.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "shop/keys_shop.hpp"

namespace benchgraft::shop {

/// What is wrong with the bytes of `text`; "" when nothing is.
std::string bad_bytes(const std::string& text);

/// Blanks off both ends, one sort of line break.
void tidy(std::string& text);
/// Each word tidied; empty and doubled ones taken out.
void tidy(std::vector<std::string>& words);

/// Visits the keys of one struct; `fault` names the first field whose bytes are no text.
class Tidying {
 public:
  std::string fault;

  template <class F>
  void key(std::string_view name, F&& field, const catalogue::Demand& = {}) {
    visit(name, field);
  }

 private:
  void visit(std::string_view name, std::string& text) {
    tidy(text);
    look(name, text);
  }
  void visit(std::string_view name, std::vector<std::string>& words) {
    tidy(words);
    for (const auto& word : words) look(name, word);
  }
  void visit(std::string_view name, catalogue::Loose<std::string>& loose) {
    visit(name, loose.text);
  }
  void visit(std::string_view name, catalogue::Joined<std::string>& joined) {
    visit(name, joined.first);
    visit(name, joined.second);
  }
  template <class T>
  void visit(std::string_view name, std::optional<T>& one) {
    if (one) visit(name, *one);
  }
  template <catalogue::Keyed T>
  void visit(std::string_view name, std::vector<T>& many) {
    for (auto& one : many) visit(name, one);
  }
  template <catalogue::Keyed T>
  void visit(std::string_view, T& one) {
    each_key(*this, one);
  }
  // Numbers and words of closed lists hold no text.
  template <class T>
  void visit(std::string_view, T&) {}

  void look(std::string_view name, const std::string& text) {
    if (!fault.empty()) return;
    if (std::string wrong = bad_bytes(text); !wrong.empty())
      fault = std::string(name) + " " + std::move(wrong);
  }
};

}  // namespace benchgraft::shop
