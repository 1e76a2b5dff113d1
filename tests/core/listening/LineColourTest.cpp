#include "core/listening/LineColour.h"

#include "core/listening/PassageEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>
#include <memory>
#include <random>

namespace earwright {
namespace {

using namespace tests;

LineColour someColour() {
    std::mt19937 random(3);
    std::uniform_real_distribution<float> weight(-1, 1);
    LineColour colour;
    for (float& value : colour.weights)
        value = weight(random);
    return colour;
}

/// A bass under a tone of the line.
struct Music {
    Range<Seconds> span{1.0_s, 1.4_s};
    PassageEvidence evidence = [this] {
        AnalysisSound sound{silence(3.0_s), {}};
        addTone(sound.left, {0.5_s, 2.5_s}, 40);
        addTone(sound.left, span, 64);
        return *PassageEvidence::listen(sound, 0, {0.0_s, 3.0_s});
    }();
};

TEST(LineColour, AddsWhatEachFeatureCountsForToEachPitch) {
    std::mt19937 random(4);
    std::uniform_real_distribution<float> number(0, 2);
    const auto features = std::make_unique<SoundColumns>();
    for (auto& row : *features)
        for (float& value : row)
            value = number(random);
    const LineColour colour = someColour();
    const PitchRow added = colour.addsTo(*features);
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
        double sum = 0;
        for (std::size_t i = 0; i < soundFeatureCount; ++i)
            sum += static_cast<double>(colour.weights[i]) * (*features)[i][pitch];
        EXPECT_NEAR(added[pitch], sum, 1e-4) << pitch;
    }
}

TEST(LineColour, ReadsTheSoundOfASpanByTheFeaturesItIsNamedBy) {
    SpanLevels levels;
    std::mt19937 random(5);
    std::uniform_real_distribution<float> level(0, 2);
    for (LogBins* bins : {&levels.attack, &levels.before, &levels.rise, &levels.sustain})
        for (float& value : *bins)
            value = level(random);
    const auto columns = std::make_unique<SoundColumns>(soundColumns(levels));
    const auto table = std::make_unique<FeatureTable<spanFeatureCount>>(spanFeatures(levels));
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        for (std::size_t i = 0; i < soundFeatureCount; ++i)
            EXPECT_EQ((*columns)[i][pitch], (*table)[pitch][i]) << pitch << ' ' << i;
    const PitchRow bySpan = someColour().addsTo(levels);
    const PitchRow byColumns = someColour().addsTo(*columns);
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        EXPECT_NEAR(bySpan[pitch], byColumns[pitch], 1e-4) << pitch;
}

TEST(LineColour, MovesWhatIsHeardInSpansByWhatItAdds) {
    const Music music;
    const LineColour colour = someColour();
    const PitchRow plain = music.evidence.spans(0, {music.span}).front();
    PitchRow expected = colour.addsTo(music.evidence.heardBy(0, {music.span}).front()->levels);
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        expected[pitch] += plain[pitch];
    expected.normalise();
    const PitchRow coloured = music.evidence.colouredBy(colour).spans(0, {music.span}).front();
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        EXPECT_NEAR(coloured[pitch], expected[pitch], 1e-4) << pitch;
    // What was heard is kept as it was heard.
    EXPECT_EQ(music.evidence.spans(0, {music.span}).front().log, plain.log);
}

TEST(LineColour, LeavesWhatItHearsAsItIsWherePlain) {
    const Music music;
    EXPECT_TRUE(LineColour{}.isPlain());
    EXPECT_FALSE(someColour().isPlain());
    EXPECT_EQ(music.evidence.colouredBy({}).spans(0, {music.span}).front().log,
              music.evidence.spans(0, {music.span}).front().log);
}

TEST(LineColour, AddsNothingToSilence) {
    const LineColour colour = someColour();
    const AnalysisSound sound{silence(3.0_s), {}};
    const auto evidence = PassageEvidence::listen(sound, 0, {0.0_s, 3.0_s});
    ASSERT_TRUE(evidence);
    const PitchRow row = evidence->colouredBy(colour).spans(0, {{1.0_s, 1.4_s}}).front();
    for (std::size_t pitch = 1; pitch < pitchCount; ++pitch)
        EXPECT_EQ(row[pitch], row[0]);
}

} // namespace
} // namespace earwright
