#include "core/listening/ColourLearning.h"

#include "core/listening/PitchHint.h"
#include "tests/core/listening/HollowLine.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

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

TEST(ColourLearning, TellsOfOnePlaceByTheSoundOfItsLine) {
    const HollowLine line;
    const PassageEvidence evidence = line.evidence();
    int alone = 0;
    int inItsLine = 0;
    for (std::size_t i = 0; i < line.spans.size(); ++i) {
        alone += pitchHintAt(line.spans[i], evidence, {}).bestMidi == line.pitches[i] ? 1 : 0;
        inItsLine += pitchHintAt(line.spans[i], evidence, line.spans).bestMidi == line.pitches[i] ? 1 : 0;
    }
    EXPECT_LT(alone, 40);
    EXPECT_GE(inItsLine, 46);
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
    const auto evidence =
        PassageEvidence::listen(AnalysisSound{silence(HollowLine::passage.end), {}}, 0, HollowLine::passage);
    ASSERT_TRUE(evidence);
    EXPECT_TRUE(colourIn(*evidence, HollowLine().spans).isPlain());
}

} // namespace
} // namespace earwright
