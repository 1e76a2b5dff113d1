// One run of earwright-batch and what came of it.
#pragma once

#include <string>
#include <vector>

namespace earwright::tests {

struct BatchRun {
    int exitCode = -1;
    std::string output;
    std::string errors;

    /// The output's lines, split at tabs; empty cells are kept.
    std::vector<std::vector<std::string>> rows;

    /// Runs the program and waits for it.
    explicit BatchRun(const std::vector<std::string>& words);
};

} // namespace earwright::tests
