// What the notes of a study are called for their readers.
#include "core/engraving/WrittenNames.h"

#include "SampleLines.h"
#include "core/study/ChartEdits.h"
#include "core/study/PageEdits.h"
#include "core/study/SpellingEdits.h"

#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

/// Bars of four quarters with a chord each.
Study studyOver(const std::vector<int>& midis, const std::string& chords, const KeySignature& key) {
    Study study = overrideBars(setKey(studyInFour(), 1, key), 1, chords);
    for (const int midi : midis)
        study.notes.push_back(
            noteAt(study, Beats(static_cast<std::int64_t>(study.notes.size())), Beats(1), midi));
    return study;
}

std::string names(const Study& study, Reading reading = Reading::Concert) {
    const WrittenNames written(study, reading);
    std::string text;
    for (const Note& note : study.notes) {
        for (std::size_t i = 0; i < note.phrasing.graceNotes.size(); ++i)
            text += "(" + toString(written.ofGrace(note, i).name) + ") ";
        const ReadPitch read = written.of(note);
        text += toString(read.name) + std::to_string(read.octave) + " ";
    }
    return text;
}

// ii7 V7♭9 I in F as its lead sheets spell it, and what trumpet (in G) and alto (in D) read for it: every
// name goes along by a whole tone and a major sixth (common practice).
TEST(WrittenNames, FollowKeyAndChordIntoTheReadersKey) {
    const Study study =
        studyOver({67, 70, 74, 73, 72, 64, 67, 61, 69, 65, 64, 65}, "Gm7 | C7b9 | Fmaj7", {-1});
    EXPECT_EQ(names(study), "G4 B♭4 D5 D♭5 C5 E4 G4 D♭4 A4 F4 E4 F4 ");
    EXPECT_EQ(names(study, Reading::BFlat), "A4 C5 E5 E♭5 D5 F♯4 A4 E♭4 B4 G4 F♯4 G4 ");
    EXPECT_EQ(names(study, Reading::EFlat), "E5 G5 B5 B♭5 A5 C♯5 E5 B♭4 F♯5 D5 C♯5 D5 ");
    EXPECT_EQ(names(study, Reading::GuitarOctave), "G5 B♭5 D6 D♭6 C6 E5 G5 D♭5 A5 F5 E5 F5 ");
}

// An alto reads E major as D flat, where the fourth bar's seventh is G flat and not F sharp.
TEST(WrittenNames, OfAKeyWithAnotherNameForItsReaderAreThoseOfThatKey) {
    const Study study = studyOver({71, 75, 78, 69}, "B7", {4});
    EXPECT_EQ(names(study), "B4 D♯5 F♯5 A4 ");
    EXPECT_EQ(names(study, Reading::EFlat), "A♭5 C6 E♭6 G♭5 ");
}

TEST(WrittenNames, AChordOfTheKeyBeforeSaysNothingOfTheNextOnes) {
    // E7♯9 stands in bar 1 and nothing behind it; from bar 3 on the key is E flat.
    Study study = studyOver({68, 67, 63, 62, 63, 62, 60, 58, 56, 63, 58, 56}, "E7#9", {0});
    study = setKey(study, 3, KeySignature{-3});
    EXPECT_EQ(names(study), "G♯4 G4 D♯4 D4 D♯4 D4 C4 B♭3 A♭3 E♭4 B♭3 A♭3 ");
    // A chord of the new key speaks from where it stands: of the sharp eleventh and the third.
    study = overrideBars(study, 3, "/ / E7 /");
    EXPECT_EQ(names(study), "G♯4 G4 D♯4 D4 D♯4 D4 C4 B♭3 A♭3 E♭4 A♯3 G♯3 ");
}

TEST(WrittenNames, AKeyThatIsStatedAgainChangesNothing) {
    const Study study = studyOver({68, 67, 63, 62, 63, 62, 60, 58, 56, 63, 58, 56}, "E7#9", {0});
    Study stated = study;
    stated.page.keys.push_back({3, study.page.keyAt(1)});
    EXPECT_EQ(names(stated), names(study));
    EXPECT_NE(names(setKey(study, 3, KeySignature{-3})), names(study)) << "another key does";
}

TEST(WrittenNames, ATransposedReaderIsSparedWhatConcertPitchWouldNeed) {
    // A major sixth above F sharp 7 is D sharp 7 with F double sharp; players read E flat 7 (common
    // practice).
    const Study study = studyOver({66, 70, 73, 76}, "F#7", {0});
    EXPECT_EQ(names(study), "F♯4 A♯4 C♯5 E5 ");
    EXPECT_EQ(names(study, Reading::EFlat), "E♭5 G5 B♭5 D♭6 ");
}

TEST(WrittenNames, OfGraceNotesLeadToTheirNotes) {
    Study study = studyOver({64, 67}, "C", {});
    study.notes[0].phrasing.graceNotes = {63};
    study.notes[1].phrasing.graceNotes = {69, 68};
    EXPECT_EQ(names(study), "(D♯) E4 (A) (A♭) G4 ");
}

TEST(WrittenNames, TheUsersNameGoesAlongWithTheReading) {
    Study study = studyOver({61, 62}, "C", {});
    EXPECT_EQ(names(study), "C♯4 D4 ");
    study = setSpelling(study, study.notes[0].id, PitchName{Step::D, -1});
    EXPECT_EQ(names(study), "D♭4 D4 ");
    EXPECT_EQ(names(study, Reading::BFlat), "E♭4 E4 ");
    EXPECT_EQ(names(study, Reading::EFlat), "B♭4 B4 ");
    EXPECT_EQ(toString(WrittenNames(study).byItself(study.notes[0])), "C♯");
    study = setSpelling(study, study.notes[0].id, PitchName{Step::B, 2});
    EXPECT_EQ(names(study), "B♯♯3 D4 ");
}

TEST(WrittenNames, FitEveryNoteForEveryReader) {
    for (unsigned seed = 1; seed <= 20; ++seed) {
        const Study study = chanceStudy(seed, 16);
        for (const Reading reading :
             {Reading::Concert, Reading::BFlat, Reading::EFlat, Reading::GuitarOctave}) {
            const WrittenNames written(study, reading);
            for (const Note& note : study.notes) {
                const ReadPitch read = written.of(note);
                const PitchName natural{read.name.step, 0};
                const int midi = 12 * (read.octave + 1) + natural.pitchClass() + read.name.alter;
                EXPECT_EQ(midi, note.pitch.midi + semitonesUp(reading));
                EXPECT_LE(std::abs(read.name.alter), 1);
            }
        }
    }
}

} // namespace
} // namespace earwright
