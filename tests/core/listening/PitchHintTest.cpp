#include "core/listening/PitchHint.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

PassageEvidence evidenceOf(const AnalysisSound& sound, double cents = 0) {
    auto evidence = PassageEvidence::listen(sound, cents, {Seconds(0), sound.duration()});
    EXPECT_TRUE(evidence);
    return *std::move(evidence);
}

TEST(PitchHint, NamesPluckedTonesFromE2ToE6) {
    for (int midi = 40; midi <= 88; ++midi) {
        AnalysisSound sound{silence(1.0_s), {}};
        addTone(sound.left, {0.3_s, 0.7_s}, midi);
        addNoise(sound.left, 0.0005f);
        const auto hints = pitchHints(evidenceOf(sound), {{0.3_s, 0.7_s}});
        ASSERT_EQ(hints.size(), 1u);
        EXPECT_EQ(hints[0].bestMidi, midi);
        EXPECT_GT(hints[0].confidence, 0.3) << midi;
    }
}

TEST(PitchHint, CountsPitchesFromTheRecordingsTuning) {
    // 40 cents sharp throughout: named as if it were in tune.
    AnalysisSound sound{silence(1.0_s), {}};
    addTone(sound.left, {0.3_s, 0.7_s}, 64.4);
    EXPECT_EQ(pitchHints(evidenceOf(sound, 40), {{0.3_s, 0.7_s}})[0].bestMidi, 64);
}

TEST(PitchHint, DoesNotTakeAHeldBassForTheLine) {
    AnalysisSound sound{silence(2.0_s), {}};
    addTone(sound.left, {0.1_s, 1.9_s}, 38, 0.3f);
    std::vector<Range<Seconds>> spans;
    const std::vector<int> line{62, 64, 65, 67, 69};
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Seconds begin(0.5 + 0.25 * static_cast<double>(i));
        spans.push_back({begin, begin + 0.22_s});
        addTone(sound.left, spans.back(), line[i], 0.15f);
    }
    const auto hints = pitchHints(evidenceOf(sound), spans);
    for (std::size_t i = 0; i < line.size(); ++i)
        EXPECT_EQ(hints[i].bestMidi, line[i]);
}

TEST(PitchHint, HearsNothingOutsideTheRangeOfTheLine) {
    // Two tones begin together, the lower one louder: which of them is the line, the range decides.
    AnalysisSound sound{silence(1.0_s), {}};
    const Range<Seconds> span{0.3_s, 0.7_s};
    addTone(sound.left, span, 45, 0.3f);
    addTone(sound.left, span, 64, 0.1f);
    const PassageEvidence evidence = evidenceOf(sound);
    EXPECT_EQ(pitchHints(evidence, {span})[0].bestMidi, 45);
    EXPECT_EQ(pitchHints(evidence.within({52, 86}), {span})[0].bestMidi, 64);
    EXPECT_EQ(pitchHints(evidence.within({28, 50}), {span})[0].bestMidi, 45);
    // Asked again without a range it is as before: what was heard is kept as it was heard.
    EXPECT_EQ(pitchHints(evidence, {span})[0].bestMidi, 45);
    const std::size_t place = evidence.onsets(0).nearest(0.3_s);
    const PassageEvidence upper = evidence.within({52, 86});
    EXPECT_LT(upper.onsets(0)[place][45 - lowestHeardMidi], evidence.onsets(0)[place][45 - lowestHeardMidi]);
    EXPECT_NEAR(logSumExp(upper.onsets(0)[place]), 0, 1e-3);
}

TEST(PitchHint, HearsSilenceInARangeToo) {
    const AnalysisSound sound{silence(1.0_s), {}};
    EXPECT_EQ(pitchHints(evidenceOf(sound).within({60, 64}), {{0.3_s, 0.7_s}})[0].confidence, 0);
}

TEST(PitchHint, AnswersInTheOrderItWasAsked) {
    AnalysisSound sound{silence(2.0_s), {}};
    addTone(sound.left, {0.3_s, 0.7_s}, 60);
    addTone(sound.left, {1.0_s, 1.5_s}, 67);
    const auto hints = pitchHints(evidenceOf(sound), {{1.0_s, 1.5_s}, {0.3_s, 0.7_s}});
    EXPECT_EQ(hints[0].bestMidi, 67);
    EXPECT_EQ(hints[1].bestMidi, 60);
    EXPECT_TRUE(pitchHints(evidenceOf(sound), {}).empty());
}

TEST(PitchHint, ListensToTheSideWhereTheLineIs) {
    // The line stands left under a louder chord on the right that begins with each of its notes.
    AnalysisSound sound{silence(2.0_s), silence(2.0_s)};
    std::vector<Range<Seconds>> spans;
    const std::vector<int> line{70, 72, 73, 75};
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Seconds begin(0.4 + 0.3 * static_cast<double>(i));
        spans.push_back({begin, begin + 0.25_s});
        addTone(sound.left, spans.back(), line[i], 0.08f);
        for (const int chord : {57, 61, 64, 68})
            addTone(sound.right, spans.back(), chord, 0.2f);
    }
    const auto hints = pitchHints(evidenceOf(sound), spans);
    for (std::size_t i = 0; i < line.size(); ++i)
        EXPECT_EQ(hints[i].bestMidi, line[i]);
}

TEST(PitchHint, StopsListeningWhenAsked) {
    AnalysisSound sound{silence(1.0_s), {}};
    std::stop_source stop;
    stop.request_stop();
    const auto evidence = PassageEvidence::listen(sound, 0, {0.0_s, 1.0_s}, stop.get_token());
    ASSERT_FALSE(evidence);
    EXPECT_EQ(evidence.error().kind, ErrorKind::Cancelled);
}

} // namespace
} // namespace earwright
