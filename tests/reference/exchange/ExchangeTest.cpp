// What other programs read of our exports: verovio from npm, xmllint with the W3C's schema of MusicXML 4.0,
// Python's XML reader and zipfile, and python3-mido.
#include "core/engraving/PageBars.h"
#include "core/exchange/CompressedMusicXml.h"
#include "core/exchange/MusicXml.h"
#include "core/exchange/OpenForeign.h"
#include "core/exchange/StandardMidi.h"
#include "core/study/StudyFile.h"
#include "tests/core/exchange/ChanceStudy.h"
#include "tests/core/study/SampleStudy.h"
#include "tests/core/study/TemporaryFolder.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <gtest/gtest.h>
#include <sstream>

namespace earwright {
namespace {

namespace fs = std::filesystem;

using Rows = std::vector<std::string>;

Rows linesOf(const std::string& command) {
    Rows lines;
    std::array<char, 4096> line{};
    std::FILE* output = ::popen(command.c_str(), "r");
    while (output && std::fgets(line.data(), line.size(), output)) {
        lines.emplace_back(line.data());
        while (!lines.back().empty() && std::isspace(static_cast<unsigned char>(lines.back().back())))
            lines.back().pop_back();
    }
    EXPECT_TRUE(output && ::pclose(output) == 0) << command;
    return lines;
}

Rows readBack(const std::string& reader, const std::string& bytes) {
    const TemporaryFolder folder;
    fill(folder / "page", bytes);
    return linesOf(std::string(EARWRIGHT_PYTHON) + " " + EARWRIGHT_READERS + "/" + reader + " '" +
                   (folder / "page").string() + "'");
}

/// The schema's folder: EARWRIGHT_STANDARDS of the environment, or beside the project.
fs::path schemaFolder() {
    const char* chosen = std::getenv("EARWRIGHT_STANDARDS");
    return chosen ? fs::path(chosen) / "musicxml-4.0" : fs::path(EARWRIGHT_STANDARDS);
}

/// Plain notes and a pickup, triplets, a quintuplet, ties and double stops.
Study plainStudy() {
    Study study = eightBarsAt120();
    study = setForm(layOutChoruses(study, 1, 4, 2), "Bb7 | Eb7 | N.C. | Fm7b5 / Bb7alt hm?");
    const std::vector<std::pair<Beats, Beats>> places{{Beats(-3, 2), Beats(3, 2)}, {Beats(0), Beats(1, 3)},
                                                      {Beats(1, 3), Beats(2, 3)},  {Beats(1), Beats(1, 6)},
                                                      {Beats(7, 6), Beats(5, 6)},  {Beats(2), Beats(11, 5)},
                                                      {Beats(5), Beats(7, 4)},     {Beats(7), Beats(1, 8)},
                                                      {Beats(15, 2), Beats(6)},    {Beats(14), Beats(1, 7)}};
    int midi = 58;
    for (const auto& [onset, length] : places)
        study = addNote(study, {Pitch{midi++, {}}, onset, length}).study;
    return addNote(study, {Pitch{80, {}}, Beats(15, 2), Beats(6)}).study;
}

Study demoStudy() {
    const auto study = StudyFile::read(EARWRIGHT_DEMO_STUDY);
    EXPECT_TRUE(study.ok());
    return study ? *study : Study{};
}

std::string fractionText(const Beats& beats) {
    return toString(beats);
}

/// "begin length pitch" of what was written, from the beginning of the page; a beat is a quarter here.
Rows written(const Study& study, const Beats& pageBegin) {
    Rows rows;
    for (const PageNotes& together : pageLine(study))
        for (const Note& note : together.notes)
            rows.push_back(fractionText(together.begin - pageBegin) + " " +
                           fractionText(together.end - together.begin) + " " +
                           std::to_string(note.pitch.midi));
    return rows;
}

bool isPlain(const Note& note) {
    return note.phrasing.graceNotes.empty() && !note.phrasing.trill;
}

Rows withoutTail(const Rows& rows, int words) {
    Rows cut;
    for (const std::string& row : rows) {
        std::istringstream text(row);
        std::string word;
        std::string kept;
        for (int i = 0; i < words && text >> word; ++i)
            kept += (i ? " " : "") + word;
        if (!kept.starts_with("tempo")) cut.push_back(kept);
    }
    return cut;
}

TEST(Exchange, MusicXmlIsValidByTheSchema) {
    const fs::path schema = schemaFolder();
    if (!fs::exists(schema / "musicxml.xsd"))
        GTEST_SKIP() << "The MusicXML 4.0 schema is not in " << schema
                     << "; EARWRIGHT_STANDARDS can name its parent.";
    const TemporaryFolder folder;
    int files = 0;
    std::string command = "XML_CATALOG_FILES='" + (schema / "catalog.xml").string() +
                          "' xmllint --nonet --noout --schema '" + (schema / "musicxml.xsd").string() + "'";
    const auto add = [&](const Study& study, const MusicXmlOptions& options) {
        const auto page = musicXml(study, options);
        ASSERT_TRUE(page.ok());
        const fs::path file = folder / (std::to_string(files++) + ".musicxml");
        fill(file, *page);
        command += " '" + file.string() + "'";
    };
    MusicXmlOptions everything;
    everything.tablature = everything.degrees = true;
    for (const Study& study : {Study{}, plainStudy(), fullStudy(), demoStudy()}) {
        add(study, {});
        add(study, everything);
    }
    for (std::uint32_t seed = 1; seed <= 60; ++seed) {
        everything.reading = static_cast<Reading>(seed % 4);
        add(ChanceStudy(seed).make(), everything);
    }
    linesOf(command + " 2>&1");
    fill(folder / "broken.musicxml", "<score-partwise version=\"4.0\"><part/></score-partwise>");
    const std::string broken = "XML_CATALOG_FILES='" + (schema / "catalog.xml").string() +
                               "' xmllint --nonet --noout --schema '" + (schema / "musicxml.xsd").string() +
                               "' '" + (folder / "broken.musicxml").string() + "' 2>/dev/null";
    EXPECT_NE(std::system(broken.c_str()), 0) << "the check cannot fail";
}

TEST(Exchange, AnotherReaderFindsTheSameNotesInMusicXml) {
    EXPECT_EQ(withoutTail(readBack("read_musicxml.py", *musicXml(plainStudy())), 3),
              written(plainStudy(), Beats(-2)));
    Rows demo;
    for (const std::string& row : withoutTail(readBack("read_musicxml.py", *musicXml(demoStudy())), 3))
        if (row.find(" 0 ") == std::string::npos) demo.push_back(row);
    EXPECT_EQ(demo, written(demoStudy(), Beats(0)));
}

TEST(Exchange, AnotherLibraryUnpacksWhatIsPackedAndTheOtherWayRound) {
    const TemporaryFolder folder;
    const std::string text = *musicXml(plainStudy());
    fill(folder / "ours.mxl", *compressed(text));
    linesOf(std::string(EARWRIGHT_PYTHON) + " " + EARWRIGHT_READERS + "/repack_mxl.py '" +
            (folder / "ours.mxl").string() + "' '" + folder.path().string() + "'");
    EXPECT_EQ(contentOf(folder / "score.musicxml"), text);
    for (const char* name : {"deflated.mxl", "stored.mxl", "streamed.mxl", "without-container.mxl"}) {
        const auto opened = openForeign(folder / name);
        ASSERT_TRUE(opened.ok()) << describe(opened.error());
        EXPECT_EQ(opened->study.notes.size(), plainStudy().notes.size()) << name;
    }
    for (const char* name : {"bomb.mxl", "encrypted-flag.mxl"})
        EXPECT_FALSE(openForeign(folder / name).ok()) << name;
}

TEST(Exchange, AnotherReaderFindsThePhrasingInMusicXml) {
    // The pickup of the full study: two grace notes, then E♭ with all old marks; then a ghosted note, tied
    // twice, with another to be pulled off; then the marks of withEveryMark().
    EXPECT_EQ(readBack("read_musicxml.py", *musicXml(fullStudy())),
              (Rows{"2/3 0 61", "2/3 0 62 slur:start", "2/3 1/3 63 accent falloff scoop slur:stop trill-mark",
                    "9/2 5 60 notehead slur:start notehead notehead pull-off:start",
                    "21 1 67 inverted-mordent inverted-turn pre-bend pull-off:stop release scoop slide:start "
                    "staccato tenuto",
                    "22 1 65 falloff slide:stop slur:stop"}));
    Study slurred = plainStudy();
    slurred.notes[2].phrasing.slurred = slurred.notes[3].phrasing.slurred = true;
    const Rows rows = readBack("read_musicxml.py", *musicXml(slurred));
    ASSERT_EQ(rows.size(), 11u);
    EXPECT_EQ(rows[1], "2 1/3 59 slur:start");
    EXPECT_EQ(rows[2], "7/3 2/3 60");
    EXPECT_EQ(rows[3], "3 1/6 61 slur:stop");
}

/// Pitches of drawn heads, rising; tied ones and grace notes included.
std::string headPitches(const Study& study, std::int64_t lastBar) {
    const auto line = pageLine(study);
    const auto bars = pageBars(line, study.meters(), lastBar);
    std::vector<int> heads;
    for (const PageBar& bar : *bars)
        for (const PagePiece& piece : bar.pieces)
            if (piece.event)
                for (const Note& note : line[*piece.event].notes)
                    heads.push_back(note.pitch.midi);
    for (const PageNotes& together : line)
        for (const Note& note : together.notes)
            heads.insert(heads.end(), note.phrasing.graceNotes.begin(), note.phrasing.graceNotes.end());
    std::sort(heads.begin(), heads.end());
    std::string text = "pitches";
    for (const int midi : heads)
        text += " " + std::to_string(midi);
    return text;
}

TEST(Exchange, AnEngraverDrawsEveryNoteWithoutComplaint) {
    const fs::path engraver(EARWRIGHT_ENGRAVER);
    if (!fs::exists(engraver / "fetched-from"))
        GTEST_SKIP()
            << "The engraver is not there; tests/reference/exchange/engraver/fetch brings it from npm.";
    std::vector<Study> studies{plainStudy(), fullStudy(), demoStudy()};
    for (std::uint32_t seed = 1; seed <= 4; ++seed)
        studies.push_back(ChanceStudy(seed).make());
    for (const Study& study : studies) {
        const TemporaryFolder folder;
        fill(folder / "page.musicxml", *musicXml(study));
        const Rows drawn = linesOf("cd '" + engraver.string() + "' && node engrave.mjs '" +
                                   (folder / "page.musicxml").string() + "'");
        ASSERT_GE(drawn.size(), 2u);
        const std::string pitches = headPitches(study, 1);
        EXPECT_EQ(drawn.back(), pitches) << study.title;
        EXPECT_EQ(drawn[1], "note " + std::to_string(std::count(pitches.begin(), pitches.end(), ' ')))
            << study.title;
    }
}

TEST(Exchange, AnotherLibraryFindsTheSameNotesInMidi) {
    Study demo = demoStudy();
    std::erase_if(demo.notes, [](const Note& note) { return !isPlain(note); });
    Rows plain = withoutTail(readBack("read_midi.py", *standardMidi(plainStudy())), 3);
    EXPECT_EQ(plain, written(plainStudy(), Beats(-2)));
    MidiOptions even;
    even.swings = false;
    EXPECT_EQ(withoutTail(readBack("read_midi.py", *standardMidi(demo, even)), 3), written(demo, Beats(0)));
    EXPECT_GT(demo.notes.size(), 20u);
}

TEST(Exchange, MidiKeepsTempoAndShadesTheVelocity) {
    Study study = eightBarsAt120();
    for (int beat = 0; beat < 3; ++beat)
        study = addNote(study, {Pitch{60, {}}, Beats(beat), Beats(1)}).study;
    study.notes[1].phrasing.accented = true;
    study.notes[2].phrasing.ghosted = true;
    // 120 to the minute is half a second a quarter; 0.6, a third more and less than half of it, of 127.
    EXPECT_EQ(readBack("read_midi.py", *standardMidi(study)),
              (Rows{"tempo 500000", "0 1 60 76", "1 1 60 103", "2 1 60 34"}));
}

} // namespace
} // namespace earwright
