#include "core/sound/CacheFolder.h"

#include "tests/core/sound/WrittenFile.h"

#include <chrono>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <string>
#include <thread>
#include <vector>

namespace earwright {
namespace {

namespace fs = std::filesystem;
using tests::ScratchFolder;

std::vector<char> bytesOf(const std::string& text) {
    return {text.begin(), text.end()};
}

/// The only file of a folder.
fs::path fileIn(const fs::path& folder) {
    return fs::directory_iterator(folder)->path();
}

std::size_t filesIn(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

TEST(CacheFolder, GivesBackWhatItKeptAlsoToAnotherProgram) {
    const ScratchFolder scratch;
    const CacheFolder cache(scratch / "deep/er", 1000);
    EXPECT_FALSE(cache.find("a.v1"));
    cache.keep("a.v1", bytesOf("heard"));
    EXPECT_EQ(CacheFolder(scratch / "deep/er", 1000).find("a.v1"), bytesOf("heard"));
    cache.keep("a.v1", bytesOf("heard anew"));
    EXPECT_EQ(cache.find("a.v1"), bytesOf("heard anew"));
    cache.keep("none.v1", {});
    EXPECT_EQ(cache.find("none.v1"), std::vector<char>{});
    EXPECT_EQ(filesIn(scratch / "deep/er"), 2u); // no drafts are left
}

TEST(CacheFolder, TakesNoDamagedOrForeignFileForItsOwnAndWritesItAnew) {
    const ScratchFolder scratch;
    const CacheFolder cache(scratch / "c", 10000);
    cache.keep("a", bytesOf(std::string(200, 'x')));
    const fs::path file = fileIn(scratch / "c");
    const auto whole = fs::file_size(file);
    for (std::uintmax_t place = 0; place < whole; place += 7) {
        std::fstream damage(file, std::ios::binary | std::ios::in | std::ios::out);
        damage.seekp(static_cast<std::streamoff>(place));
        damage.put('?');
        damage.close();
        EXPECT_FALSE(cache.find("a")) << place;
        cache.keep("a", bytesOf(std::string(200, 'x')));
        EXPECT_TRUE(cache.find("a")) << place;
    }
    fs::resize_file(file, whole - 1);
    EXPECT_FALSE(cache.find("a"));
    fs::resize_file(file, 3);
    EXPECT_FALSE(cache.find("a"));
    tests::writeBytes(file, "somebody else's");
    EXPECT_FALSE(cache.find("a"));
}

TEST(CacheFolder, LetsTheLeastRecentlyUsedGoWhenItIsFull) {
    const ScratchFolder scratch;
    const CacheFolder cache(scratch / "c", 1000);
    const auto pause = [] { std::this_thread::sleep_for(std::chrono::milliseconds(20)); };
    for (const char* name : {"a", "b", "c"}) {
        cache.keep(name, bytesOf(std::string(250, name[0])));
        pause();
    }
    ASSERT_TRUE(cache.find("a")); // now "b" is the oldest
    pause();
    cache.keep("d", bytesOf(std::string(250, 'd')));
    EXPECT_TRUE(cache.find("a"));
    EXPECT_FALSE(cache.find("b"));
    EXPECT_TRUE(cache.find("d"));
    cache.keep("huge", bytesOf(std::string(2000, 'h')));
    EXPECT_FALSE(cache.find("huge"));
    EXPECT_TRUE(cache.find("d"));
}

TEST(CacheFolder, LeavesFilesThatAreNotItsOwnAlone) {
    const ScratchFolder scratch;
    fs::create_directories(scratch / "c");
    tests::writeBytes(scratch / "c/letter.txt", std::string(5000, 't'));
    const CacheFolder cache(scratch / "c", 1000);
    cache.keep("a", bytesOf("x"));
    EXPECT_TRUE(cache.find("a"));
    EXPECT_TRUE(fs::exists(scratch / "c/letter.txt"));
}

TEST(CacheFolder, IsNoReasonToFailWhereNothingCanBeWritten) {
    const ScratchFolder scratch;
    tests::writeBytes(scratch / "file", "in the way");
    const CacheFolder cache(scratch / "file/folder", 1000);
    cache.keep("a", bytesOf("x"));
    EXPECT_FALSE(cache.find("a"));
}

} // namespace
} // namespace earwright
