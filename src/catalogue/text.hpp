// The catalogue as TOML text: read, check, write. Format: docs/formats/catalogue.md.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"

namespace benchgraft::catalogue {

inline constexpr std::size_t kLargestFile =
    8U << 20U;  ///< bytes; a family file is a few hundred lines

/// Reads one family file. `file` is only used in messages and `Where`.
/// Fails (one sentence with file, line, key, value and mend) on broken TOML, an unknown key (with
/// the nearest right one), a wrong type, a word outside its list, a negative price, a doubled name,
/// a wire to a contact that is not there, pieces that wait for each other, text that is not UTF-8,
/// too large.
Result<Family> read_family(std::string_view toml, const std::string& file);

/// Stable order, one fact a line; read_family(write_family(f)) == f.
std::string write_family(const Family& family);

Result<RebuildText> read_rebuild(std::string_view toml, const std::string& file);
std::string write_rebuild(const RebuildText& rebuild);

/// A swap note alone in a file.
Result<SwapNote> read_swap_note(std::string_view toml, const std::string& file);
std::string write_swap_note(const SwapNote& note);

/// The changes of one part as text, and back (used by the shop's own text form).
Result<std::vector<Change>> read_changes(std::string_view toml, const std::string& file);
std::string write_changes(const std::vector<Change>& changes);

/// All *.toml of the given folders (sorted) as one catalogue. Nothing is loaded when one file is
/// wrong.
Result<Catalogue> load_catalogue(const std::vector<std::string>& folders);

}  // namespace benchgraft::catalogue
