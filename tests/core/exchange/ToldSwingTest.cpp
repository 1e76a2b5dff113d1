// Swing that a file says in words: believed where its notes swing so, whatever they were taken through.
#include "core/exchange/ToldSwing.h"

#include "core/exchange/MidiTrack.h"
#include "core/exchange/StandardMidi.h"
#include "core/exchange/StandardMidiReading.h"
#include "tests/core/engraving/SampleLines.h"

#include <cstdint>
#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace earwright {
namespace {

struct Place {
    Beats onset;
    Beats length;
};

Study lineOf(const std::vector<Place>& places, const std::vector<SwingChange>& swings) {
    Study study = studyInFour();
    study.page.swings = swings;
    for (std::size_t i = 0; i < places.size(); ++i) {
        study.notes.push_back(
            noteAt(study, places[i].onset, places[i].length, 60 + static_cast<int>(i * 5 % 12)));
        if (places[i].length.denominator() == 3)
            study.divisions[Beats(places[i].onset.floor())] = BeatDivision::Three;
    }
    return study;
}

/// So many notes of one length in each beat.
void addBeats(std::vector<Place>& places, std::int64_t from, std::int64_t to, std::int64_t parts) {
    for (std::int64_t beat = from; beat < to; ++beat)
        for (std::int64_t part = 0; part < parts; ++part)
            places.push_back({Beats(beat) + Beats(part, parts), Beats(1, parts)});
}

std::string fileOf(const Study& study) {
    const auto file = standardMidi(study);
    EXPECT_TRUE(file.ok());
    return file ? *file : "";
}

/// As a program saves it that counts so many ticks.
std::string savedAgain(const std::string& bytes, std::int64_t ticksPerQuarter) {
    const auto file = midiTracks(bytes, "line.mid");
    EXPECT_TRUE(file.ok());
    MidiTrack track;
    for (const MidiEvent& event : file->tracks.front()) {
        const std::int64_t tick =
            (event.tick * ticksPerQuarter + file->ticksPerQuarter / 2) / file->ticksPerQuarter;
        if (event.status == 0xFF && event.first != 0x2F)
            track.addMeta(tick, event.first, event.data);
        else if (event.status != 0xFF)
            track.addMessage(tick, (event.status & 0xF0) == 0x90 ? MidiRank::Begins : MidiRank::Ends,
                             event.status & 0xF0, event.first, event.second);
    }
    return midiFile(track, static_cast<int>(ticksPerQuarter));
}

void expectToRead(const std::string& file, const Study& study) {
    const auto read = readStandardMidi(file, "line.mid");
    ASSERT_TRUE(read.ok());
    EXPECT_EQ(read->study.page.swings, study.page.swings);
    EXPECT_EQ(read->study.page.texts, study.page.texts);
    ASSERT_EQ(read->study.notes.size(), study.notes.size());
    for (std::size_t i = 0; i < study.notes.size(); ++i)
        EXPECT_EQ(read->study.notes[i].range(), study.notes[i].range()) << i;
}

// What sounds for five eighths of its beat is not a quarter played short.
TEST(ToldSwing, LeavesRestsBehindNotesOnTheBeat) {
    std::vector<Place> places;
    for (std::int64_t beat = 0; beat < 16; ++beat)
        places.push_back({Beats(beat), Beats(1, 2)});
    const Study study = lineOf(places, {{Beats(0), {1.7, 8}}});
    expectToRead(fileOf(study), study);
}

TEST(ToldSwing, LeavesTripletsAtAnyRatioAndValue) {
    std::vector<Place> places;
    addBeats(places, 0, 3, 2);
    addBeats(places, 3, 5, 3);
    addBeats(places, 5, 7, 4);
    addBeats(places, 7, 8, 3);
    addBeats(places, 8, 12, 2);
    for (const int value : {8, 16})
        for (int ratio = 105; ratio <= 300; ratio += 5) {
            const Study study = lineOf(places, {{Beats(0), {ratio / 100.0, value}}, {Beats(10), {1.5, 8}}});
            expectToRead(fileOf(study), study);
            if (::testing::Test::HasFailure()) FAIL() << ratio << " " << value;
        }
}

TEST(ToldSwing, IsKnownFromAFewNotes) {
    std::vector<Place> places;
    addBeats(places, 0, 3, 2);
    for (const double ratio : {1.7, 2.0}) {
        const Study study = lineOf(places, {{Beats(0), {ratio, 8}}});
        expectToRead(fileOf(study), study);
    }
}

TEST(ToldSwing, ComesThroughProgramsThatCountFewerTicks) {
    std::vector<Place> places;
    addBeats(places, 0, 4, 2);
    addBeats(places, 4, 6, 3);
    addBeats(places, 6, 8, 4);
    addBeats(places, 8, 12, 2);
    const Study study = lineOf(places, {{Beats(0), {1.7, 8}}});
    for (const std::int64_t ticksPerQuarter : {960, 480, 384, 192, 120, 96})
        expectToRead(savedAgain(fileOf(study), ticksPerQuarter), study);
}

// In halves of 2/2 eighths are fourths of a beat; a pickup may begin off the beat.
TEST(ToldSwing, GoesOnInEveryMeterAndFromThePickup) {
    for (const Meter& meter : {Meter{3, 4}, Meter{5, 4}, Meter{2, 2}})
        for (const double ratio : {1.4, 2.0, 3.0}) {
            const Beats eighth(meter.beatUnit, 8);
            std::vector<Place> places;
            for (std::int64_t i = -3; i < 40; ++i)
                if (i % 5 != 4) places.push_back({eighth * i, eighth});
            const Beats pickup = eighth * 3;
            Study study = lineOf(places, {{-pickup, {ratio, 8}}});
            study.meter = meter;
            study.page.pickup = pickup;
            expectToRead(fileOf(study), study);
            if (::testing::Test::HasFailure())
                FAIL() << meter.beatsPerBar << "/" << meter.beatUnit << ", " << ratio;
        }
}

// As where a program has put our notes on its grid, or where the words are another's.
TEST(ToldSwing, IsNotBelievedWhereTheNotesDoNot) {
    std::vector<Place> places;
    addBeats(places, 0, 8, 2);
    for (const std::int64_t ticksPerQuarter : {480, 96}) {
        Study study = lineOf(places, {});
        study.page.texts = {{Beats(0), swingWords({1.7, 8}), false}};
        expectToRead(savedAgain(fileOf(study), ticksPerQuarter), study);
    }
}

TEST(ToldSwing, IsNoNewsOfALineThatIsEvenAlready) {
    std::vector<Place> places;
    addBeats(places, 0, 8, 2);
    const Study study = lineOf(places, {{Beats(0), {}}});
    EXPECT_EQ(fileOf(study).find("Swing"), std::string::npos);
    expectToRead(fileOf(study), lineOf(places, {}));
}

} // namespace
} // namespace earwright
