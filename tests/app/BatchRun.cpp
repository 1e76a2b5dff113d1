#include "tests/app/BatchRun.h"

#include "tests/core/sound/WrittenFile.h"

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>
#include <sys/wait.h>

namespace earwright::tests {

namespace {

std::string quoted(const std::string& word) {
    std::string result = "'";
    for (const char letter : word)
        result += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
    return result + "'";
}

std::string contents(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::vector<std::vector<std::string>> tableOf(const std::string& output) {
    std::vector<std::vector<std::string>> table;
    std::istringstream lines(output);
    for (std::string line; std::getline(lines, line);) {
        std::vector<std::string> cells(1);
        for (const char letter : line) {
            if (letter == '\t')
                cells.emplace_back();
            else
                cells.back() += letter;
        }
        table.push_back(cells);
    }
    return table;
}

} // namespace

BatchRun::BatchRun(const std::vector<std::string>& words) {
    const ScratchFolder folder;
    std::string command = quoted(EARWRIGHT_BATCH);
    for (const std::string& word : words)
        command += " " + quoted(word);
    command += " >" + quoted((folder / "out").string()) + " 2>" + quoted((folder / "err").string());
    const int status = std::system(command.c_str());
    exitCode = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    output = contents(folder / "out");
    errors = contents(folder / "err");
    rows = tableOf(output);
}

} // namespace earwright::tests
