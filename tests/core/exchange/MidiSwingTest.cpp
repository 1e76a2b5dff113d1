// A line that a program swings in thirds of the beat is written in even eighths.
#include "core/exchange/MidiSwing.h"

#include "core/exchange/StandardMidi.h"
#include "core/exchange/StandardMidiReading.h"
#include "core/exchange/ToldSwing.h"
#include "tests/core/engraving/SampleLines.h"

#include <cstddef>
#include <cstdint>
#include <gtest/gtest.h>
#include <random>
#include <vector>

namespace earwright {
namespace {

/// Each note lasts until the next.
std::vector<ForeignNote> lineAt(const std::vector<Beats>& places) {
    std::vector<ForeignNote> notes;
    for (std::size_t i = 0; i < places.size(); ++i)
        notes.push_back({places[i], i + 1 < places.size() ? places[i + 1] : places[i] + Beats(1, 3),
                         Pitch{60 + static_cast<int>(i % 5), {}}});
    return notes;
}

std::vector<Beats> placesOf(const SwungNotes& swung) {
    std::vector<Beats> places;
    for (const ForeignNote& note : swung.notes)
        places.push_back(note.begin);
    return places;
}

/// Two notes in each of so many beats, the second at a share of the beat.
std::vector<Beats> pairs(std::int64_t from, std::int64_t to, const Beats& second) {
    std::vector<Beats> places;
    for (std::int64_t beat = from; beat < to; ++beat) {
        places.emplace_back(beat);
        places.push_back(Beats(beat) + second);
    }
    return places;
}

std::vector<Beats> joined(std::vector<Beats> first, const std::vector<Beats>& second) {
    first.insert(first.end(), second.begin(), second.end());
    return first;
}

TEST(MidiSwing, IsWrittenInEvenEighths) {
    const SwungNotes swung = swungNotes({}, lineAt(pairs(0, 8, Beats(2, 3))));
    EXPECT_EQ(placesOf(swung), pairs(0, 8, Beats(1, 2)));
    EXPECT_EQ(swung.swings, (std::vector<SwingChange>{{Beats(0), {2, 8}}}));
    for (std::size_t i = 0; i + 1 < swung.notes.size(); ++i)
        EXPECT_EQ(swung.notes[i].end, swung.notes[i + 1].begin);
}

TEST(MidiSwing, LeavesTripletsOverABeatAndOverTwo) {
    const std::vector<Beats> triplets{Beats(8),     Beats(25, 3), Beats(26, 3), Beats(9),
                                      Beats(28, 3), Beats(10),    Beats(32, 3), Beats(34, 3)};
    const SwungNotes swung = swungNotes({}, lineAt(joined(pairs(0, 8, Beats(2, 3)), triplets)));
    EXPECT_EQ(placesOf(swung), joined(pairs(0, 8, Beats(1, 2)), triplets));
    const auto alone = lineAt(triplets);
    EXPECT_TRUE(swungNotes({}, alone).swings.empty());
}

TEST(MidiSwing, HasSixteenthsAndGraceNotesBetweenItsEighths) {
    std::vector<Beats> played = pairs(0, 8, Beats(2, 3));
    std::vector<Beats> written = pairs(0, 8, Beats(1, 2));
    for (const Beats& place :
         {Beats(0), Beats(1, 3), Beats(2, 3), Beats(5, 6), Beats(1), Beats(7, 6), Beats(5, 3), Beats(7, 4)})
        played.push_back(Beats(8) + place);
    for (const Beats& place :
         {Beats(0), Beats(1, 4), Beats(1, 2), Beats(3, 4), Beats(1), Beats(9, 8), Beats(3, 2), Beats(13, 8)})
        written.push_back(Beats(8) + place);
    EXPECT_EQ(placesOf(swungNotes({}, lineAt(played))), written);
}

TEST(MidiSwing, EndsWhereEighthsAreEven) {
    const std::vector<Beats> line = joined(pairs(0, 12, Beats(2, 3)), pairs(12, 16, Beats(1, 2)));
    const SwungNotes swung = swungNotes({}, lineAt(line));
    EXPECT_EQ(placesOf(swung), pairs(0, 16, Beats(1, 2)));
    EXPECT_EQ(swung.swings, (std::vector<SwingChange>{{Beats(0), {2, 8}}, {Beats(12), {1, 8}}}));
    EXPECT_TRUE(swungNotes({}, lineAt(pairs(0, 16, Beats(1, 2)))).swings.empty());
}

TEST(MidiSwing, IsNoneWhereItComesAndGoes) {
    std::vector<Beats> line;
    for (std::int64_t beat = 0; beat < 24; beat += 2)
        line =
            joined(joined(line, pairs(beat, beat + 1, Beats(2, 3))), pairs(beat + 1, beat + 2, Beats(1, 2)));
    const SwungNotes swung = swungNotes({}, lineAt(line));
    EXPECT_EQ(placesOf(swung), line);
    EXPECT_TRUE(swung.swings.empty());
}

TEST(MidiSwing, IsNoneWhereEighthsAreCountedInThrees) {
    Study frame;
    frame.meter = {12, 8};
    EXPECT_TRUE(swungNotes(frame, lineAt(pairs(0, 24, Beats(2, 3)))).swings.empty());
}

// What our own files swing is read as it was written, and by the ticks where the user wants that.
TEST(MidiSwing, OfAChorusComesBackFromItsFile) {
    Study study = studyInFour();
    study.page.swings = {{Beats(0), {2, 8}}};
    for (std::int64_t beat = 0; beat < 44; ++beat) {
        if (beat % 11 == 5) continue;
        const bool isTriplet = beat % 7 == 3;
        const std::int64_t parts = isTriplet ? 3 : beat % 13 == 6 ? 4 : 2;
        if (isTriplet) study.divisions[Beats(beat)] = BeatDivision::Three;
        for (std::int64_t part = 0; part < parts; ++part)
            study.notes.push_back(noteAt(study, Beats(beat) + Beats(part, parts), Beats(1, parts),
                                         60 + static_cast<int>((3 * beat + part) % 12)));
    }
    const auto file = standardMidi(study);
    ASSERT_TRUE(file);
    const auto read = readStandardMidi(*file, "swung.mid");
    ASSERT_TRUE(read);
    EXPECT_EQ(read->study.page.swings, study.page.swings);
    ASSERT_EQ(read->study.notes.size(), study.notes.size());
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
        EXPECT_EQ(read->study.notes[i].onset, study.notes[i].onset);
        EXPECT_EQ(read->study.notes[i].length, study.notes[i].length);
    }
    const auto ticks = readStandardMidi(*file, "swung.mid", "", MidiRhythm::Ticks);
    EXPECT_TRUE(ticks->study.page.swings.empty());
    EXPECT_EQ(ticks->study.notes[1].onset, Beats(2, 3));
}

// Thirds of the beat, and short notes as long as in a line that does not swing.
TEST(MidiSwing, GoesOnThroughTrillsAndGraceNotes) {
    Study study = studyInFour();
    std::vector<Beats> written;
    for (std::int64_t beat = 0; beat < 24; ++beat) {
        const int midi = 60 + static_cast<int>(5 * beat % 7);
        const bool isQuarter = beat % 8 == 3 || beat % 8 == 6;
        study.notes.push_back(noteAt(study, Beats(beat), isQuarter ? Beats(1) : Beats(2, 3), midi));
        written.emplace_back(beat);
        if (beat % 8 == 3) study.notes.back().phrasing.trill = 2;
        if (beat % 8 == 6) study.notes.back().phrasing.graceNotes = {midi - 2, midi - 1};
        if (isQuarter) continue;
        study.notes.push_back(noteAt(study, Beats(beat) + Beats(2, 3), Beats(1, 3), midi + 1));
        written.push_back(Beats(beat) + Beats(1, 2));
    }
    const auto file = standardMidi(study);
    ASSERT_TRUE(file);
    const auto read = readStandardMidi(*file, "swung.mid");
    ASSERT_TRUE(read);
    EXPECT_EQ(read->study.page.swings, (std::vector<SwingChange>{{Beats(0), {2, 8}}}));
    ASSERT_EQ(read->study.notes.size(), written.size());
    for (std::size_t i = 0; i < written.size(); ++i) {
        EXPECT_EQ(read->study.notes[i].onset, written[i]) << i;
        EXPECT_EQ(read->study.notes[i].phrasing.trill, study.notes[i].phrasing.trill) << i;
        EXPECT_EQ(read->study.notes[i].phrasing.graceNotes, study.notes[i].phrasing.graceNotes) << i;
    }
}

/// A chorus of swung eighths with triplets, sixteenths, rests, trills and grace notes, on the beat and off
/// it.
Study ornamentedChorus(std::uint32_t seed, const Swing& swing = {2, 8}) {
    std::mt19937 random(seed);
    const auto upTo = [&](int end) { return static_cast<int>(random() % static_cast<std::uint32_t>(end)); };
    Study study = studyInFour();
    study.page.swings = {{Beats(0), swing}};
    const auto add = [&](const Beats& at, const Beats& length) -> Note& {
        study.notes.push_back(noteAt(study, at, length, 58 + upTo(20)));
        return study.notes.back();
    };
    const auto ornament = [&](Note& note) {
        const int kind = upTo(3);
        const int midi = note.pitch.midi;
        if (kind == 0) note.phrasing.trill = 1 + upTo(2);
        if (kind == 1) note.phrasing.graceNotes = {midi + (upTo(2) == 0 ? 1 : -2)};
        if (kind == 2) note.phrasing.graceNotes = {midi - 2, midi - 1};
    };
    for (std::int64_t beat = 0; beat < 48; ++beat) {
        const int kind = upTo(12);
        if (kind == 0) continue;
        const std::int64_t parts = kind == 1 ? 3 : kind == 2 ? 4 : kind < 5 ? 1 : 2;
        if (parts == 3) study.divisions[Beats(beat)] = BeatDivision::Three;
        const std::int64_t ornamented = upTo(3) == 0 ? upTo(static_cast<int>(parts)) : parts;
        for (std::int64_t part = 0; part < parts; ++part) {
            Note& note = add(Beats(beat) + Beats(part, parts), Beats(1, parts));
            if (part == ornamented && parts < 3) ornament(note);
        }
    }
    return study;
}

void expectToComeBack(const Study& study) {
    const auto file = standardMidi(study);
    ASSERT_TRUE(file);
    const auto read = readStandardMidi(*file, "chorus.mid");
    ASSERT_TRUE(read);
    EXPECT_EQ(read->study.page.swings, study.page.swings);
    EXPECT_EQ(read->study.page.texts, study.page.texts);
    ASSERT_EQ(read->study.notes.size(), study.notes.size());
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
        const Note& note = study.notes[i];
        const Note& back = read->study.notes[i];
        EXPECT_EQ(back.range(), note.range()) << i;
        EXPECT_EQ(back.pitch.midi, note.pitch.midi) << i;
        EXPECT_EQ(back.phrasing.trill, note.phrasing.trill) << i;
        EXPECT_EQ(back.phrasing.graceNotes, note.phrasing.graceNotes) << i;
    }
}

TEST(MidiSwing, OfOrnamentedChorusesComesBackFromTheirFiles) {
    for (std::uint32_t seed = 1; seed <= 40; ++seed) {
        expectToComeBack(ornamentedChorus(seed));
        if (HasFailure()) FAIL() << "seed " << seed;
    }
}

// No share of the beat but two thirds tells by itself, so our files say it in words.
TEST(MidiSwing, OfAnyRatioComesBackFromOurFiles) {
    for (std::uint32_t seed = 1; seed <= 40; ++seed) {
        Study study = ornamentedChorus(seed, {(105 + 7 * seed) / 100.0, seed % 4 == 0 ? 16 : 8});
        study.page.swings.push_back({Beats(24), Swing{}});
        study.page.swings.push_back({Beats(32), {1.5, 8}});
        expectToComeBack(study);
        if (HasFailure()) FAIL() << "seed " << seed;
    }
}

TEST(MidiSwing, InWordsIsReadAsItIsWritten) {
    EXPECT_EQ(swingWords({1.7, 8}), "Swing 1.7:1, eighths");
    EXPECT_EQ(swingIn("Swing 3:1, sixteenths"), (Swing{3, 16}));
    EXPECT_EQ(swingIn("Swing 1:1, eighths"), (Swing{1, 8}));
    for (const char* words : {"Swing", "Swing 9:1, eighths", "Swing nan:1, eighths",
                              "Swing 2:1, eighths or so", "Medium swing 2:1, eighths"})
        EXPECT_FALSE(swingIn(words)) << words;
}

} // namespace
} // namespace earwright
