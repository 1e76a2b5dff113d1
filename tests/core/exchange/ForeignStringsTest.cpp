#include "core/exchange/ForeignStrings.h"

#include "core/exchange/MusicXml.h"
#include "core/exchange/MusicXmlReading.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

/// Quarters, one after the other.
Study lineOf(const std::vector<int>& pitches) {
    Study study;
    for (const int midi : pitches) {
        const Beats onset(static_cast<std::int64_t>(study.notes.size()));
        study.notes.push_back({NoteId{study.nextId++}, onset, Beats(1), Pitch{midi, {}}, 0.6, {}});
    }
    return study;
}

Imported readBack(const Study& study, bool tablature = false) {
    MusicXmlOptions options;
    options.tablature = tablature;
    const auto text = musicXml(study, options);
    EXPECT_TRUE(text.ok());
    const auto imported = readMusicXml(*text, "line.musicxml");
    EXPECT_TRUE(imported.ok());
    return imported ? *imported : Imported{};
}

std::vector<std::optional<int>> pinsOf(const Study& study) {
    std::vector<std::optional<int>> pins;
    for (const Note& note : study.notes)
        pins.push_back(note.pinnedString);
    return pins;
}

TEST(ForeignStrings, AreNobodysWishWhereTablatureFindsThemByItself) {
    const Imported back = readBack(lineOf({64, 67, 69, 71, 72, 69, 67, 64}));
    EXPECT_EQ(pinsOf(back.study), std::vector<std::optional<int>>(8));
    EXPECT_EQ(back.study.tuning, StringTuning{});
    EXPECT_TRUE(back.leftOut.empty());
}

TEST(ForeignStrings, KeepAPinThatTablatureWouldNotFind) {
    Study study = lineOf({64, 67, 69, 71});
    study.notes[0].pinnedString = 3;
    const Imported back = readBack(study);
    EXPECT_EQ(back.study.notes[0].pinnedString, 3);
    EXPECT_TRUE(back.leftOut.empty());
}

TEST(ForeignStrings, TellOfTheTuningBesideTablature) {
    Study study = lineOf({62, 66, 69, 74});
    study.tuning.strings = *readStrings("DADGAD");
    study.tuning.capo = 2;
    EXPECT_EQ(readBack(study, true).study.tuning, study.tuning);
}

TEST(ForeignStrings, TellOfTheTuningByTheirFretsAlone) {
    Study dropped = lineOf({38, 45, 50, 57, 62, 66});
    dropped.tuning.strings.back() = 38;
    dropped.notes[0].pinnedString = 5;
    EXPECT_EQ(readBack(dropped).study.tuning, dropped.tuning);

    Study withCapo = lineOf({66, 68, 70, 61, 63, 57});
    withCapo.tuning.capo = 2;
    EXPECT_EQ(readBack(withCapo).study.tuning, withCapo.tuning);
}

TEST(ForeignStrings, TellOfACapoOnAGuitarThatIsTunedOtherwise) {
    // D A D G B E under a capo on the second fret: as the plain guitar's its lowest string would be open.
    Study dropped = lineOf({40, 47, 52, 57, 61, 66});
    dropped.tuning.strings.back() = 38;
    dropped.tuning.capo = 2;
    dropped.notes[0].pinnedString = 5;
    dropped.notes[1].pinnedString = 4;
    EXPECT_EQ(readBack(dropped).study.tuning, dropped.tuning);

    Study seven = lineOf({38, 43, 48, 53, 58, 62, 67});
    seven.tuning = {{64, 59, 55, 50, 45, 40, 35}, 24, 3};
    for (int string = 0; string < 7; ++string)
        seven.notes[static_cast<std::size_t>(string)].pinnedString = 6 - string;
    EXPECT_EQ(readBack(seven).study.tuning, seven.tuning);
}

TEST(ForeignStrings, TellOfAnInstrumentThatIsNoGuitar) {
    Study bass = lineOf({28, 33, 38, 43, 45, 40, 35, 28});
    bass.tuning.strings = {43, 38, 33, 28};
    EXPECT_EQ(readBack(bass).study.tuning.strings, bass.tuning.strings);
}

TEST(ForeignStrings, OfAnOctaveAreNoCapo) {
    Imported imported;
    std::vector<ForeignNote> notes(3);
    for (int string = 0; string < 3; ++string) {
        notes[static_cast<std::size_t>(string)].pitch.midi =
            StringTuning{}.strings[static_cast<std::size_t>(string)] + 12;
        notes[static_cast<std::size_t>(string)].place = TabPlace{string, 0};
    }
    settleTuning(imported, notes, std::nullopt);
    EXPECT_EQ(imported.study.tuning.capo, 0);
}

TEST(ForeignStrings, OfAnotherPartAreNotTakenForALineWithoutStrings) {
    pugi::xml_document document;
    ASSERT_TRUE(document.load_string(
        "<score-partwise><part id=\"P1\"><measure><note/></measure></part><part "
        "id=\"P2\"><measure><attributes>"
        "<staff-details><staff-tuning line=\"1\"><tuning-step>E</tuning-step><tuning-octave>1</tuning-octave>"
        "</staff-tuning></staff-details></attributes></measure></part></score-partwise>"));
    const pugi::xml_node score = document.child("score-partwise");
    EXPECT_FALSE(tuningIn(score.child("part")));
    EXPECT_TRUE(tuningIn(score.find_child_by_attribute("id", "P2")));
}

TEST(ForeignStrings, AreLeftOutWhereTheyGoWithNoTuning) {
    Imported imported;
    std::vector<ForeignNote> notes(2);
    notes[0].pitch.midi = 64;
    notes[0].place = TabPlace{0, 0};
    notes[1].pitch.midi = 69;
    notes[1].place = TabPlace{0, 3};
    settleTuning(imported, notes, std::nullopt);
    EXPECT_EQ(imported.study.tuning, StringTuning{});
    EXPECT_TRUE(notes[0].place);
    EXPECT_FALSE(notes[1].place);
    EXPECT_EQ(imported.leftOut.size(), 1u);
}

/// MusicXML 4.0, staff-tuning: line 1 is the lowest.
TEST(ForeignStrings, ReadTuningsFromTheLowestLineUp) {
    pugi::xml_document document;
    ASSERT_TRUE(document.load_string(
        "<part><measure><attributes><staff-details><staff-lines>4</staff-lines>"
        "<staff-tuning line=\"1\"><tuning-step>E</tuning-step><tuning-octave>1</tuning-octave></staff-tuning>"
        "<staff-tuning line=\"2\"><tuning-step>A</tuning-step><tuning-octave>1</tuning-octave></staff-tuning>"
        "<staff-tuning line=\"3\"><tuning-step>D</tuning-step><tuning-octave>2</tuning-octave></staff-tuning>"
        "<staff-tuning line=\"4\"><tuning-step>G</tuning-step><tuning-octave>2</tuning-octave></staff-tuning>"
        "</staff-details></attributes></measure></part>"));
    const auto tuning = tuningIn(document.child("part"));
    ASSERT_TRUE(tuning);
    EXPECT_EQ(tuning->strings, (std::vector{43, 38, 33, 28}));
}

} // namespace
} // namespace earwright
