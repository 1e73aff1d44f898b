#include "cli/run.hpp"

int main(int count, char** words) { return benchgraft::cli::run(count, words); }
