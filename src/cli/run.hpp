// Carries out one command line: asks the task, shows the answer, gives the exit code.
#pragma once

namespace benchgraft::cli {

/// 0 done; 2 wrong command line; 3 bad input; 4 not found; 5 conflict; 6 storage; 7 too new;
/// 8 limit; 1 a mistake in the program. No exception leaves it.
int run(int count, const char* const* words);

}  // namespace benchgraft::cli
