#include "core/study/RecordingLocator.h"

#include "tests/core/study/TemporaryFolder.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

namespace fs = std::filesystem;

/// Stands in for the real hash: the content itself.
Result<std::string> contentAsHash(const fs::path& path) {
    if (!fs::exists(path)) return Error{ErrorKind::NotFound, path.string(), ""};
    return contentOf(path);
}

Result<std::string> noHash(const fs::path&) {
    ADD_FAILURE() << "nothing should be hashed";
    return std::string();
}

TEST(RecordingLocator, AStudyRefersToItsRecordingRelativeToItself) {
    EXPECT_EQ(referenceTo("/music/takes/line.flac", "/music/line.study"), "takes/line.flac");
    EXPECT_EQ(referenceTo("/music/line.flac", "/music/studies/line.study"), "../line.flac");
    EXPECT_EQ(referenceTo("/music/line.flac", ""), "/music/line.flac");
    EXPECT_EQ(referenceTo("/music/café ♭.flac", "/music/line.study"), "café ♭.flac");
}

TEST(RecordingLocator, AReferenceLeadsBackToTheFile) {
    for (const char* study : {"/music/line.study", "/music/a/b/line.study", ""}) {
        const RecordingRef recording{referenceTo("/music/takes/line.flac", study), "", {}, {}};
        EXPECT_EQ(expectedPlace(recording, study), "/music/takes/line.flac") << study;
    }
    EXPECT_TRUE(expectedPlace({}, "/music/line.study").empty());
}

TEST(RecordingLocator, WhatIsAtItsPlaceIsFoundWithoutReadingIt) {
    const TemporaryFolder folder;
    fill(folder / "line.flac", "sound");
    EXPECT_EQ(*locate({"line.flac", "sound", {}, {}}, folder / "line.study", noHash), folder / "line.flac");
}

TEST(RecordingLocator, AFileOfThatNameBesideTheStudyIsTakenOnlyIfItIsTheSame) {
    const TemporaryFolder folder;
    fill(folder / "line.flac", "sound");
    EXPECT_EQ(*locate({"../takes/line.flac", "sound", {}, {}}, folder / "line.study", contentAsHash),
              folder / "line.flac");
    const auto other =
        locate({"../takes/line.flac", "other sound", {}, {}}, folder / "line.study", contentAsHash);
    ASSERT_FALSE(other.ok());
    EXPECT_EQ(other.error().kind, ErrorKind::NotFound);
    EXPECT_NE(other.error().message.find("line.flac"), std::string::npos);
}

TEST(RecordingLocator, AMovedRecordingIsRecognisedByItsContent) {
    const TemporaryFolder folder;
    fill(folder / "renamed.flac", "sound");
    fill(folder / "line.flac", "another take");
    const RecordingRef recording{"gone/line.flac", "sound", {}, {}};
    EXPECT_EQ(*recognise(recording, folder / "renamed.flac", contentAsHash), Recognition::Same);
    EXPECT_EQ(*recognise(recording, folder / "line.flac", contentAsHash), Recognition::Different);
    EXPECT_EQ(*recognise({"gone/line.flac", "", {}, {}}, folder / "line.flac", noHash), Recognition::Unknown);
    EXPECT_EQ(recognise(recording, folder / "none", contentAsHash).error().kind, ErrorKind::NotFound);
}

} // namespace
} // namespace earwright
