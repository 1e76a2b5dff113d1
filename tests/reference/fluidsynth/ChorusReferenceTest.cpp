// A chorus of twelve bars over bass, drums and comping, rendered by fluidsynth, with mistakes planted in the
// notes that are claimed.
#include "core/check/RecordingCheck.h"
#include "tests/reference/fluidsynth/RenderedSound.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <set>

namespace earwright {
namespace {

using namespace tests;

constexpr double beat = 60.0 / 132;
constexpr double start = 0.5;
/// The later eighth of a beat, at a swing ratio of 2:1 (Friberg and Sundström 2002: usual at medium tempo).
constexpr double swing = 2.0 / 3;

/// Roots of a twelve-bar blues in B flat, a bar each (common practice).
const std::vector<int> roots{46, 51, 46, 46, 51, 51, 46, 43, 48, 53, 46, 53};

/// The line in eighths, two bars a row; 0 is a rest.
const std::vector<int> line{0,  65, 68, 70, 69, 65, 62, 60, 58, 0,  62, 65, 68, 67, 65, 63, //
                            61, 58, 0,  65, 62, 65, 68, 72, 70, 68, 65, 0,  61, 62, 65, 70, //
                            67, 63, 0,  70, 73, 72, 70, 67, 66, 67, 0,  63, 61, 63, 67, 70, //
                            74, 70, 65, 0,  62, 63, 64, 65, 71, 67, 65, 62, 59, 0,  67, 71, //
                            72, 75, 79, 77, 75, 72, 70, 0,  69, 72, 75, 72, 69, 65, 63, 60, //
                            62, 65, 70, 0,  68, 65, 61, 58, 60, 0,  65, 69, 72, 70, 69, 65};

Seconds eighth(std::size_t index) {
    return Seconds(start + beat * (static_cast<double>(index / 2) + (index % 2 == 1 ? swing : 0)));
}

std::vector<Claim> playedNotes() {
    std::vector<Claim> notes;
    for (std::size_t i = 0; i < line.size(); ++i)
        if (line[i] != 0) notes.push_back({{eighth(i), eighth(i + 1)}, line[i]});
    return notes;
}

void addBand(MidiFile& midi) {
    midi.program(1, acousticBass);
    midi.program(2, piano);
    for (std::size_t bar = 0; bar < roots.size(); ++bar) {
        for (std::size_t b = 0; b < 4; ++b) {
            const Seconds at = eighth(8 * bar + 2 * b);
            constexpr int steps[] = {0, 4, 7, 9};
            midi.note(1, {at, at + Seconds(0.9 * beat)}, roots[bar] - 12 + steps[b], 85);
            midi.note(drumChannel, {at, at + Seconds(0.1)}, rideCymbal, b % 2 == 1 ? 90 : 75);
            if (b % 2 == 1)
                midi.note(drumChannel, {eighth(8 * bar + 2 * b + 1), eighth(8 * bar + 2 * b + 2)}, rideCymbal,
                          70);
        }
        for (const int third : {4, 10, 14})
            midi.note(2, {eighth(8 * bar + 3), eighth(8 * bar + 6)}, roots[bar] + third, 60);
    }
}

RecordingEvidence chorus(int instrument = cleanGuitar) {
    MidiFile midi;
    midi.program(0, instrument);
    addBand(midi);
    for (const Claim& note : playedNotes())
        midi.note(0, note.range, note.midi, 100);
    return rendered(midi);
}

TEST(ChorusReference, SupportsWhatWasPlayed) {
    const std::vector<Claim> notes = playedNotes();
    const auto check = checkRecording(chorus(), notes);
    ASSERT_TRUE(check);
    const auto supported =
        std::count_if(check->answers.begin(), check->answers.end(),
                      [](const ClaimAnswer& answer) { return answer.verdict == Verdict::Supported; });
    const auto contradicted =
        std::count_if(check->answers.begin(), check->answers.end(),
                      [](const ClaimAnswer& answer) { return answer.verdict == Verdict::Contradicted; });
    // At most one note in a hundred may be contradicted, and six may be unclear, under a full band.
    EXPECT_LE(contradicted, static_cast<std::ptrdiff_t>(notes.size() / 100 + 1));
    EXPECT_GE(static_cast<double>(supported), 0.93 * static_cast<double>(notes.size()));
    EXPECT_LE(check->unwritten.size(), 2u);
}

/// The same notes as they are often written: eighths evenly, to be swung.
std::vector<Claim> evenlyWritten() {
    std::vector<Claim> notes;
    const auto place = [](std::size_t i) { return Seconds(start + beat * 0.5 * static_cast<double>(i)); };
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == 0) continue;
        notes.push_back({{place(i), place(i + 1)}, line[i]});
        if (i % 2 == 1) notes.back().evenPair = Range<Seconds>{place(i - 1), place(i + 1)};
    }
    return notes;
}

TEST(ChorusReference, NeverHoldsSwingAgainstEighthsWrittenEvenly) {
    const std::vector<Claim> notes = evenlyWritten();
    for (const int instrument : {cleanGuitar, altoSaxophone}) {
        const auto check = checkRecording(chorus(instrument), notes);
        ASSERT_TRUE(check);
        const auto counted = [&](Verdict verdict) {
            return std::count_if(check->answers.begin(), check->answers.end(),
                                 [&](const ClaimAnswer& answer) { return answer.verdict == verdict; });
        };
        // As many as where the swing is written out.
        EXPECT_LE(counted(Verdict::Contradicted), std::ssize(notes) / 100 + 1) << instrument;
        EXPECT_GE(static_cast<double>(counted(Verdict::Supported)), 0.93 * static_cast<double>(notes.size()))
            << instrument;
        EXPECT_LE(check->unwritten.size(), 2u) << instrument;
        // A saxophone's onsets are heard up to 20 ms late, so that the ratio alone is a little high.
        ASSERT_TRUE(check->swing) << instrument;
        EXPECT_NEAR(check->swing->ratio, 2, 0.35) << instrument;
    }
}

TEST(ChorusReference, NeverHoldsALateNoteAgainstTheLine) {
    // Single notes 80 ms behind: soloists lag by some 30 ms on average (Weimar Jazz Database studies).
    constexpr Seconds late{0.08};
    for (const int instrument : {cleanGuitar, altoSaxophone}) {
        std::vector<Claim> notes = playedNotes();
        std::vector<std::size_t> early;
        for (std::size_t i = 3; i < notes.size(); i += 6) {
            notes[i].range = notes[i].range.shifted(Seconds(0) - late);
            early.push_back(i);
        }
        const auto check = checkRecording(chorus(instrument), notes);
        ASSERT_TRUE(check);
        std::size_t right = 0;
        for (const std::size_t i : early) {
            const ClaimAnswer& answer = check->answers[i];
            right += answer.verdict == Verdict::Supported;
            // Onsets are told to 10 ms, and differ by as much from the line's usual lag.
            if (answer.behind == Seconds(0)) continue;
            EXPECT_NEAR(answer.behind.value, late.value, 0.025) << i;
        }
        EXPECT_GE(right + 1, early.size()) << instrument << ", of " << early.size();
        EXPECT_LE(check->unwritten.size(), 2u) << instrument;
    }
}

TEST(ChorusReference, FindsTheMistakesThatWerePlanted) {
    const std::vector<Claim> played = playedNotes();
    std::vector<Claim> notes = played;
    const std::vector<std::pair<std::size_t, int>> mistakes{{5, 1},   {17, -2}, {26, 12},
                                                            {39, -1}, {48, 5},  {60, -12}};
    for (const auto& [index, semitones] : mistakes)
        notes[index].midi += semitones;
    const Claim forgotten = notes[33];
    notes.erase(notes.begin() + 33);
    const auto check = checkRecording(chorus(), notes);
    ASSERT_TRUE(check);
    int contradicted = 0;
    int corrected = 0;
    for (const auto& [index, semitones] : mistakes) {
        const std::size_t row = index > 33 ? index - 1 : index;
        contradicted += check->answers[row].verdict == Verdict::Contradicted;
        corrected += check->answers[row].suggestedMidi == played[index].midi;
    }
    EXPECT_GE(contradicted, 5) << "of six wrong pitches";
    EXPECT_GE(corrected, 5) << "of six wrong pitches";
    EXPECT_TRUE(
        std::any_of(check->unwritten.begin(), check->unwritten.end(), [&](const UnwrittenSound& sound) {
            return sound.midi == forgotten.midi &&
                   std::abs((sound.range.begin - forgotten.range.begin).value) < 0.05;
        }));
}

} // namespace
} // namespace earwright
