// Names in a command that the shop's catalogue does not know: told, never refused, because a set
// may come in before anybody has written its family down.
#pragma once

#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "shop/commands.hpp"

namespace benchgraft::tasks {

/// One sentence a name that is not in `families`, with the nearest; empty when all are known.
std::vector<std::string> remarks_on_names(const shop::Command& command,
                                          const std::vector<catalogue::Family>& families);

}  // namespace benchgraft::tasks
