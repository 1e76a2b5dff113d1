// Picked and slurred notes of guitars, rendered by fluidsynth: a slur is a string that sounds on while its
// pitch is bent to the next note's at once.
#include "core/check/PhrasingMark.h"
#include "core/check/PhrasingMeasure.h"
#include "tests/reference/fluidsynth/RenderedSound.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

using namespace tests;

struct Answers {
    int asked = 0, supported = 0, contradicted = 0, listed = 0;
};

/// Pairs of eighths on a guitar, of which every other is slurred, on the beats of a bass and a ride cymbal.
class GuitarPairs {
public:
    GuitarPairs(int program, bool overBand) {
        midi.program(0, program);
        midi.program(1, acousticBass);
        const std::vector<int> steps{1, -2, 2, -1, 2, 1, -1, -2, 1, 2, -2, -1, -1, 2, -2, 1};
        for (std::size_t i = 0; i < steps.size(); ++i) {
            const Seconds begin(0.5 + 0.5 * static_cast<double>(i));
            addPair(begin, 50 + static_cast<int>(i) * 7 % 24, steps[i], i % 2 == 0);
            if (!overBand) continue;
            midi.note(1, {begin, begin + Seconds(0.45)}, 33 + static_cast<int>(i) * 5 % 12, 85);
            midi.note(drumChannel, {begin, begin + Seconds(0.1)}, rideCymbal, 85);
            midi.note(drumChannel, {begin + eighth, begin + eighth + Seconds(0.1)}, rideCymbal, 65);
        }
    }

    /// What is said to a slur that is claimed of the second notes that are slurred, or of those that are
    /// picked.
    Answers answers(bool ofSlurred) const {
        const RecordingEvidence recording = rendered(midi);
        const auto playing = measurePhrasing(recording, claims);
        Answers counted;
        for (std::size_t i = 1; i < claims.size(); i += 2) {
            if (isSlurred[i / 2] != ofSlurred) continue;
            ++counted.asked;
            const Verdict verdict = slurVerdict((*playing)[i]);
            counted.supported += verdict == Verdict::Supported;
            counted.contradicted += verdict == Verdict::Contradicted;
            for (const PhrasingMark mark : judgePhrasing({}, (*playing)[i]).unwritten)
                counted.listed += mark == PhrasingMark::Slur;
        }
        return counted;
    }

private:
    static constexpr Seconds eighth{0.25};

    void addPair(Seconds begin, int pitch, int step, bool slurred) {
        const Seconds middle = begin + eighth, end = middle + eighth;
        isSlurred.push_back(slurred);
        claims.push_back({{begin, middle}, pitch, {}, std::nullopt, LineCharacter::Plucked});
        claims.push_back({{middle, end}, pitch + step, {}, std::nullopt, LineCharacter::Plucked});
        midi.bend(0, begin - Seconds(0.002), 0);
        midi.note(0, {begin, (slurred ? end : middle) - Seconds(0.01)}, pitch, 90);
        if (slurred)
            midi.bend(0, middle, step);
        else
            midi.note(0, {middle, end - Seconds(0.01)}, pitch + step, 90);
    }

    MidiFile midi;
    std::vector<PhrasingClaim> claims;
    std::vector<bool> isSlurred;
};

class SlursOn : public testing::TestWithParam<int> {};

TEST_P(SlursOn, AGuitarAreSupportedAndPickedNotesContradicted) {
    for (const bool overBand : {false, true}) {
        const GuitarPairs pairs(GetParam(), overBand);
        const Answers slurred = pairs.answers(true), picked = pairs.answers(false);
        ASSERT_EQ(slurred.asked, 8);
        ASSERT_EQ(picked.asked, 8);
        EXPECT_GE(slurred.supported, 6) << overBand;
        EXPECT_EQ(slurred.contradicted, 0) << overBand;
        EXPECT_GT(picked.contradicted, slurred.contradicted) << overBand;
        EXPECT_EQ(picked.supported, 0) << overBand;
        EXPECT_EQ(picked.listed, 0) << overBand;
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, SlursOn, testing::Values(nylonGuitar, jazzGuitar, cleanGuitar));

} // namespace
} // namespace earwright
