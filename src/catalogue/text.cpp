#include "catalogue/text.hpp"

#include "catalogue/check_family.hpp"
#include "catalogue/read_keys.hpp"
#include "catalogue/writing.hpp"

namespace benchgraft::catalogue {

namespace {

constexpr std::int64_t kFormat = 1;

// Takes the format key off `root`, so that a newer file is called newer before its new keys are
// called wrong.
Result<void> take_format(TomlNode& root, const std::string& file) {
  const TomlEntry* format = root.find("format");
  if (format == nullptr)
    return Error{ErrorKind::bad_input,
                 place(file, 1) + "\"format\" is missing; write format = 1 as the first line."};
  const TomlNode& value = format->value;
  if (value.sort == TomlNode::Sort::whole && value.whole > kFormat)
    return Error{ErrorKind::too_new,
                 fmt::format("{}format = {} is newer than this program, which reads up to "
                             "format = {}; use a newer program.",
                             place(file, value.line), value.whole, kFormat)};
  if (value.sort != TomlNode::Sort::whole || value.whole != kFormat)
    return Error{ErrorKind::bad_input,
                 fmt::format("{}format = {} must be 1.", place(file, value.line), value.shown())};
  root.entries.erase(root.entries.begin() + (format - root.entries.data()));
  return {};
}

template <class T>
Result<T> read_root(const TomlNode& root, const std::string& file) {
  Reading reading(file);
  T thing;
  read_value(reading, root, "", thing, Demand{});
  if (reading.failed()) return reading.error();
  return thing;
}

template <class T>
Result<T> read_file_text(std::string_view toml, const std::string& file) {
  auto root = parse_toml(toml, file);
  if (!root) return root.error();
  if (auto format = take_format(root.value(), file); !format) return format.error();
  return read_root<T>(root.value(), file);
}

template <class T>
Result<T> checked(Result<T> read) {
  if (!read) return read;
  if (auto sound = check(read.value()); !sound) return sound.error();
  return read;
}

}  // namespace

Result<Family> read_family(std::string_view toml, const std::string& file) {
  return checked(read_file_text<Family>(toml, file));
}

Result<RebuildText> read_rebuild(std::string_view toml, const std::string& file) {
  auto rebuild = read_file_text<RebuildText>(toml, file);
  if (!rebuild) return rebuild.error();
  auto& read = rebuild.value();
  read.variant_where = read.where;
  if (const auto root = parse_toml(toml, file))
    if (const auto* entry = root.value().find("variant")) read.variant_where = {file, entry->line};
  return checked(std::move(rebuild));
}

Result<SwapNote> read_swap_note(std::string_view toml, const std::string& file) {
  auto read = read_file_text<SwapNoteFile>(toml, file);
  if (!read) return read.error();
  auto& notes = read.value().notes;
  if (notes.size() != 1)
    return Error{ErrorKind::bad_input,
                 fmt::format("{}the file holds {} swap notes; it must hold one [[swap_note]].",
                             place(file, 0), notes.size())};
  return checked(Result<SwapNote>(std::move(notes.front())));
}

Result<std::vector<Change>> read_changes(std::string_view toml, const std::string& file) {
  auto root = parse_toml(toml, file);
  if (!root) return root.error();
  auto read = read_root<ChangesFile>(root.value(), file);
  if (!read) return read.error();
  return checked(Result<std::vector<Change>>(std::move(read.value().changes)));
}

std::string write_family(const Family& family) { return "format = 1\n" + file_text(family); }

std::string write_rebuild(const RebuildText& rebuild) {
  return "format = 1\n" + file_text(rebuild);
}

std::string write_swap_note(const SwapNote& note) {
  return "format = 1\n" + file_text(SwapNoteFile{{note}});
}

std::string write_changes(const std::vector<Change>& changes) {
  const std::string text = file_text(ChangesFile{changes});
  return text.empty() ? text : text.substr(1);  // no blank line at the top
}

}  // namespace benchgraft::catalogue
