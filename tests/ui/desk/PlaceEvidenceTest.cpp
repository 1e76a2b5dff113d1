#include "ui/desk/PlaceEvidence.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

constexpr int lower = 57;  // A3
constexpr int higher = 64; // E4
constexpr Range<Seconds> place{Seconds(1), Seconds(1.8)};

/// Eight partials that fall off as those of a string do, sounding through `place`.
std::vector<float> tone(int midi) {
    std::vector<float> samples(static_cast<std::size_t>(3 * analysisRate.hertz));
    const double hertz = 440 * std::exp2((midi - 69) / 12.0);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double second = static_cast<double>(i) / analysisRate.hertz;
        if (second < place.begin.value || second >= place.end.value) continue;
        for (int partial = 1; partial <= 8; ++partial)
            samples[i] += static_cast<float>(0.2 / partial * std::sin(2 * M_PI * partial * hertz * second));
    }
    return samples;
}

/// The lower tone on the left, the higher on the right.
RecordingEvidence twoSides() {
    AnalysisSound sound;
    sound.left = tone(lower);
    sound.right = tone(higher);
    return *RecordingEvidence::listen(std::move(sound));
}

int strongest(const HeardPart& part, const LineRange& line = {}) {
    const auto heard = pitchStrengths(twoSides(), place, {}, {part, line}, {});
    const std::vector<PitchStrength>& pitches = heard->pitches;
    const auto best = std::max_element(
        pitches.begin(), pitches.end(),
        [](const PitchStrength& one, const PitchStrength& other) { return one.strength < other.strength; });
    return best == pitches.end() ? 0 : best->midi;
}

TEST(PlaceEvidence, TellsOfTheSideThatIsListenedTo) {
    EXPECT_EQ(strongest({Focus::Left, {}}), lower);
    EXPECT_EQ(strongest({Focus::Right, {}}), higher);
}

TEST(PlaceEvidence, SaysWhereItListened) {
    for (const Focus focus : {Focus::Left, Focus::Right})
        EXPECT_EQ(pitchStrengths(twoSides(), place, {}, {{focus, {}}, {}}, {})->listened.focus, focus);
}

TEST(PlaceEvidence, TellsNothingOfWhatTheLinesInstrumentCannotPlay) {
    EXPECT_EQ(strongest({}, {lower - 5, lower + 2}), lower);
    EXPECT_EQ(strongest({}, {higher - 2, higher + 5}), higher);
}

TEST(PlaceEvidence, TellsNothingOfWhatTheBandLeavesOut) {
    // Everything but the lower tone's first three partials and all that lies between them.
    const Band without{180, 700, true};
    EXPECT_NE(strongest({Focus::Left, without}), lower);
}

} // namespace
} // namespace earwright::ui
