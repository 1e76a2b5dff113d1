#include "core/listening/ClearestPassage.h"

#include "core/listening/PitchHint.h"
#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

constexpr Range<Seconds> passage{Seconds(0.2), Seconds(3.8)};

/// A line of eight tones, and tones of a band that begin with each of them.
struct LineAndBand {
    std::vector<float> line = silence(4.0_s);
    std::vector<float> band = silence(4.0_s);
    std::vector<Range<Seconds>> spans;
    std::vector<int> pitches{67, 69, 70, 72, 74, 75, 72, 70};

    LineAndBand() {
        for (std::size_t i = 0; i < pitches.size(); ++i) {
            const Seconds begin(0.5 + 0.375 * static_cast<double>(i));
            spans.push_back({begin, begin + 0.33_s});
            addTone(line, spans.back(), pitches[i]);
            const int other = i % 2 == 0 ? 61 : 56;
            addTone(band, spans.back(), other, 0.3f);
            addTone(band, spans.back(), other + 10, 0.3f);
        }
    }
    /// Shares of line and band on either side.
    RecordingEvidence heard(float lineLeft, float bandLeft, float lineRight, float bandRight) const {
        AnalysisSound sound{silence(4.0_s), silence(4.0_s)};
        for (std::size_t i = 0; i < sound.left.size(); ++i) {
            sound.left[i] = lineLeft * line[i] + bandLeft * band[i];
            sound.right[i] = lineRight * line[i] + bandRight * band[i];
        }
        return *RecordingEvidence::listen(std::move(sound));
    }
    int named(const std::vector<PitchHint>& hints) const {
        int right = 0;
        for (std::size_t i = 0; i < pitches.size(); ++i)
            right += hints[i].bestMidi == pitches[i] ? 1 : 0;
        return right;
    }
};

TEST(ClearestPassage, ListensWhereTheLineIsAlone) {
    const LineAndBand music;
    struct Case {
        RecordingEvidence recording;
        Focus focus;
    };
    for (const Case& each :
         {Case{music.heard(0.1f, 1, 1, 0), Focus::Right}, Case{music.heard(1, 0, 0.1f, 1), Focus::Left},
          // Against each other on both sides, the band in the centre.
          Case{music.heard(1, 1, -1, 1), Focus::Sides}}) {
        const auto evidence = clearestPassage(each.recording, passage, music.spans);
        ASSERT_TRUE(evidence);
        const auto hints = pitchHints(*evidence, music.spans);
        EXPECT_EQ(hints[0].listened, (HeardPart{each.focus, std::nullopt}));
        EXPECT_EQ(music.named(hints), 8);
    }
}

TEST(ClearestPassage, FollowsAWishWhateverItHears) {
    const LineAndBand music;
    const RecordingEvidence recording = music.heard(0, 1, 1, 0);
    const HeardPart wish{Focus::Left, Band{100, 6000}};
    const auto evidence = clearestPassage(recording, passage, music.spans, {wish, {}});
    ASSERT_TRUE(evidence);
    const auto hints = pitchHints(*evidence, music.spans);
    EXPECT_EQ(hints[0].listened, wish);
    EXPECT_EQ(music.named(hints), 0) << "the line is not on the left";
}

TEST(ClearestPassage, LeavesAClearLineItsWholeSpectrum) {
    const LineAndBand music;
    const RecordingEvidence recording = *RecordingEvidence::listen(AnalysisSound{music.line, {}});
    const auto evidence = clearestPassage(recording, passage, music.spans);
    ASSERT_TRUE(evidence);
    EXPECT_TRUE(evidence->part().isEverything());
    EXPECT_TRUE(pitchHints(*evidence, music.spans)[0].listened.isEverything());
}

TEST(ClearestPassage, IsNeverLessClearThanAllOfTheSpectrum) {
    // A deep hum that begins with every note.
    LineAndBand music;
    for (const Range<Seconds>& span : music.spans)
        for (const int hum : {33, 38, 40})
            addTone(music.line, span, hum, 0.5f);
    const RecordingEvidence recording = *RecordingEvidence::listen(AnalysisSound{music.line, {}});
    const auto chosen = clearestPassage(recording, passage, music.spans);
    const auto whole = recording.passage(passage);
    ASSERT_TRUE(chosen && whole);
    EXPECT_GE(clarityOf(pitchHints(*chosen, music.spans)), clarityOf(pitchHints(*whole, music.spans)));
}

TEST(ClearestPassage, StopsWhenAsked) {
    const LineAndBand music;
    std::stop_source stop;
    stop.request_stop();
    const auto evidence =
        clearestPassage(music.heard(1, 1, 1, 0), passage, music.spans, {}, stop.get_token());
    ASSERT_FALSE(evidence);
    EXPECT_EQ(evidence.error().kind, ErrorKind::Cancelled);
}

} // namespace
} // namespace earwright
