// Short notes that lead to longer ones are their grace notes.
#include "core/exchange/MidiGraces.h"

#include "core/exchange/StandardMidi.h"
#include "core/exchange/StandardMidiReading.h"
#include "tests/core/engraving/SampleLines.h"

#include <cstdint>
#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

struct Sounding {
    Beats begin;
    Beats end;
    int midi;
};

/// At so many quarters a minute.
std::vector<ForeignNote> read(const std::vector<Sounding>& line, double tempo = 180) {
    Study frame;
    frame.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(60), Seconds(3600 / tempo)}});
    std::vector<ForeignNote> notes;
    for (const Sounding& one : line)
        notes.push_back({one.begin, one.end, Pitch{one.midi, {}}});
    return withGraceNotes(frame, std::move(notes));
}

Beats b(std::int64_t numerator, std::int64_t denominator = 1) {
    return Beats(numerator, denominator);
}

TEST(MidiGraces, OnTheBeatGiveTheirTimeBackToTheirNote) {
    const auto notes = read({{b(0), b(1), 60}, {b(1), b(9, 8), 63}, {b(9, 8), b(2), 64}});
    ASSERT_EQ(notes.size(), 2u);
    EXPECT_EQ(notes[1].begin, b(1));
    EXPECT_EQ(notes[1].end, b(2));
    EXPECT_EQ(notes[1].pitch.midi, 64);
    EXPECT_EQ(notes[1].phrasing.graceNotes, std::vector{63});
}

TEST(MidiGraces, BeforeTheBeatGiveTheirTimeBackToTheNoteBefore) {
    const auto notes =
        read({{b(0), b(15, 16), 60}, {b(15, 16), b(31, 32), 62}, {b(31, 32), b(1), 63}, {b(1), b(2), 64}});
    ASSERT_EQ(notes.size(), 2u);
    EXPECT_EQ(notes[0].end, b(1));
    EXPECT_EQ(notes[1].begin, b(1));
    EXPECT_EQ(notes[1].phrasing.graceNotes, (std::vector{62, 63}));
}

TEST(MidiGraces, AreNoneWhereTheyAreCountedOrFarAway) {
    const std::vector<Sounding> slow{{b(0), b(1, 8), 63}, {b(1, 8), b(1), 64}};
    EXPECT_EQ(read(slow, 180).size(), 1u);
    EXPECT_EQ(read(slow, 60).size(), 2u) << "an eighth of a second";
    EXPECT_EQ(read({{b(0), b(1, 4), 63}, {b(1, 4), b(1), 64}}, 300).size(), 2u) << "a sixteenth";
    EXPECT_EQ(read({{b(0), b(1, 8), 55}, {b(1, 8), b(1), 64}}).size(), 2u) << "a sixth below";
    EXPECT_EQ(read({{b(0), b(1, 8), 63}, {b(1, 4), b(1), 64}}).size(), 2u) << "a rest between";
    EXPECT_EQ(read({{b(0), b(1, 8), 63}, {b(1, 8), b(1, 4), 64}}).size(), 2u) << "none of them longer";
    EXPECT_EQ(read({{b(0), b(7, 8), 62}, {b(7, 8), b(1), 63}, {b(1), b(2), 64}}).size(), 3u)
        << "a thirty-second before the beat";
    EXPECT_EQ(read({{b(3, 4), b(7, 8), 62}, {b(7, 8), b(1), 63}, {b(1), b(2), 64}}).size(), 3u)
        << "two of them that lead to the beat";
    EXPECT_EQ(
        read({{b(3, 4), b(5, 6), 61}, {b(5, 6), b(11, 12), 62}, {b(11, 12), b(1), 63}, {b(1), b(2), 64}})
            .size(),
        4u)
        << "three twelfths that do";
}

TEST(MidiGraces, AreNoneInARunAndBesideOthers) {
    std::vector<Sounding> run;
    for (std::int64_t i = 0; i < 8; ++i)
        run.push_back({b(i, 8), b(i + 1, 8), 60 + static_cast<int>(i)});
    run.push_back({b(1), b(2), 68});
    EXPECT_EQ(read(run).size(), 9u);
    EXPECT_EQ(read({{b(0), b(1, 8), 63}, {b(0), b(1, 8), 66}, {b(1, 8), b(1), 64}}).size(), 3u);
}

TEST(MidiGraces, ComeBackFromOurFiles) {
    Study study = studyInFour();
    for (std::int64_t beat = 0; beat < 12; ++beat)
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 60 + static_cast<int>(beat % 5)));
    study.notes[3].phrasing.graceNotes = {62};
    study.notes[6].phrasing.graceNotes = {59, 60};
    const auto file = standardMidi(study);
    ASSERT_TRUE(file);
    const auto back = readStandardMidi(*file, "graces.mid");
    ASSERT_TRUE(back);
    ASSERT_EQ(back->study.notes.size(), study.notes.size());
    EXPECT_EQ(back->leftOut,
              std::vector<std::string>{"3 notes were read as part of a trill or as grace notes."});
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
        EXPECT_EQ(back->study.notes[i].range(), study.notes[i].range());
        EXPECT_EQ(back->study.notes[i].phrasing.graceNotes, study.notes[i].phrasing.graceNotes);
    }
}

} // namespace
} // namespace earwright
