#include "catalogue/write_value.hpp"

#include <charconv>

namespace benchgraft::catalogue {

namespace {

std::string escaped(char c) {
  switch (c) {
    case '"':
      return "\\\"";
    case '\\':
      return "\\\\";
    case '\b':
      return "\\b";
    case '\t':
      return "\\t";
    case '\n':
      return "\\n";
    case '\f':
      return "\\f";
    case '\r':
      return "\\r";
    default:
      break;
  }
  const auto byte = static_cast<unsigned char>(c);
  if (byte < 0x20 || byte == 0x7F) return fmt::format("\\u{:04X}", static_cast<unsigned>(byte));
  return std::string(1, c);
}

}  // namespace

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) out += escaped(c);
  return out + "\"";
}

std::string quoted_long(std::string_view text) {
  if (text.find('\n') == std::string_view::npos) return quoted(text);
  std::string out = "\"\"\"\n";
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool alone = text[i] == '"' && i + 1 < text.size() && text[i + 1] != '"';
    out += text[i] == '\n' || alone ? std::string(1, text[i]) : escaped(text[i]);
  }
  return out + "\"\"\"";
}

std::string number_text(double number) { return fmt::format("{}", number + 0.0); }

std::string loose_text(const std::string& text) {
  std::int64_t whole = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), whole);
  const bool all = read.ec == std::errc{} && read.ptr == text.data() + text.size();
  return all && fmt::format("{}", whole) == text ? text : quoted(text);
}

std::string value_text(const Range& v) {
  if (v.low == v.high) return number_text(v.low);
  return fmt::format("[{}, {}]", number_text(v.low), number_text(v.high));
}

std::string value_text(const Point& v) {
  return fmt::format("[{}, {}, {}]", number_text(v[0]), number_text(v[1]), number_text(v[2]));
}

std::string value_text(const std::map<std::string, std::string>& v) {
  std::string line;
  for (const auto& [key, value] : v)
    line += (line.empty() ? "" : ", ") + quoted(key) + " = " + quoted(value);
  return "{" + line + "}";
}

std::string value_text(const Joined<const std::string>& v) {
  return quoted(v.second.empty() ? v.first : v.first + v.between + v.second);
}

}  // namespace benchgraft::catalogue
