#include "core/exchange/PlayedByHand.h"

#include "core/exchange/StandardMidiReading.h"
#include "core/study/PageEdits.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <map>
#include <random>

namespace earwright {
namespace {

/// Sixteen bars at 120 quarters a minute.
Study frameAt120(double swing = 1) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(64), Seconds(32)}});
    return swing > 1 ? setSwing(study, Beats(0), Swing{swing, 8}) : study;
}

/// Twelve bars of eighths, with triplets, quarters and rests among them; the same for a seed.
std::vector<Beats> meantLine(std::uint32_t seed) {
    static const std::vector<std::vector<Beats>> figures{{Beats(0), Beats(1, 2)},
                                                         {Beats(0), Beats(1, 2)},
                                                         {Beats(0), Beats(1, 2)},
                                                         {Beats(0)},
                                                         {Beats(0), Beats(1, 3), Beats(2, 3)},
                                                         {}};
    std::mt19937 random(seed);
    std::vector<Beats> line;
    for (std::int64_t beat = 4; beat < 52; ++beat)
        for (const Beats& place : figures[random() % figures.size()])
            line.push_back(Beats(beat) + place);
    return line;
}

/// The line as a hand plays it that scatters by so many seconds and lags by 20 ms, in ticks of 480.
std::vector<ForeignNote> playedBy(const Study& study, const std::vector<Beats>& line, double scatter,
                                  std::uint32_t seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> off(0.02, scatter);
    std::vector<ForeignNote> notes;
    for (const Beats& place : line) {
        const Seconds at = playedTime(study, place) + Seconds(off(random));
        const Beats begin = Beats::nearest(study.beatMap.beatsAt(at), 480);
        notes.push_back(
            {begin, begin + Beats(1, 5), Pitch{60 + static_cast<int>(notes.size() % 7), {}}, 0.7});
    }
    return notes;
}

double shareRight(const std::vector<ForeignNote>& notes, const std::vector<Beats>& meant) {
    int right = 0;
    for (std::size_t i = 0; i < meant.size(); ++i)
        right += notes[i].begin == meant[i] ? 1 : 0;
    return right / static_cast<double>(meant.size());
}

// At 12 ms hardly an onset is nearer to another line of its beat (at 120 those of a triplet are 42 ms from
// those of sixteenths), but beats are read with what is likely before they are heard.
TEST(PlayedByHand, NotesComeToTheLinesTheyWereMeantFor) {
    double sum = 0;
    for (std::uint32_t seed = 1; seed <= 10; ++seed) {
        const auto line = meantLine(seed);
        const auto played = playedBy(frameAt120(), line, 0.012, seed);
        const CountedNotes counted = countedByHand(frameAt120(), played);
        ASSERT_EQ(counted.notes.size(), line.size());
        EXPECT_GE(shareRight(counted.notes, line), 0.9) << "seed " << seed;
        sum += shareRight(counted.notes, line);
        EXPECT_FALSE(counted.swing) << "seed " << seed;
        EXPECT_LT(shareRight(played, line), 0.05) << "as the ticks say";
        for (std::size_t i = 0; i < played.size(); ++i) {
            EXPECT_EQ(counted.notes[i].pitch, played[i].pitch);
            EXPECT_EQ(counted.notes[i].loudness, played[i].loudness);
        }
    }
    EXPECT_GE(sum / 10, 0.98);
}

TEST(PlayedByHand, ALineThatSwingsIsWrittenEvenUnderItsSwing) {
    for (std::uint32_t seed = 1; seed <= 10; ++seed) {
        const auto line = meantLine(seed);
        const CountedNotes counted = countedByHand(frameAt120(), playedBy(frameAt120(2), line, 0.012, seed));
        ASSERT_TRUE(counted.swing) << "seed " << seed;
        EXPECT_NEAR(counted.swing->swing.ratio, 2, 0.34) << "seed " << seed;
        EXPECT_GE(shareRight(counted.notes, line), 0.9) << "seed " << seed;
    }
}

// Three over two beats by turns with eighths, at 180 quarters a minute.
TEST(PlayedByHand, QuarterNoteTripletsComeToTheirLines) {
    Study frame;
    frame.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(96), Seconds(32)}});
    std::vector<Beats> line;
    for (std::int64_t bar = 1; bar < 21; ++bar)
        for (const Beats& place : {Beats(0), Beats(2, 3), Beats(4, 3), Beats(2), Beats(5, 2), Beats(3)})
            line.push_back(Beats(4 * bar) + place);
    double sum = 0;
    for (std::uint32_t seed = 1; seed <= 10; ++seed) {
        const CountedNotes counted = countedByHand(frame, playedBy(frame, line, 0.008, seed));
        sum += shareRight(counted.notes, line);
        EXPECT_FALSE(counted.swing) << "seed " << seed;
    }
    EXPECT_GE(sum / 10, 0.95);
}

TEST(PlayedByHand, WhatNoBeatCanHoldStaysWhereItIs) {
    std::vector<ForeignNote> notes;
    for (int i = 0; i < 20; ++i)
        notes.push_back({Beats(4 * 480 + 24 * i, 480), Beats(4 * 480 + 24 * i + 10, 480), Pitch{60, {}}});
    const CountedNotes counted = countedByHand(frameAt120(), notes);
    EXPECT_EQ(counted.uncounted, 20u);
    EXPECT_EQ(counted.notes.front().begin, notes.front().begin);
    EXPECT_TRUE(countedByHand(frameAt120(), {}).notes.empty());
}

TEST(PlayedByHand, ACrowdedBeatLeavesTheOthersCountedAndSwung) {
    for (std::uint32_t seed = 1; seed <= 4; ++seed) {
        auto line = meantLine(seed);
        // One beat empties for what no beat can hold.
        std::erase_if(line, [](const Beats& place) { return place.floor() == 20; });
        auto played = playedBy(frameAt120(2), line, 0.012, seed);
        for (int i = 0; i < 12; ++i)
            played.push_back(
                {Beats(20 * 480 + 36 * i, 480), Beats(20 * 480 + 36 * i + 20, 480), Pitch{80, {}}});
        const CountedNotes counted = countedByHand(frameAt120(), played);
        ASSERT_TRUE(counted.swing) << "seed " << seed;
        EXPECT_GE(counted.uncounted, 12u);
        EXPECT_LE(counted.uncounted, 16u) << "and notes that scattered into its beat";
        std::vector<ForeignNote> rest;
        for (const ForeignNote& note : counted.notes)
            if (note.pitch.midi != 80) rest.push_back(note);
        ASSERT_EQ(rest.size(), line.size());
        EXPECT_GE(shareRight(rest, line), 0.85) << "seed " << seed;
    }
}

TEST(PlayedByHand, ACrowdedBeatOfThreeEighthsIsLeftAsAWhole) {
    Study frame;
    frame.meter = {6, 8};
    frame.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(96), Seconds(24)}});
    const std::vector<Beats> line{Beats(6), Beats(8), Beats(9), Beats(15)};
    std::vector<ForeignNote> played = playedBy(frame, line, 0, 1);
    // Four notes in each of its eighths: an eighth alone could be counted, the twelve cannot.
    for (int i = 0; i < 12; ++i)
        played.push_back({Beats(144 + 3 * i, 12), Beats(146 + 3 * i, 12), Pitch{80, {}}});
    const CountedNotes counted = countedByHand(frame, played);
    EXPECT_EQ(counted.uncounted, 12u);
    std::vector<ForeignNote> rest;
    for (const ForeignNote& note : counted.notes)
        if (note.pitch.midi != 80) rest.push_back(note);
    EXPECT_EQ(shareRight(rest, line), 1);
}

TEST(PlayedByHand, APickupSwingsWithTheRest) {
    Study frame = frameAt120();
    frame.beatMap = BeatMap({{Beats(-4), Seconds(0)}, {Beats(60), Seconds(32)}});
    frame.page.pickup = Beats(2);
    Study swung = setSwing(frame, Beats(-2), Swing{2, 8});
    std::vector<Beats> line;
    for (std::int64_t beat = -2; beat < 46; ++beat)
        for (const Beats& share : {Beats(0), Beats(1, 2)})
            line.push_back(Beats(beat) + share);
    const CountedNotes counted = countedByHand(frame, playedBy(swung, line, 0.008, 3));
    ASSERT_TRUE(counted.swing);
    EXPECT_EQ(counted.swing->at, Beats(-2));
    for (std::size_t i = 0; i < 4; ++i)
        EXPECT_EQ(counted.notes[i].begin, line[i]) << i;
}

std::vector<std::int64_t> ticksOf(const std::vector<ForeignNote>& notes, std::int64_t perQuarter) {
    std::vector<std::int64_t> ticks;
    for (const ForeignNote& note : notes)
        ticks.push_back((note.begin * perQuarter).floor());
    return ticks;
}

TEST(MidiRhythm, TellsWhatWasWrittenFromWhatAHandPlayedAtAnyResolution) {
    for (const std::int64_t perQuarter : {96, 120, 192, 384, 480, 960, 20160})
        for (std::uint32_t seed = 1; seed <= 10; ++seed) {
            const auto line = meantLine(seed);
            const auto even = playedBy(frameAt120(), line, 0, seed);
            std::vector<ForeignNote> written = even;
            for (std::size_t i = 0; i < line.size(); ++i)
                written[i].begin = line[i];
            const double ofWritten = shareOnLines(ticksOf(written, perQuarter), perQuarter);
            EXPECT_GE(ofWritten, 0.9) << perQuarter << ", seed " << seed;
            EXPECT_EQ(fittingRhythm(ofWritten), MidiRhythm::Ticks);
            const auto hand = playedBy(frameAt120(), line, 0.01, seed);
            EXPECT_EQ(fittingRhythm(shareOnLines(ticksOf(hand, perQuarter), perQuarter)), MidiRhythm::ByHand)
                << perQuarter << ", seed " << seed;
        }
    EXPECT_EQ(shareOnLines({1, 2, 3}, 480), 1) << "too few to tell";
    EXPECT_EQ(shareOnLines({2, 386, 770, 1154, 1538}, 384), 0) << "five that are all two ticks late";
    EXPECT_EQ(shareOnLines({1, 2, 3, 5, 6, 7, 9, 10, 11, 13}, 12), 1) << "every tick is a line";
}

std::string quantity(std::int64_t ticks) {
    std::string bytes(1, static_cast<char>(ticks & 0x7F));
    for (ticks >>= 7; ticks > 0; ticks >>= 7)
        bytes.insert(bytes.begin(), static_cast<char>((ticks & 0x7F) | 0x80));
    return bytes;
}

std::string midiOf(const std::vector<ForeignNote>& notes) {
    std::string events;
    std::int64_t last = 0;
    for (const ForeignNote& note : notes) {
        const std::int64_t begin = (note.begin * 480).floor();
        const char key = static_cast<char>(note.pitch.midi);
        events += quantity(begin - last) + "\x90" + key + "\x50" + quantity(48) + "\x80" + key + "\x40";
        last = begin + 48;
    }
    events += std::string("\0\xFF\x2F\0", 4);
    std::string length(4, '\0');
    for (int i = 0; i < 4; ++i)
        length[static_cast<std::size_t>(i)] = static_cast<char>(events.size() >> (24 - 8 * i));
    // Step by step: g++ 12 sees a copy out of bounds where it is put together at once.
    std::string file("MThd\0\0\0\6\0\0\0\1\x01\xE0", 14);
    file += "MTrk";
    file += length;
    file += events;
    return file;
}

TEST(MidiRhythm, AFileIsReadAsItFitsUnlessTheUserSaysHow) {
    const auto line = meantLine(3);
    const std::string bytes = midiOf(playedBy(frameAt120(), line, 0.012, 3));
    const auto fitting = readStandardMidi(bytes, "hand.mid");
    const auto ticks = readStandardMidi(bytes, "hand.mid", "", MidiRhythm::Ticks);
    ASSERT_TRUE(fitting.ok() && ticks.ok());
    EXPECT_EQ(fitting->rhythm->taken, MidiRhythm::ByHand);
    EXPECT_EQ(ticks->rhythm->taken, MidiRhythm::Ticks);
    const auto finest = [](const Study& study) {
        std::int64_t most = 1;
        for (const Note& note : study.notes)
            most = std::max(most, note.onset.denominator());
        return most;
    };
    EXPECT_LE(finest(fitting->study), 3) << "eighths and triplets";
    EXPECT_GT(finest(ticks->study), 12);
    std::vector<ForeignNote> written;
    for (const Beats& place : line)
        written.push_back({place, place, Pitch{60, {}}});
    const std::string clean = midiOf(written);
    EXPECT_EQ(readStandardMidi(clean, "line.mid")->rhythm->taken, MidiRhythm::Ticks);
    EXPECT_EQ(readStandardMidi(clean, "line.mid", "", MidiRhythm::ByHand)->rhythm->taken, MidiRhythm::ByHand);
}

TEST(MidiRhythm, TheGridIsDividedSoThatTripletsStandOnItsLines) {
    std::vector<ForeignNote> notes;
    for (const Beats& place : {Beats(0), Beats(1, 3), Beats(2, 3), Beats(1), Beats(3, 2), Beats(2),
                               Beats(9, 4), Beats(3), Beats(16, 5)})
        notes.push_back({place, place, Pitch{60, {}}});
    const auto read = readStandardMidi(midiOf(notes), "line.mid");
    ASSERT_TRUE(read.ok());
    const std::map<Beats, BeatDivision> expected{
        {Beats(0), BeatDivision::Three}, {Beats(2), BeatDivision::Four}, {Beats(3), BeatDivision::Five}};
    EXPECT_EQ(read->study.divisions, expected);
}

} // namespace
} // namespace earwright
