// The catalogue a task works with: what ships with the program, folders named, what the shop holds.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "shop/shop.hpp"

namespace benchgraft::tasks {

/// Where to look beside the shop.
struct Knowledge {
  std::string data_dir;              ///< folder with kinds/ and limits/; "" = the one shipped
  std::vector<std::string> folders;  ///< catalogue folders of the user
};

/// The shipped data folder in use: the one named, that of the source tree, or the installed one.
/// fails: not_found, naming the folder.
Result<std::string> data_folder(const Knowledge& knowledge);

/// Kinds and limits, then `knowledge.folders`, then `more`: a family of the same name replaces the
/// earlier one.
Result<catalogue::Catalogue> known_catalogue(const Knowledge& knowledge,
                                             const std::vector<catalogue::Family>& more = {});

/// The shop's own swap notes, to be known beside its families.
catalogue::Family notes_of_the_shop(const shop::Shop& room);

}  // namespace benchgraft::tasks
