#include "core/listening/ColourLearning.h"

#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

using namespace tests;

constexpr Range<Seconds> passage{Seconds(0), Seconds(15.5)};
constexpr Seconds noteLength{0.27};

/// Partials 1 to 10 falling off as 1/h, but the first 28 dB weaker than the second, as of a low voice through
/// a small loudspeaker: a low note may be taken for one an octave higher.
void addHollowTone(std::vector<float>& sound, Seconds begin, int midi) {
    const auto first = static_cast<std::size_t>(analysisRate.frames(begin).value);
    const auto count = static_cast<std::size_t>(analysisRate.frames(noteLength).value);
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / analysisRate.hertz;
        const double envelope = std::min({1.0, t / 0.01, (noteLength.value - t) / 0.02});
        double sum = 0;
        for (int h = 1; h <= 10; ++h)
            sum += (h == 1 ? 0.02 : 1.0 / h) * std::sin(2 * std::numbers::pi * h * hertzOf(midi) * t);
        sound[first + i] += static_cast<float>(0.1 * envelope * sum);
    }
}

/// A line from C3 to E♭4 and back, three times.
struct HollowLine {
    std::vector<int> pitches;
    std::vector<Range<Seconds>> spans;
    AnalysisSound sound{silence(passage.end), {}};

    HollowLine() {
        const std::vector<int> steps{0, 2, 3, 5, 7, 8, 10, 12, 14, 15, 12, 10, 7, 5, 3, 2};
        for (std::size_t i = 0; i < 3 * steps.size(); ++i) {
            const Seconds begin(0.5 + 0.3 * static_cast<double>(i));
            spans.push_back({begin, begin + noteLength});
            pitches.push_back(48 + steps[i % steps.size()]);
            addHollowTone(sound.left, begin, pitches.back());
        }
        addNoise(sound.left, 0.001f);
    }
    PassageEvidence evidence() const { return *PassageEvidence::listen(sound, 0, passage); }
    int named(const std::vector<PitchRow>& rows) const {
        int right = 0;
        for (std::size_t i = 0; i < rows.size(); ++i)
            right += lowestHeardMidi + static_cast<int>(rows[i].best()) == pitches[i] ? 1 : 0;
        return right;
    }
};

LineColour colourIn(const PassageEvidence& evidence, const std::vector<Range<Seconds>>& spans) {
    const ViewBlend alone({0});
    return colourOf(evidence, alone, alone.onsets(evidence), spans, SpanOf::Note);
}

float sizeOf(const LineColour& colour) {
    float sum = 0;
    for (const float weight : colour.weights)
        sum += weight * weight;
    return std::sqrt(sum);
}

TEST(ColourLearning, HearsNotesByTheSoundOfThoseThatAreSure) {
    const HollowLine line;
    const PassageEvidence evidence = line.evidence();
    const int plain = line.named(evidence.spans(0, line.spans));
    const PassageEvidence coloured = evidence.colouredBy(colourIn(evidence, line.spans));
    const int learned = line.named(coloured.spans(0, line.spans));
    EXPECT_LT(plain, 40) << "heard as any line, many are octaves";
    EXPECT_GE(learned, 46);
}

TEST(ColourLearning, LearnsTheLessTheFewerNotesThereAre) {
    const HollowLine line;
    const PassageEvidence evidence = line.evidence();
    const std::vector<Range<Seconds>> few(line.spans.begin() + 6, line.spans.begin() + 10);
    const float fromFew = sizeOf(colourIn(evidence, few));
    EXPECT_GT(fromFew, 0);
    EXPECT_LT(fromFew, 0.6f * sizeOf(colourIn(evidence, line.spans)));
}

TEST(ColourLearning, LearnsNothingFromSilence) {
    const auto evidence = PassageEvidence::listen(AnalysisSound{silence(passage.end), {}}, 0, passage);
    ASSERT_TRUE(evidence);
    EXPECT_TRUE(colourIn(*evidence, HollowLine().spans).isPlain());
}

} // namespace
} // namespace earwright
