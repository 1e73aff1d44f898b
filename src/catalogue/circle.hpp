// Finds things that wait for each other.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace benchgraft::catalogue {

/// What each name waits for; names that are not keys themselves are ignored.
using WaitsFor = std::map<std::string, std::vector<std::string>>;

/// The names of one circle, each waiting for the next and the last for the first; empty when there
/// is none.
std::vector<std::string> find_circle(const WaitsFor& waits);

/// `"a" waits for "b", which waits for "a"`.
std::string circle_text(const std::vector<std::string>& circle);

}  // namespace benchgraft::catalogue
