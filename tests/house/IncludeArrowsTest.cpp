// Reads every include line of the house and fails where a folder reaches into one it may not know.
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace earwright {
namespace {

namespace fs = std::filesystem;

using Folders = std::set<std::string>;

const fs::path source{EARWRIGHT_SOURCE_DIR};

/// The table of DEVELOPERS.md; a folder may always include itself.
const std::map<std::string, Folders> allowedInCore{
    {"result", {}},
    {"time", {"result"}},
    {"music", {"result", "time"}},
    {"study", {"result", "time", "music"}},
    {"sound", {"result", "time"}},
    {"engine", {"result", "time", "music", "sound"}},
    {"playback", {"result", "time", "music", "study", "sound", "engine"}},
    {"listening", {"result", "time", "sound"}},
    {"check", {"result", "time", "music", "study", "listening"}},
    {"theory", {"result", "time", "music", "study"}},
    {"engraving", {"result", "time", "music", "study", "theory"}},
    {"exchange", {"result", "time", "music", "study", "theory", "engraving"}},
    {"midi", {"result"}},
};

struct Include {
    std::string file;
    std::string target;
    bool isQuoted;
};

std::vector<Include> includesBelow(const fs::path& folder) {
    static const std::regex line(R"(^\s*#\s*include\s*([<"])([^>"]+)[>"])");
    std::vector<Include> found;
    if (!fs::exists(source / folder)) return found;
    for (const auto& entry : fs::recursive_directory_iterator(source / folder)) {
        const auto extension = entry.path().extension();
        if (extension != ".h" && extension != ".cpp") continue;
        std::ifstream file(entry.path());
        std::smatch match;
        for (std::string text; std::getline(file, text);)
            if (std::regex_search(text, match, line))
                found.push_back(
                    {fs::relative(entry.path(), source).generic_string(), match[2].str(), match[1] == "\""});
    }
    return found;
}

/// "core/music/BeatMap.h" is {"core", "music"}.
std::pair<std::string, std::string> folderOf(const std::string& target) {
    const std::size_t first = target.find('/');
    if (first == std::string::npos) return {};
    const std::size_t second = target.find('/', first + 1);
    return {target.substr(0, first),
            second == std::string::npos ? "" : target.substr(first + 1, second - first - 1)};
}

TEST(IncludeArrows, EveryCoreFolderIsInTheTable) {
    for (const auto& entry : fs::directory_iterator(source / "core")) {
        if (!entry.is_directory()) continue;
        EXPECT_TRUE(allowedInCore.contains(entry.path().filename().string())) << entry.path();
    }
}

TEST(IncludeArrows, CoreFoldersIncludeOnlyWhatTheyMayKnow) {
    int seen = 0;
    for (const auto& [folder, allowed] : allowedInCore)
        for (const Include& include : includesBelow(fs::path("core") / folder)) {
            ++seen;
            if (!include.isQuoted) continue;
            const auto [top, sub] = folderOf(include.target);
            EXPECT_EQ(top, "core") << include.file << " includes " << include.target;
            EXPECT_TRUE(sub == folder || allowed.contains(sub))
                << include.file << " includes " << include.target;
        }
    EXPECT_GT(seen, 50) << "the include lines were not found";
}

TEST(IncludeArrows, CoreAndTheHeadlessToolKnowNoQt) {
    for (const char* part : {"core", "app/batch"})
        for (const Include& include : includesBelow(part)) {
            EXPECT_FALSE(include.target.starts_with("Q")) << include.file << " includes " << include.target;
            EXPECT_FALSE(include.target.starts_with("ui/")) << include.file << " includes " << include.target;
        }
}

TEST(IncludeArrows, OnlyTheDeskJoinsTheViews) {
    const Folders shared{"theme", "commands"};
    for (const Include& include : includesBelow("ui")) {
        const auto [top, sub] = folderOf(include.target);
        if (top != "ui") continue;
        const auto [unused, own] = folderOf(include.file);
        EXPECT_TRUE(own == "desk" || sub == own || shared.contains(sub))
            << include.file << " includes " << include.target;
    }
}

} // namespace
} // namespace earwright
