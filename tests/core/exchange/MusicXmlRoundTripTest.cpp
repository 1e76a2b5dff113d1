// What is written out and read in again is the same study, as far as MusicXML.h says that the format goes.
#include "core/engraving/PageBars.h"
#include "core/engraving/WrittenNames.h"
#include "core/exchange/CompressedMusicXml.h"
#include "core/exchange/MusicXml.h"
#include "core/exchange/MusicXmlReading.h"
#include "core/music/TempoFigure.h"
#include "core/study/NoteVoices.h"
#include "core/study/StudyFile.h"
#include "tests/core/exchange/ChanceStudy.h"
#include "tests/core/study/SampleStudy.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <gtest/gtest.h>

namespace earwright {
namespace {

Study readBack(const std::string& text) {
    const auto imported = readMusicXml(text, "line.musicxml");
    EXPECT_TRUE(imported.ok()) << describe(imported.error());
    if (!imported) return {};
    EXPECT_TRUE(imported->leftOut.empty()) << imported->leftOut.front();
    const auto kept = StudyFile::parse(StudyFile::text(imported->study), "line.study");
    EXPECT_TRUE(kept.ok()) << describe(kept.error());
    return imported->study;
}

/// In the words of the study file, so that a difference can be read.
std::string noteText(const Study& study, Note note, const WrittenNames& names) {
    note.pitch.spelling = names.of(note).name;
    note.id = NoteId{1};
    // A slide to a note that is not there, or not at once.
    const Note* next = noteAfter(study, note);
    if (!next || next->onset > note.end()) note.phrasing.slidesToNext = false;
    Study one;
    one.notes = {note};
    return StudyFile::text(one);
}

void expectSameNotes(const Study& written, const Study& read) {
    const WrittenNames readNames(read);
    const WrittenNames names(written);
    for (std::size_t i = 0; i < std::min(written.notes.size(), read.notes.size()); ++i)
        ASSERT_EQ(noteText(read, read.notes[i], readNames), noteText(written, written.notes[i], names))
            << "note " << i;
    ASSERT_EQ(read.notes.size(), written.notes.size());
}

/// To a millionth: a ratio is told as two whole numbers.
std::string swingText(const Study& study) {
    std::string text;
    for (const SwingChange& change : study.page.swings)
        text += toString(change.at) + ": " + std::to_string(change.swing.ratio) + " of " +
                std::to_string(change.swing.noteValue) + ", ";
    return text;
}

/// Where its first printed bar begins, by the pickup that was made or needed.
Beats pageBegin(const Study& study) {
    return pageBars(pageLine(study), study.meters(), 1, study.page.pickup)->front().begin;
}

void expectSamePage(const Study& written, const Study& read) {
    EXPECT_EQ(read.title, written.title);
    EXPECT_EQ(read.meter, written.meter);
    EXPECT_EQ(read.page.keys, written.page.keys);
    EXPECT_EQ(read.page.meters, written.page.meters);
    EXPECT_EQ(swingText(read), swingText(written));
    EXPECT_EQ(read.page.tempos, written.page.tempos);
    EXPECT_EQ(read.page.dynamics, written.page.dynamics);
    EXPECT_EQ(read.page.hairpins, written.page.hairpins);
    EXPECT_EQ(read.page.texts, written.page.texts);
    EXPECT_EQ(read.page.repeats, written.page.repeats);
    EXPECT_EQ(pageBegin(read), pageBegin(written));
    if (written.page.pickup && pageBegin(written) == -*written.page.pickup) {
        EXPECT_EQ(read.page.pickup, written.page.pickup);
    }
}

std::string chordsOf(const Study& study, std::int64_t bar) {
    std::string text;
    for (const PlacedChord& chord : study.barChords(bar).chords)
        text += toString(chord.withinBar) + " " + toString(chord.symbol) + ", ";
    return text;
}

void expectSameChords(const Study& written, const Study& read, std::int64_t lastBar) {
    for (std::int64_t bar = 0; bar <= lastBar; ++bar) {
        EXPECT_EQ(chordsOf(read, bar), chordsOf(written, bar)) << "bar " << bar;
        const auto chords = written.barChords(bar).chords;
        for (std::size_t i = 0; i < std::min(chords.size(), read.barChords(bar).chords.size()); ++i)
            EXPECT_EQ(read.barChords(bar).chords[i].symbol.chord, chords[i].symbol.chord) << "bar " << bar;
    }
}

/// From bar 1 on, at every beat; tempos are written to a millionth of a quarter a minute.
void expectSameTempo(const Study& written, const Study& read, std::int64_t lastBar) {
    ASSERT_TRUE(read.beatMap.hasTempo());
    const Beats end = written.meters().barStart(lastBar + 1);
    for (Beats at(0); at < end; at += Beats(1, 2)) {
        const double since = (written.beatMap.seconds(at) - written.beatMap.seconds(Beats(0))).value;
        ASSERT_NEAR(read.beatMap.seconds(at).value, since, 1e-4) << toString(at);
    }
}

void expectSame(const Study& written, const Study& read) {
    expectSameNotes(written, read);
    expectSamePage(written, read);
    const std::int64_t lastBar = written.meters().barOf(written.notes.back().end());
    expectSameChords(written, read, lastBar);
    expectSameTempo(written, read, lastBar - 1);
}

std::string textOf(const Study& study, const MusicXmlOptions& options) {
    const auto text = musicXml(study, options);
    EXPECT_TRUE(text.ok()) << describe(text.error());
    return text ? *text : "";
}

TEST(MusicXmlRoundTrip, EveryStudyComesBackTheSame) {
    for (std::uint32_t seed = 1; seed <= 250; ++seed) {
        const Study study = ChanceStudy(seed).make();
        expectSame(study, readBack(textOf(study, {Reading::Concert, {}, false})));
        if (HasFailure()) FAIL() << "seed " << seed;
    }
}

/// How a reader transposes, by the interval of its instrument (common practice): letters and semitones up,
/// and fifths added to the key.
struct ReadersInterval {
    int letters;
    int semitones;
    int fifths;
};

ReadersInterval intervalOf(Reading reading) {
    if (reading == Reading::BFlat) return {1, 2, 2};
    if (reading == Reading::EFlat) return {5, 9, 3};
    if (reading == Reading::Tenor) return {8, 14, 2};
    if (reading == Reading::Baritone) return {12, 21, 3};
    return {7, 12, 0};
}

/// Whether the reader has a name for the note that leads back to its own: one by the same interval, without a
/// double accidental that it had not before, on the next letter where a key of more than six sharps is called
/// by its other name.
bool readerHasName(const PitchName& name, const KeySignature& key, Reading reading) {
    static constexpr std::array<int, 7> natural{0, 2, 4, 5, 7, 9, 11};
    const ReadersInterval by = intervalOf(reading);
    const int from = static_cast<int>(name.step);
    const int to = from + by.letters + (by.fifths > 0 && key.fifths + by.fifths > 6 ? 1 : 0);
    const int distance =
        natural[static_cast<std::size_t>(to % 7)] + 12 * (to / 7) - natural[static_cast<std::size_t>(from)];
    const int alter = name.alter + by.semitones - distance;
    return std::abs(alter) <= std::max(1, std::abs(name.alter));
}

/// The stated exceptions: names that the reader has not, and names of the user's that the reader's page would
/// choose by itself, so that nobody is said to have chosen them. How many.
int takeNamesThatTheReaderDoesNotHave(const Study& written, Reading reading, Study& read) {
    const WrittenNames names(written);
    const WrittenNames readers(written, reading);
    int taken = 0;
    for (std::size_t i = 0; i < std::min(read.notes.size(), written.notes.size()); ++i) {
        const Note& note = written.notes[i];
        const std::int64_t bar = std::max<std::int64_t>(written.meters().barOf(note.onset), 1);
        const PitchName name = names.of(note).name;
        const bool isNobodys = note.pitch.spelling && !read.notes[i].pitch.spelling &&
                               readers.of(note).name == readers.byItself(note);
        if (readerHasName(name, written.page.keyAt(bar), reading) && !isNobodys) continue;
        read.notes[i].pitch.spelling = name;
        ++taken;
    }
    return taken;
}

TEST(MusicXmlRoundTrip, EveryStudyComesBackFromEveryReading) {
    std::size_t notes = 0;
    int taken = 0;
    for (std::uint32_t seed = 1; seed <= 80; ++seed)
        for (const Reading reading :
             {Reading::BFlat, Reading::EFlat, Reading::Tenor, Reading::Baritone, Reading::GuitarOctave}) {
            const Study study = ChanceStudy(seed).make();
            Study read = readBack(textOf(study, {reading, {}, false}));
            taken += takeNamesThatTheReaderDoesNotHave(study, reading, read);
            notes += study.notes.size();
            expectSameNotes(study, read);
            expectSamePage(study, read);
            if (HasFailure()) FAIL() << "seed " << seed << ", reading " << static_cast<int>(reading);
        }
    // A fifth of the notes have an odd name on purpose, in keys and chords thrown together.
    EXPECT_LT(taken, static_cast<double>(notes) * 0.2) << "of " << notes;
    RecordProperty("taken", taken);
}

TEST(MusicXmlRoundTrip, PackedItIsTheSame) {
    const Study study = ChanceStudy(7).make();
    const std::string text = textOf(study, {});
    EXPECT_EQ(*musicXmlIn(*compressed(text), "line.mxl"), text);
}

TEST(MusicXmlRoundTrip, ASecondTimeTheTextIsTheSame) {
    for (std::uint32_t seed = 1; seed <= 100; ++seed) {
        const std::string first = textOf(ChanceStudy(seed).make(), {Reading::Concert, {}, false});
        const Study once = readBack(first);
        const std::string second = textOf(once, {Reading::Concert, {}, false});
        ASSERT_EQ(textOf(readBack(second), {Reading::Concert, {}, false}), second) << seed;
    }
}

TEST(MusicXmlRoundTrip, AFormComesBackBarByBar) {
    Study study = eightBarsAt120();
    study = setForm(layOutChoruses(study, 1, 4, 2), "Bb7 | Eb7 | F7 / / Bb7alt | Bb7");
    study = addNote(study, {Pitch{58, {}}, Beats(0), Beats(30)}).study;
    const Study read = readBack(textOf(study, {Reading::Concert, {}, false}));
    expectSameChords(study, read, 8);
    EXPECT_TRUE(read.chart.form.empty());
}

TEST(MusicXmlRoundTrip, ASlideLeadsNowhereOverARest) {
    Study study = eightBarsAt120();
    study = addNote(study, {Pitch{60, {}}, Beats(0), Beats(1)}).study;
    study = addNote(study, {Pitch{62, {}}, Beats(1), Beats(1)}).study;
    study.notes.front().phrasing.slidesToNext = true;
    EXPECT_NE(textOf(study, {}).find("<slide"), std::string::npos);
    study.notes.back().onset = Beats(2);
    EXPECT_EQ(textOf(study, {}).find("<slide"), std::string::npos);
}

// 439,925 microseconds a quarter, as a MIDI file has it. The page of others shows whole beats where the sound
// has the rest; where beat marks say another tempo, the figure has to say it all.
TEST(MusicXmlRoundTrip, ATempoIsShownInWholeBeatsAndComesBackAsItWas) {
    const double exact = 136.38689;
    for (const Meter& meter : {Meter{4, 4}, Meter{6, 8}}) {
        const bool isDotted = meter == Meter{6, 8};
        for (const double stated : {exact, 137.0, 96.5}) {
            Study study;
            study.meter = meter;
            study = addNote(study, {Pitch{60, {}}, Beats(0), Beats(4)}).study;
            study.page.tempos = {{Beats(0), "", stated}};
            const std::vector<TempoMark> marks = study.page.tempos;
            const std::string text = textOf(study, {});
            const std::string shown = tempoFigure(isDotted ? stated * 2 / 3 : stated);
            EXPECT_NE(text.find("<per-minute>" + shown + "<"), std::string::npos) << shown;
            EXPECT_EQ(readBack(text).page.tempos, marks);
            const double beatSeconds = 60 / stated * 4 / meter.beatUnit;
            study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(60), Seconds(60 * beatSeconds)}});
            EXPECT_NE(textOf(study, {}).find("<per-minute>" + shown + "<"), std::string::npos) << shown;
            EXPECT_EQ(readBack(textOf(study, {})).page.tempos, marks) << "beside beat marks of that tempo";
            study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(60), Seconds(30)}});
            EXPECT_EQ(readBack(textOf(study, {})).page.tempos, marks) << "beside those of another";
        }
    }
}

// 139 in whole microseconds a quarter is 138.99990.
TEST(MusicXmlRoundTrip, ATempoStatedInAMidiFileIsShownSoBesideBeatsOfAnother) {
    Study study = eightBarsAt120();
    study = addNote(study, {Pitch{60, {}}, Beats(0), Beats(4)}).study;
    study.page.tempos = {{Beats(0), "", 60e6 / 431'655}};
    EXPECT_NE(textOf(study, {}).find("<per-minute>139<"), std::string::npos);
    EXPECT_NEAR(*readBack(textOf(study, {})).page.tempos.at(0).quartersPerMinute, 139, 1e-9);
}

TEST(MusicXmlRoundTrip, TheStatedExceptionsAreAsStated) {
    Study study = eightBarsAt120();
    study = addNote(study, {Pitch{60, {}}, Beats(0), Beats(4)}).study;
    Study read = readBack(textOf(study, {Reading::Concert, {}, false}));
    EXPECT_EQ(read.page.tempos, (std::vector<TempoMark>{{Beats(0), "", 120.0}})) << "that none was marked";
    EXPECT_TRUE(read.recording.path.empty());
    study.beatMap = {};
    study = setTempoMark(study, {Beats(0), "", 90.0});
    read = readBack(textOf(study, {Reading::Concert, {}, false}));
    EXPECT_TRUE(read.beatMap.hasTempo()) << "that no beats were";
    study.notes.back().pitch.spelling = PitchName{Step::B, 1};
    study.notes.back().phrasing.trill = 4;
    read = readBack(textOf(study, {Reading::Concert, {}, false}));
    EXPECT_NE(read.notes.back().phrasing.trill, 4) << "five letters up";
}

} // namespace
} // namespace earwright
