// The one sentence a faulty text gives, for tests that compare it.
#pragma once

#include <string>

#include <gtest/gtest.h>

#include "catalogue/text.hpp"

namespace benchgraft::catalogue {

inline constexpr const char* kHead = "format = 1\nfamily = \"tern\"\n";  // two lines

/// What read_family says about `body` put after kHead (its first line is line 3); "" when it reads.
inline std::string told(const std::string& body) {
  const auto read = read_family(kHead + body, "tern.toml");
  return read ? "" : read.error().message;
}

/// The family of `body` put after kHead; a failed test when it does not read.
inline Family family_of(const std::string& body, const std::string& name = "tern") {
  auto read = read_family("format = 1\nfamily = \"" + name + "\"\n" + body, name + ".toml");
  EXPECT_TRUE(read.ok()) << read.error().message;
  return read ? std::move(read).value() : Family{};
}

}  // namespace benchgraft::catalogue
