#include "core/sound/ContentHash.h"

#include "tests/core/sound/WrittenFile.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(ContentHash, AgreesWithTheXxHashProgram) {
    // XXH3-128 of no bytes with seed 0: xxHash's own sanity test vectors (xxHash 0.8,
    // cli/xsum_sanity_check.c) give low 0x6001C324468D497F, high 0x99AA06D3014798D8.
    const tests::ScratchFolder folder;
    tests::writeBytes(folder / "empty", "");
    const auto hash = contentHash(folder / "empty");
    ASSERT_TRUE(hash.ok());
    EXPECT_EQ(*hash, "99aa06d3014798d86001c324468d497f");
}

TEST(ContentHash, FollowsTheBytesAndNotTheName) {
    const tests::ScratchFolder folder;
    const std::string bytes(1000000, 'x');
    tests::writeBytes(folder / "a", bytes);
    tests::writeBytes(folder / "b", bytes);
    tests::writeBytes(folder / "c", bytes.substr(1) + "y");
    EXPECT_EQ(*contentHash(folder / "a"), *contentHash(folder / "b"));
    EXPECT_NE(*contentHash(folder / "a"), *contentHash(folder / "c"));
}

TEST(ContentHash, StopsWhenAskedAndSaysWhatIsMissing) {
    const tests::ScratchFolder folder;
    tests::writeBytes(folder / "a", "x");
    std::stop_source stop;
    stop.request_stop();
    EXPECT_EQ(contentHash(folder / "a", stop.get_token()).error().kind, ErrorKind::Cancelled);
    EXPECT_EQ(contentHash(folder / "none").error().kind, ErrorKind::NotFound);
}

} // namespace
} // namespace earwright
