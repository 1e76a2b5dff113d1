// A line that a program plays a little short is written as long as it was.
#include "core/exchange/MidiLengths.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace earwright {
namespace {

struct Written {
    Beats begin;
    Beats length;
};

/// In quarters: eighths, a triplet, a dotted quarter tied on, sixteenths, rests behind notes and between
/// them, a half, a triplet with a rest in it, a dotted eighth and a long note before a rest.
std::vector<Written> line() {
    const auto b = [](std::int64_t n, std::int64_t d = 1) { return Beats(n, d); };
    return {{b(0), b(1, 2)},     {b(1, 2), b(1, 2)},  {b(1), b(1, 2)},     {b(3, 2), b(1, 2)},
            {b(2), b(1, 3)},     {b(7, 3), b(1, 3)},  {b(8, 3), b(1, 3)},  {b(3), b(1, 2)},
            {b(7, 2), b(3, 2)},  {b(11, 2), b(1, 4)}, {b(23, 4), b(1, 4)}, {b(6), b(1, 4)},
            {b(25, 4), b(1, 4)}, {b(13, 2), b(1)},    {b(8), b(2)},        {b(10), b(1, 3)},
            {b(32, 3), b(1, 3)}, {b(11), b(3, 4)},    {b(47, 4), b(1, 4)}, {b(12), b(7, 2)},
            {b(16), b(1)},       {b(18), b(1)}};
}

/// With ticks of 480: each note sounds for a share of its length, and so many ticks less.
std::vector<ForeignNote> played(const std::vector<Written>& written, double share, int early = 0,
                                std::int64_t beatsOfQuarter = 1) {
    std::vector<ForeignNote> notes;
    for (const Written& one : written) {
        const auto ticks =
            static_cast<std::int64_t>(std::llround(one.length.toDouble() * share * 480)) - early;
        const Beats begin = one.begin * beatsOfQuarter;
        notes.push_back({begin, begin + Beats(ticks * beatsOfQuarter, 480), Pitch{60, {}}});
    }
    return notes;
}

void expectAsWritten(const std::vector<ForeignNote>& notes, const std::string& how) {
    const std::vector<Written> written = line();
    ASSERT_EQ(notes.size(), written.size());
    for (std::size_t i = 0; i < notes.size(); ++i)
        EXPECT_EQ(notes[i].end, written[i].begin + written[i].length) << how << ", note " << i;
}

TEST(MidiLengths, OfNotesThatSoundForAShareOfThemAreFoundAgain) {
    for (const int percent : {80, 85, 90, 95, 98})
        expectAsWritten(writtenLengths(played(line(), percent / 100.0), 4), std::to_string(percent) + " %");
}

TEST(MidiLengths, OfNotesThatEndSomeTicksEarlyAreFoundAgain) {
    for (const int early : {1, 5, 10})
        expectAsWritten(writtenLengths(played(line(), 1, early), 4), std::to_string(early) + " ticks");
}

TEST(MidiLengths, OfLongNotesAmongShortOnesThatEndSomeTicksEarlyAreFoundAgain) {
    std::vector<Written> written;
    for (std::int64_t place = 0; place < 16; ++place)
        written.push_back({Beats(place, 4), Beats(1, 4)});
    // A whole note, three quarters and a rest behind them.
    written.push_back({Beats(4), Beats(4)});
    written.push_back({Beats(8), Beats(3)});
    for (std::int64_t place = 0; place < 4; ++place)
        written.push_back({Beats(12) + Beats(place, 4), Beats(1, 4)});
    written.push_back({Beats(13), Beats(4)});
    for (const int early : {5, 10}) {
        const auto notes = writtenLengths(played(written, 1, early), 4);
        for (std::size_t i = 0; i < notes.size(); ++i)
            EXPECT_EQ(notes[i].end, written[i].begin + written[i].length) << early << ", note " << i;
    }
}

TEST(MidiLengths, AreCountedInQuartersWhateverTheMeterCounts) {
    const auto notes = writtenLengths(played(line(), 0.9, 0, 2), 8);
    const std::vector<Written> written = line();
    for (std::size_t i = 0; i < notes.size(); ++i)
        EXPECT_EQ(notes[i].end, (written[i].begin + written[i].length) * 2) << i;
}

TEST(MidiLengths, ThatAreWrittenOutStayAsTheyAre) {
    expectAsWritten(writtenLengths(played(line(), 1), 4), "whole");
    // Half of each: sixteenths with rests between them, as a staccato may be written.
    std::vector<Written> eighths;
    for (std::int64_t place = 0; place < 16; ++place)
        eighths.push_back({Beats(place, 2), Beats(1, 2)});
    const auto half = played(eighths, 0.5);
    const auto read = writtenLengths(half, 4);
    for (std::size_t i = 0; i < half.size(); ++i)
        EXPECT_EQ(read[i].end, half[i].end);
    // One fifth of a beat before a rest among notes that go on to each other.
    std::vector<ForeignNote> fifth = played(line(), 1);
    fifth.back().end = fifth.back().begin + Beats(1, 5);
    EXPECT_EQ(writtenLengths(fifth, 4).back().end, fifth.back().end);
}

TEST(MidiLengths, OfNotesThatBeginTogetherReachTheNextOnset) {
    std::vector<Written> stops;
    for (std::int64_t beat = 0; beat < 5; ++beat)
        stops.insert(stops.end(), 2, {Beats(beat), Beats(1)});
    for (const ForeignNote& note : writtenLengths(played(stops, 0.9), 4))
        EXPECT_EQ(note.end, note.begin + Beats(1));
}

TEST(MidiLengths, ThatGoOnUnderTheNextNoteAreLeftToSayIt) {
    std::vector<ForeignNote> notes = played(line(), 0.9);
    notes.front().end = notes[1].begin + Beats(1, 4);
    EXPECT_EQ(writtenLengths(notes, 4).front().end, notes.front().end);
}

TEST(MidiLengths, OfNotesThatAreAllShortOnPurposeAreAsTheySound) {
    std::vector<Written> eighths;
    for (std::int64_t place = 0; place < 16; ++place)
        eighths.push_back({Beats(place, 2), Beats(1, 2)});
    const auto notes = played(eighths, 0.4);
    const auto read = writtenLengths(notes, 4);
    for (std::size_t i = 0; i < notes.size(); ++i)
        EXPECT_EQ(read[i].end, notes[i].end) << i;
}

// Dotted quarters before rests are not halves that sound for three quarters of their length.
TEST(MidiLengths, ThatAllEndATickEarlyEndOnTheirLine) {
    const Beats tick(1, 480);
    for (const std::int64_t count : {3, 12})
        for (const std::int64_t apart : {2, 4}) {
            std::vector<ForeignNote> notes;
            for (std::int64_t i = 0; i < count; ++i) {
                const Beats length = i == 1 ? Beats(1) : Beats(3, 2);
                notes.push_back({Beats(apart * i), Beats(apart * i) + length - tick, Pitch{60, {}}});
            }
            const auto read = writtenLengths(notes, 4);
            for (std::size_t i = 0; i < notes.size(); ++i)
                EXPECT_EQ(read[i].end, notes[i].end + tick) << i << " of " << count;
        }
}

// A quarter tied to a sixteenth ends on no eighth.
TEST(MidiLengths, ThatAllEndATickEarlyEndOnTheirOwnLine) {
    const Beats tick(1, 480);
    const std::vector<Beats> lengths{Beats(5, 4), Beats(1, 4), Beats(4, 3), Beats(5, 4)};
    std::vector<ForeignNote> notes;
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        const Beats begin(static_cast<std::int64_t>(2 * i));
        notes.push_back({begin, begin + lengths[i] - tick, Pitch{60, {}}});
    }
    notes.push_back({Beats(8), Beats(8) + Beats(5, 4), Pitch{60, {}}});
    const auto read = writtenLengths(notes, 4);
    for (std::size_t i = 0; i < lengths.size(); ++i)
        EXPECT_EQ(read[i].end, notes[i].begin + lengths[i]) << i;
    EXPECT_EQ(read.back().end, notes.back().end) << "on a line already";
}

TEST(MidiLengths, OfFewNotesAreAsTheySound) {
    EXPECT_TRUE(writtenLengths({}, 4).empty());
    const auto one = played({{Beats(0), Beats(1)}}, 0.9);
    EXPECT_EQ(writtenLengths(one, 4).front().end, one.front().end);
}

} // namespace
} // namespace earwright
