// Two pitches that take turns quickly are a trill.
#include "core/exchange/MidiTrills.h"

#include "core/exchange/StandardMidi.h"
#include "core/exchange/StandardMidiReading.h"
#include "tests/core/engraving/SampleLines.h"

#include <cstdint>
#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

/// Thirty-seconds of these pitches, one after the other, at so many quarters a minute.
std::vector<ForeignNote> read(const std::vector<int>& pitches, double tempo = 120) {
    Study frame;
    frame.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(60), Seconds(3600 / tempo)}});
    std::vector<ForeignNote> notes;
    for (const int midi : pitches) {
        const auto place = static_cast<std::int64_t>(notes.size());
        notes.push_back({Beats(place, 8), Beats(place + 1, 8), Pitch{midi, {}}});
    }
    return withTrills(frame, std::move(notes));
}

TEST(MidiTrills, AreOneNoteWithTheirSign) {
    const auto notes = read({60, 62, 60, 62, 60, 62, 60, 62, 65});
    ASSERT_EQ(notes.size(), 2u);
    EXPECT_EQ(notes[0].pitch.midi, 60);
    EXPECT_EQ(notes[0].phrasing.trill, 2);
    EXPECT_EQ(notes[0].end, Beats(1));
    EXPECT_FALSE(notes[1].phrasing.trill);
}

TEST(MidiTrills, BeginFromAboveAsWell) {
    const auto notes = read({61, 60, 61, 60, 61});
    ASSERT_EQ(notes.size(), 1u);
    EXPECT_EQ(notes[0].pitch.midi, 60);
    EXPECT_EQ(notes[0].phrasing.trill, 1);
}

TEST(MidiTrills, AreNoneInOtherRuns) {
    EXPECT_EQ(read({60, 62, 60}).size(), 3u) << "a mordent";
    EXPECT_EQ(read({60, 62, 64, 65, 67}).size(), 5u);
    EXPECT_EQ(read({60, 67, 60, 67, 60}).size(), 5u) << "a fifth";
    EXPECT_EQ(read({60, 60, 60, 60, 60}).size(), 5u) << "repeated";
    EXPECT_EQ(read({60, 62, 60, 62, 64, 65, 67, 69}).size(), 8u) << "a run that turns once";
    EXPECT_EQ(read({67, 65, 64, 62, 60, 62, 60}).size(), 7u) << "led into";
    EXPECT_EQ(read({60, 62, 60, 62, 60, 62, 64, 65}).size(), 3u) << "a trill that ends in a run";
    EXPECT_EQ(read({60, 62, 60, 62, 60, 62}, 50).size(), 6u) << "slow enough to be counted";
}

// Eighths with a trill each, one after the other.
TEST(MidiTrills, MayFollowEachOther) {
    const auto notes = read({60, 62, 60, 62, 65, 67, 65, 67, 64, 65, 64, 65});
    ASSERT_EQ(notes.size(), 3u);
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_EQ(notes[i].begin, Beats(static_cast<std::int64_t>(i), 2));
    EXPECT_EQ(read({60, 62, 60, 62, 65, 67, 65, 67, 69, 71, 72}).size(), 11u) << "a run that turns twice";
}

TEST(MidiTrills, ComeBackFromOurFiles) {
    Study study = studyInFour();
    for (std::int64_t beat = 0; beat < 12; ++beat)
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 60 + static_cast<int>(3 * beat % 7)));
    study.notes[2].phrasing.trill = 1;
    study.notes[7].phrasing.trill = 2;
    for (const std::size_t i : {9u, 10u}) {
        study.notes[i].length = Beats(1, 2);
        study.notes[i].phrasing.trill = 2;
    }
    study.notes[10].onset = Beats(19, 2);
    const auto file = standardMidi(study);
    ASSERT_TRUE(file);
    const auto back = readStandardMidi(*file, "trills.mid");
    ASSERT_TRUE(back);
    ASSERT_EQ(back->study.notes.size(), study.notes.size());
    ASSERT_EQ(back->leftOut.size(), 1u);
    EXPECT_TRUE(back->leftOut.front().ends_with(" notes were read as part of a trill or as grace notes."));
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
        EXPECT_EQ(back->study.notes[i].range(), study.notes[i].range());
        EXPECT_EQ(back->study.notes[i].pitch.midi, study.notes[i].pitch.midi);
        EXPECT_EQ(back->study.notes[i].phrasing.trill, study.notes[i].phrasing.trill);
    }
}

// Notes of a trill are on no lines, and say nothing of the hand that wrote them.
TEST(MidiTrills, ComeBackWhereTheyAreMostOfTheNotes) {
    for (const double tempo : {120.0, 44.0})
        for (const double ratio : {1.0, 1.7, 2.0}) {
            Study study;
            study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(60), Seconds(3600 / tempo)}});
            study.page.swings = {{Beats(0), {ratio, 8}}};
            if (ratio == 1) study.page.swings.clear();
            for (std::int64_t beat = 0; beat < 8; ++beat) {
                study.notes.push_back(noteAt(study, Beats(beat), Beats(1, 2), 60));
                study.notes.back().phrasing.trill = 2;
                study.notes.push_back(noteAt(study, Beats(beat) + Beats(1, 2), Beats(1, 2), 67));
                study.notes.back().phrasing.graceNotes = {66};
            }
            const auto file = standardMidi(study);
            ASSERT_TRUE(file);
            const auto back = readStandardMidi(*file, "trills.mid");
            ASSERT_TRUE(back);
            ASSERT_EQ(back->study.notes.size(), study.notes.size()) << tempo << ", " << ratio;
            for (std::size_t i = 0; i < study.notes.size(); ++i) {
                EXPECT_EQ(back->study.notes[i].range(), study.notes[i].range()) << tempo << ", " << ratio;
                EXPECT_EQ(back->study.notes[i].phrasing, study.notes[i].phrasing) << tempo << ", " << ratio;
            }
        }
}

} // namespace
} // namespace earwright
