// Any bytes either give one sentence or a family; what was read must write and read back the same,
// and changes read from the same bytes must apply or say why not.
#include <cstdint>
#include <string>

#include "base/ensure.hpp"
#include "base/text.hpp"
#include "catalogue/effective.hpp"
#include "catalogue/text.hpp"

using namespace benchgraft;
using namespace benchgraft::catalogue;

namespace {

void one_sentence(const Error& error) {
  ensure(error.message.starts_with("fuzz.toml"), "a message names the file");
  ensure(error.message.find('\n') == std::string::npos, "a message is one line");
  ensure(first_bad_utf8(error.message) == std::string_view::npos, "a message is text");
}

void family(std::string_view text) {
  const auto read = read_family(text, "fuzz.toml");
  if (!read) return one_sentence(read.error());
  const std::string written = write_family(read.value());
  const auto again = read_family(written, "fuzz.toml");
  ensure(again.ok(), "what was written reads");
  ensure(again.value() == read.value(), "what was written reads back the same");
  ensure(write_family(again.value()) == written, "the same family is the same text");
  const auto catalogue = Catalogue::from_families({read.value()});
  if (!catalogue) one_sentence(catalogue.error());
}

void rebuild(std::string_view text) {
  const auto read = read_rebuild(text, "fuzz.toml");
  if (!read) return one_sentence(read.error());
  const auto again = read_rebuild(write_rebuild(read.value()), "fuzz.toml");
  ensure(again.ok() && again.value() == read.value(), "a rebuild reads back the same");
}

// The changes of a rebuild, applied to a type that has something of everything.
void changes(std::string_view text) {
  const auto read = read_changes(text, "fuzz.toml");
  if (!read) return one_sentence(read.error());
  const auto again = read_changes(write_changes(read.value()), "fuzz.toml");
  ensure(again.ok() && again.value() == read.value(), "changes read back the same");
  static const auto kFamily = read_family(
      "format = 1\nfamily = \"f\"\n[[part_type]]\npart_type = \"A\"\nkind = \"lead\"\nroles = "
      "[\"r\"]\n"
      "carries = [{piece = \"s\"}]\nwire = [{from = \"P.1\", to = "
      "\"Q.2\"}]\n[[part_type.port]]\nport = \"P\"\n"
      "connector = {ways = 4}\ncontacts = [{n = 1}, {n = 2}]\n[[part_type.port]]\nport = \"Q\"\n",
      "fuzz.toml");
  const auto changed = effective_type(kFamily.value().part_types[0], read.value());
  if (!changed) one_sentence(changed.error());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  family(text);
  rebuild(text);
  changes(text);
  return 0;
}
