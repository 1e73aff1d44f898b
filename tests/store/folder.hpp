// A folder of its own for one test, gone with it, and a store in it.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include <gtest/gtest.h>
#include <unistd.h>

#include "store/store.hpp"
#include "support/some_shops.hpp"

namespace benchgraft::store {

class Folder {
 public:
  Folder() {
    // In memory where there is such a folder: hundreds of small shops are synced to it.
    std::error_code none;
    const std::filesystem::path memory = "/dev/shm";
    const auto parent =
        std::filesystem::is_directory(memory, none) && ::access(memory.c_str(), W_OK) == 0
            ? memory
            : std::filesystem::temp_directory_path();
    std::string pattern = (parent / "bench-XXXXXX").string();
    path_ = ::mkdtemp(pattern.data());
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string file(const std::string& name = "loft.shop") const {
    return (path_ / name).string();
  }
  [[nodiscard]] std::string path() const { return path_.string(); }
  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
  }

 private:
  std::filesystem::path path_;
};

inline Store opened(const std::string& path, Mode mode = Mode::create, int wait_ms = 100) {
  auto store = Store::open(path, mode, wait_ms);
  if (!store) throw std::runtime_error(store.error().message);
  return std::move(store.value());
}

/// The message of a failed result, or "no fault".
template <class T>
std::string fault(const Result<T>& result) {
  return result ? "no fault" : result.error().message;
}

/// The value of a result that has to be there.
template <class T>
T must(Result<T> result) {
  if (!result) throw std::runtime_error(result.error().message);
  return std::move(result.value());
}

inline shop::TakeIn set_with_code(const std::string& code, const std::string& model = "Tern 50") {
  shop::Set set;
  set.code = code;
  set.model = model;
  set.consent = shop::Consent::may_strip;
  return {set};
}

inline shop::AddPart part_in(const std::string& code, const std::string& set = "",
                             const std::string& position = "") {
  shop::Part part;
  part.code = code;
  part.type = "LD-20";
  part.position = position;
  return {part, set};
}

}  // namespace benchgraft::store
