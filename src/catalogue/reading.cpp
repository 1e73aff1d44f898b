#include "catalogue/reading.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"

namespace benchgraft::catalogue {

namespace {

using Sort = TomlNode::Sort;

std::string with_article(std::string_view thing) {
  const bool vowel = std::string_view("aeiou").find(thing.front()) != std::string_view::npos;
  return fmt::format("{} {}", vowel ? "an" : "a", thing);
}

std::string bounds_text(const Demand& d) {
  if (d.high < std::numeric_limits<double>::infinity())
    return fmt::format("must lie between {} and {}", d.low, d.high);
  if (d.above) return fmt::format("must be more than {}", d.low);
  if (d.low == 0) return "must not be negative";
  return fmt::format("must be {} or more", d.low);
}

bool within(double value, const Demand& d) {
  return value <= d.high && (d.above ? value > d.low : value >= d.low);
}

// A name is compared letter by letter, so blanks nobody sees must not hide in it.
bool is_clean_name(std::string_view name) {
  for (const char c : name)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) return false;
  return trimmed(name).size() == name.size();
}

void check_text(Reading& r, const TomlNode& node, std::string_view key, const std::string& text,
                const Demand& d) {
  if (d.must && text.empty()) return r.wrong(node, key, "must not be empty");
  if (!d.sentence && !is_clean_name(text))
    r.wrong(node, key, "must be a name without blanks at its ends and without line breaks");
}

bool read_number(Reading& r, const TomlNode& node, double& out) {
  if (r.failed()) return false;
  if (node.sort == Sort::whole)
    out = static_cast<double>(node.whole);
  else if (node.sort == Sort::number && std::isfinite(node.number))
    out = node.number + 0.0;  // never -0
  else
    return false;
  return true;
}

bool read_triple(Reading& r, const TomlNode& node, Point& out) {
  if (node.sort != Sort::list || node.list.size() != 3) return false;
  for (std::size_t i = 0; i < 3; ++i)
    if (!read_number(r, node.list[i], out[i])) return false;
  return true;
}

}  // namespace

void Reading::fault(int line, const std::string& sentence) {
  if (!error_) error_ = Error{ErrorKind::bad_input, place(file_, line) + one_line(sentence)};
}

void Reading::wrong(const TomlNode& node, std::string_view key, std::string_view must) {
  fault(node.line, fmt::format("{} = {} {}.", key, node.shown(), must));
}

void Reading::not_a_word(const TomlNode& node, std::string_view key,
                         const std::vector<std::string>& known) {
  const std::string near = node.sort == Sort::text ? nearest_word(node.text, known) : "";
  fault(node.line, fmt::format("{} = {} must be one of {}{}", key, node.shown(), listed(known),
                               near.empty() ? "." : fmt::format("; did you mean \"{}\"?", near)));
}

void Reading::missing(const TomlNode& table, std::string_view thing, std::string_view key) {
  // The first key of a table is its name; it tells which one is meant better than the line does.
  std::string which;
  if (const auto named =
          std::find_if(table.entries.begin(), table.entries.end(),
                       [&](const auto& entry) { return entry.value.sort == Sort::text; });
      named != table.entries.end())
    which = fmt::format(" ({} = {})", named->key, named->value.shown());
  fault(table.line, fmt::format("{}{} has no \"{}\"; add it.", with_article(thing), which, key));
}

void Reading::refuse_unknown(const TomlNode& table, std::string_view thing,
                             const std::vector<std::string>& known) {
  if (failed()) return;
  for (const auto& entry : table.entries) {
    if (std::find(known.begin(), known.end(), entry.key) != known.end()) continue;
    const std::string near = nearest_word(entry.key, known);
    const std::string mend = near.empty() ? fmt::format("its keys are {}.", listed(known))
                                          : fmt::format("did you mean \"{}\"?", near);
    return fault(entry.line, fmt::format("\"{}\" is not a key of {}; {}", entry.key,
                                         with_article(thing), mend));
  }
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, std::string& out,
                const Demand& d) {
  if (node.sort != Sort::text) return r.wrong(node, key, "must be text in quotes");
  check_text(r, node, key, node.text, d);
  out = node.text;
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, bool& out, const Demand&) {
  if (node.sort != Sort::yes_no) return r.wrong(node, key, "must be true or false");
  out = node.yes;
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, double& out,
                const Demand& d) {
  if (!read_number(r, node, out)) return r.wrong(node, key, "must be a number");
  if (!within(out, d)) r.wrong(node, key, bounds_text(d));
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, int& out, const Demand& d) {
  constexpr std::int64_t kMost = std::numeric_limits<int>::max();
  if (node.sort != Sort::whole || node.whole > kMost || node.whole < -kMost)
    return r.wrong(node, key, "must be a whole number");
  if (!within(static_cast<double>(node.whole), d)) return r.wrong(node, key, bounds_text(d));
  out = static_cast<int>(node.whole);
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, Money& out,
                const Demand& d) {
  if (node.sort != Sort::whole)
    return r.wrong(node, key, "must be a whole number of the smallest coin (1250 for 12.50)");
  if (!within(static_cast<double>(node.whole), d)) return r.wrong(node, key, bounds_text(d));
  out.minor = node.whole;
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, Range& out,
                const Demand& d) {
  if (node.sort == Sort::list && node.list.size() == 2) {
    if (!read_number(r, node.list[0], out.low) || !read_number(r, node.list[1], out.high))
      return r.wrong(node, key, "must be a number or a pair [low, high]");
  } else {
    if (!read_number(r, node, out.low))
      return r.wrong(node, key, "must be a number or a pair [low, high]");
    out.high = out.low;
  }
  if (out.low > out.high)
    return r.wrong(node, key, "has its low end above its high end; turn them round");
  if (!within(out.low, d) || !within(out.high, d)) r.wrong(node, key, bounds_text(d));
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, Point& out, const Demand&) {
  if (!read_triple(r, node, out)) r.wrong(node, key, "must be three numbers [right, up, forward]");
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, Loose<std::string> out,
                const Demand& d) {
  if (node.sort == Sort::whole)
    out.text = fmt::format("{}", node.whole);
  else if (double number = 0; node.sort == Sort::number && read_number(r, node, number))
    out.text = fmt::format("{}", number);
  else if (node.sort == Sort::text || node.sort == Sort::date)
    out.text = node.text;
  else
    return r.wrong(node, key, "must be a number or text in quotes");
  check_text(r, node, key, out.text, d);
}

void read_value(Reading& r, const TomlNode& node, std::string_view key, Joined<std::string> out,
                const Demand& d) {
  if (node.sort != Sort::text)
    return r.wrong(node, key, fmt::format("must be text like \"{}\"", out.form));
  check_text(r, node, key, node.text, d);
  const std::size_t at = node.text.rfind(out.between);
  const bool split = at != std::string::npos;
  if ((out.second_must && !split) || (split && (at == 0 || at + 1 == node.text.size())))
    return r.wrong(node, key, fmt::format("must be text like \"{}\"", out.form));
  out.first = node.text.substr(0, at);
  out.second = split ? node.text.substr(at + 1) : "";
}

void read_value(Reading& r, const TomlNode& node, std::string_view key,
                std::map<std::string, std::string>& out, const Demand&) {
  if (node.sort != Sort::table)
    return r.wrong(node, key, "must be a table { \"position\" = \"REF\", ... }");
  for (const auto& entry : node.entries) {
    read_value(r, entry.value, entry.key, out[entry.key], kMust);
    if (r.failed()) return;
  }
}

}  // namespace benchgraft::catalogue
