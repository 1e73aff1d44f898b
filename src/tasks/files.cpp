#include "tasks/files.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include <fmt/format.h>

#include "catalogue/text.hpp"

namespace benchgraft::tasks {

namespace {

namespace fs = std::filesystem;

Error refused(ErrorKind kind, const std::string& path, const std::string& sentence) {
  return {kind, fmt::format("{}: {}", path, sentence)};
}

bool is_text_file(const fs::path& path) {
  std::string ending = path.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return ending == ".toml" || ending == ".csv";
}

std::size_t largest(const std::string& path) {
  const std::string ending = fs::path(path).extension().string();
  return ending == ".csv" || ending == ".CSV" ? shop::kLargestCsv : catalogue::kLargestFile;
}

Result<shop::NamedText> read_one(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file)
    return refused(ErrorKind::storage, path, "the file cannot be read; check who may read it.");
  const std::size_t most = largest(path);
  std::string bytes;
  std::vector<char> block(1U << 16U);
  while (file) {
    file.read(block.data(), static_cast<std::streamsize>(block.size()));
    bytes.append(block.data(), static_cast<std::size_t>(file.gcount()));
    if (bytes.size() > most)
      return refused(ErrorKind::limit, path,
                     fmt::format("the file has more than {} MB; split it.", most >> 20U));
  }
  if (file.bad())
    return refused(ErrorKind::storage, path, "reading the file broke off; check the disk.");
  return shop::NamedText{path, std::move(bytes)};
}

Result<std::vector<std::string>> files_below(const std::string& folder) {
  std::vector<std::string> files;
  std::error_code failed;
  // Links to folders are not followed: they can lead round in a circle.
  for (fs::recursive_directory_iterator at(folder, failed), end; !failed && at != end;
       at.increment(failed))
    if (at->is_regular_file(failed) && is_text_file(at->path()))
      files.push_back(at->path().string());
  if (failed)
    return refused(ErrorKind::storage, folder, "the folder cannot be read; check who may read it.");
  std::sort(files.begin(), files.end());
  return files;
}

Result<std::vector<std::string>> files_of(const std::string& path) {
  std::error_code failed;
  const fs::file_status status = fs::status(path, failed);
  if (!fs::exists(status))
    return refused(ErrorKind::not_found, path,
                   "there is no such file or folder; correct the path.");
  if (fs::is_directory(status)) {
    auto files = files_below(path);
    if (files && files.value().empty())
      return refused(ErrorKind::not_found, path, "there is no .toml or .csv file in this folder.");
    return files;
  }
  // A pipe or a device may never end.
  if (!fs::is_regular_file(status))
    return refused(ErrorKind::bad_input, path,
                   "this is neither a file nor a folder; give one of the two.");
  return std::vector<std::string>{path};
}

// Written beside its place and then moved there: a reader sees the old file or the new one.
Result<void> write_one(const fs::path& path, const std::string& bytes) {
  const fs::path part = path.string() + ".part";
  std::ofstream file(part, std::ios::binary | std::ios::trunc);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  file.close();
  std::error_code failed;
  if (file) fs::rename(part, path, failed);
  if (file && !failed) return {};
  std::error_code ignored;
  fs::remove(part, ignored);
  return refused(
      ErrorKind::storage, path.string(),
      "the file cannot be written; check who may write in the folder and that the disk has room.");
}

}  // namespace

Result<std::vector<shop::NamedText>> read_files(const std::vector<std::string>& paths) {
  std::vector<std::string> files;
  for (const auto& path : paths) {
    auto found = files_of(path);
    if (!found) return found.error();
    for (auto& file : found.value())
      if (std::find(files.begin(), files.end(), file) == files.end())
        files.push_back(std::move(file));
  }
  std::vector<shop::NamedText> texts;
  for (const auto& file : files) {
    auto text = read_one(file);
    if (!text) return text.error();
    texts.push_back(std::move(text.value()));
  }
  return texts;
}

Result<void> write_files(const std::string& folder, const std::vector<shop::NamedText>& texts) {
  for (const auto& text : texts) {
    const fs::path path = fs::path(folder) / text.path;
    std::error_code failed;
    fs::create_directories(path.parent_path(), failed);
    if (failed)
      return refused(ErrorKind::storage, path.parent_path().string(),
                     "the folder cannot be made; check that nothing else has its name and who may "
                     "write there.");
    if (auto written = write_one(path, text.bytes); !written) return written;
  }
  return {};
}

}  // namespace benchgraft::tasks
