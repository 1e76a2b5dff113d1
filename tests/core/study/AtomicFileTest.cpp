#include "core/study/AtomicFile.h"

#include "tests/core/study/TemporaryFolder.h"

#include <csignal>
#include <gtest/gtest.h>
#include <string>
#include <sys/resource.h>
#include <unistd.h>

namespace earwright {
namespace {

namespace fs = std::filesystem;

TEST(AtomicFile, MakesAndReplacesAFileAndLeavesNothingBesideIt) {
    const TemporaryFolder folder;
    ASSERT_TRUE(replaceFile(folder / "a", "one").ok());
    ASSERT_TRUE(replaceFile(folder / "a", "two").ok());
    EXPECT_EQ(contentOf(folder / "a"), "two");
    EXPECT_EQ(folder.count(), 1u);
}

TEST(AtomicFile, KeepsTheFilesPermissions) {
    const TemporaryFolder folder;
    fill(folder / "a", "one");
    fs::permissions(folder / "a", fs::perms::owner_read | fs::perms::owner_write);
    ASSERT_TRUE(replaceFile(folder / "a", "two").ok());
    EXPECT_EQ(fs::status(folder / "a").permissions(), fs::perms::owner_read | fs::perms::owner_write);
}

TEST(AtomicFile, ALinkStaysALinkAndItsTargetIsReplaced) {
    const TemporaryFolder folder;
    fill(folder / "target", "one");
    fs::create_symlink("target", folder / "link");
    ASSERT_TRUE(replaceFile(folder / "link", "two").ok());
    EXPECT_TRUE(fs::is_symlink(folder / "link"));
    EXPECT_EQ(contentOf(folder / "target"), "two");
}

TEST(AtomicFile, AFolderThatIsNotThereIsAnErrorThatNamesTheFile) {
    const TemporaryFolder folder;
    const Result<Done> done = replaceFile(folder / "none/a", "one");
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.error().kind, ErrorKind::NotWritable);
    EXPECT_NE(done.error().message.find("none/a"), std::string::npos);
}

// A limit on file size stands in for a full disk: the write fails part of the way.
TEST(AtomicFile, AWriteThatFailsHalfWayLeavesTheOldFileAndNothingElse) {
    const TemporaryFolder folder;
    fill(folder / "a", "one");
    const auto ignored = std::signal(SIGXFSZ, SIG_IGN);
    rlimit before{};
    getrlimit(RLIMIT_FSIZE, &before);
    rlimit small = before;
    small.rlim_cur = 4096;
    setrlimit(RLIMIT_FSIZE, &small);
    const Result<Done> done = replaceFile(folder / "a", std::string(100'000, 'x'));
    setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, ignored);
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(contentOf(folder / "a"), "one");
    EXPECT_EQ(folder.count(), 1u);
}

TEST(AtomicFile, AWriteProtectedFileIsNotReplaced) {
    if (::geteuid() == 0) GTEST_SKIP() << "root may write everywhere";
    const TemporaryFolder folder;
    fill(folder / "a", "one");
    fs::permissions(folder / "a", fs::perms::owner_read);
    EXPECT_FALSE(replaceFile(folder / "a", "two").ok());
    EXPECT_EQ(contentOf(folder / "a"), "one");
}

} // namespace
} // namespace earwright
