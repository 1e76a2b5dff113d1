#include "core/exchange/CompressedMusicXml.h"

#include "core/exchange/MusicXmlReading.h"
#include "core/exchange/OpenForeign.h"
#include "tests/core/exchange/WithinBounds.h"
#include "tests/core/study/TemporaryFolder.h"

#include <random>

namespace earwright {
namespace {

const std::string score =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?><score-partwise version=\"4.0\"><part-list/><part "
    "id=\"P1\"><measure number=\"1\"><note><pitch><step>E</step><octave>4</octave></pitch>"
    "<duration>4</duration></note></measure></part></score-partwise>";

std::string archiveOf(const std::string& text, const std::string& name = "score.musicxml") {
    const auto bytes = compressed(text, name);
    EXPECT_TRUE(bytes.ok());
    return bytes ? *bytes : "";
}

Error refusalOf(const std::string& archive) {
    const WithinBounds bounds;
    const auto text = musicXmlIn(archive, "line.mxl");
    EXPECT_FALSE(text.ok());
    if (text) return {ErrorKind::Device, "", ""};
    EXPECT_NE(text.error().message.find("plain MusicXML."), std::string::npos) << "a way out";
    return text.error();
}

/// In place of every `old`, which is as long.
std::string patched(std::string bytes, const std::string& old, const std::string& with) {
    EXPECT_EQ(old.size(), with.size());
    std::size_t count = 0;
    for (std::size_t at = bytes.find(old); at != std::string::npos; at = bytes.find(old, at + 1), ++count)
        bytes.replace(at, old.size(), with);
    EXPECT_GT(count, 0u);
    return bytes;
}

std::string fourBytes(std::size_t value) {
    std::string bytes;
    for (int i = 0; i < 4; ++i)
        bytes += static_cast<char>(value >> (8 * i) & 0xFF);
    return bytes;
}

TEST(CompressedMusicXml, ReadsBackWhatIsPackedAlwaysIntoTheSameBytes) {
    const auto text = musicXmlIn(archiveOf(score), "line.mxl");
    ASSERT_TRUE(text.ok()) << describe(text.error());
    EXPECT_EQ(*text, score);
    EXPECT_EQ(archiveOf(score), archiveOf(score));
}

TEST(CompressedMusicXml, BeginsWithItsTypeInPlainLetters) {
    // As MusicXML 4.0 recommends: the local header takes 30 bytes and the name "mimetype", then the content.
    EXPECT_EQ(archiveOf(score).substr(30, 8 + 34), "mimetypeapplication/vnd.recordare.musicxml");
}

TEST(CompressedMusicXml, AScoreIsOpenedByItsBytesWhateverItsNameSays) {
    const TemporaryFolder folder;
    for (const char* name : {"line.mxl", "line.MXL", "line.xml"}) {
        fill(folder / name, archiveOf(score));
        const auto opened = openForeign(folder / name);
        ASSERT_TRUE(opened.ok()) << describe(opened.error());
        ASSERT_EQ(opened->study.notes.size(), 1u);
        EXPECT_EQ(opened->study.notes.front().pitch.midi, 64);
    }
    fill(folder / "plain.mxl", score);
    EXPECT_TRUE(openForeign(folder / "plain.mxl").ok()) << "not packed at all";
}

TEST(CompressedMusicXml, RefusesBombs) {
    // 400 MB of nothing in less than half a megabyte.
    const std::string bomb = archiveOf(std::string(400u << 20, ' '));
    ASSERT_LT(bomb.size(), 500'000u);
    EXPECT_NE(refusalOf(bomb).message.find("too large"), std::string::npos);
    // The same, saying that it is small: its size, little-endian, stands in the central directory.
    const std::string lying = patched(bomb, fourBytes(400u << 20), fourBytes(500));
    EXPECT_EQ(refusalOf(lying).kind, ErrorKind::Malformed);
}

TEST(CompressedMusicXml, RefusesAnArchiveInAnArchive) {
    const std::string nested = archiveOf(archiveOf(score), "inner.mxl");
    const auto text = musicXmlIn(nested, "line.mxl");
    ASSERT_TRUE(text.ok());
    EXPECT_FALSE(readMusicXml(*text, "line.mxl").ok());
}

TEST(CompressedMusicXml, RefusesNamesThatLeadOutOfIt) {
    for (const char* name : {"../score.musicxml", "a/../../score.musicxml", "/etc/score.musicxml",
                             "a\\..\\score.musicxml", ".."})
        EXPECT_NE(refusalOf(archiveOf(score, name)).message.find("outside"), std::string::npos) << name;
}

TEST(CompressedMusicXml, RefusesSizesAndChecksumsThatAreNotTrue) {
    const std::string archive = archiveOf(score);
    EXPECT_EQ(refusalOf(patched(archive, fourBytes(score.size()), fourBytes(score.size() - 1))).kind,
              ErrorKind::Malformed);
    EXPECT_EQ(refusalOf(patched(archive, fourBytes(score.size()), fourBytes(0x7FFFFFFF))).kind,
              ErrorKind::Malformed);
    EXPECT_EQ(refusalOf(patched(archive, "score.musicxml", "Score.musicxml")).kind, ErrorKind::Malformed)
        << "the container names a file that is not there";
}

TEST(CompressedMusicXml, RefusesEveryPieceOfAnArchive) {
    const std::string archive = archiveOf(score);
    const WithinBounds bounds;
    for (std::size_t size = 0; size < archive.size(); ++size)
        EXPECT_FALSE(musicXmlIn(archive.substr(0, size), "line.mxl").ok()) << size;
}

TEST(CompressedMusicXml, RefusesThousandsOfFiles) {
    std::string many = archiveOf(score);
    for (int i = 0; i < 1'000; ++i)
        many += "PK\1\2";
    EXPECT_NE(refusalOf(many).message.find("thousand"), std::string::npos);
}

TEST(CompressedMusicXml, NoDamageMakesReadingFailBadly) {
    const std::string archive = archiveOf(score);
    std::mt19937 random(5);
    const WithinBounds bounds;
    int opened = 0;
    for (int round = 0; round < 10'000; ++round) {
        std::string bytes = archive;
        for (auto changes = 1 + random() % 3; changes > 0; --changes)
            bytes[random() % bytes.size()] = static_cast<char>(random() % 256);
        const auto text = musicXmlIn(bytes, "line.mxl");
        if (!text) continue;
        ++opened;
        // Whatever came through was checked against its checksum; a damaged name can make the list of
        // contents look like the only score.
        if (!text->ends_with("</container>\n")) {
            EXPECT_EQ(*text, score);
        }
    }
    EXPECT_GT(opened, 100);
}

} // namespace
} // namespace earwright
