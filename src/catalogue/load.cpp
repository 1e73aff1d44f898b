#include <algorithm>
#include <filesystem>
#include <fstream>

#include <fmt/format.h>

#include "catalogue/text.hpp"
#include "catalogue/toml_tree.hpp"

namespace benchgraft::catalogue {

namespace {

namespace fs = std::filesystem;

Result<std::vector<fs::path>> family_files(const std::string& folder) {
  std::error_code failed;
  if (!fs::is_directory(folder, failed))
    return Error{
        ErrorKind::not_found,
        fmt::format("{}: there is no such folder; name the folder that holds the family files.",
                    folder)};
  std::vector<fs::path> files;
  for (fs::directory_iterator entry(folder, failed), end; !failed && entry != end;
       entry.increment(failed))
    if (std::error_code odd;
        entry->path().extension() == ".toml" && !fs::is_directory(entry->path(), odd))
      files.push_back(entry->path());
  if (failed)
    return Error{ErrorKind::storage,
                 fmt::format("{}: the folder cannot be read ({}); look at its permissions.", folder,
                             failed.message())};
  if (files.empty())
    return Error{
        ErrorKind::not_found,
        fmt::format("{}: the folder holds no family file; put at least one *.toml there.", folder)};
  std::sort(files.begin(), files.end());
  return files;
}

// The size is asked first, so that a wrong file of gigabytes is never taken into memory.
Result<std::string> file_text(const fs::path& path) {
  std::error_code failed;
  const auto size = fs::file_size(path, failed);
  if (!failed && size > kLargestFile)
    return Error{ErrorKind::limit,
                 fmt::format("{}: the file has {} bytes and at most {} are read; split it into "
                             "families.",
                             path.string(), size, kLargestFile)};
  std::ifstream file(path, std::ios::binary);
  std::string text(failed ? 0 : static_cast<std::size_t>(size), '\0');
  if (!file.read(text.data(), static_cast<std::streamsize>(text.size())) || failed)
    return Error{
        ErrorKind::storage,
        fmt::format("{}: the file cannot be read; look at its permissions.", path.string())};
  return text;
}

}  // namespace

Result<Catalogue> load_catalogue(const std::vector<std::string>& folders) {
  std::vector<Family> families;
  for (const auto& folder : folders) {
    const auto files = family_files(folder);
    if (!files) return files.error();
    for (const auto& path : files.value()) {
      const auto text = file_text(path);
      if (!text) return text.error();
      auto family = read_family(text.value(), path.string());
      if (!family) return family.error();
      families.push_back(std::move(family).value());
    }
  }
  return Catalogue::from_families(std::move(families));
}

}  // namespace benchgraft::catalogue
