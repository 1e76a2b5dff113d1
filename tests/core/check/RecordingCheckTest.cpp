#include "core/check/RecordingCheck.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

/// Two phrases ten seconds apart, with four tones between them that nobody writes.
struct TwoPhrases {
    AnalysisSound sound{silence(Seconds(16)), {}};
    std::vector<Claim> claims;

    TwoPhrases() {
        for (const double start : {1.0, 7.0, 12.0}) {
            for (int i = 0; i < 5; ++i) {
                const Seconds begin(start + 0.3 * i);
                const Claim claim{{begin, begin + Seconds(0.26)}, 60 + 2 * i};
                addTone(sound.left, claim.range, claim.midi);
                if (start != 7.0) claims.push_back(claim);
            }
        }
    }
};

TEST(RecordingCheck, AnswersEveryClaimOfEveryPassage) {
    const TwoPhrases material;
    const auto recording = RecordingEvidence::listen(material.sound);
    ASSERT_TRUE(recording);
    const auto check = checkRecording(*recording, material.claims);
    ASSERT_TRUE(check);
    ASSERT_EQ(check->answers.size(), material.claims.size());
    for (const ClaimAnswer& answer : check->answers)
        EXPECT_EQ(answer.verdict, Verdict::Supported);
}

TEST(RecordingCheck, TellsWhereEachPassageWasListenedTo) {
    // The first phrase on the left, the last on the right, and on the other side tones that go against it.
    const TwoPhrases material;
    AnalysisSound sound{silence(Seconds(16)), silence(Seconds(16))};
    for (std::size_t i = 0; i < material.claims.size(); ++i) {
        const Claim& claim = material.claims[i];
        const bool isFirst = claim.range.begin < Seconds(5);
        addTone(isFirst ? sound.left : sound.right, claim.range, claim.midi);
        addTone(isFirst ? sound.right : sound.left, claim.range, 59 - static_cast<int>(i % 3), 0.3f);
    }
    const auto recording = RecordingEvidence::listen(sound);
    ASSERT_TRUE(recording);
    const auto check = checkRecording(*recording, material.claims);
    ASSERT_TRUE(check);
    EXPECT_EQ(check->answers.front().listened.focus, Focus::Left);
    EXPECT_EQ(check->answers.back().listened.focus, Focus::Right);

    ListeningWish wish;
    wish.part.focus = Focus::Left;
    const auto left = checkRecording(*recording, material.claims, {}, {}, wish);
    ASSERT_TRUE(left);
    EXPECT_EQ(left->answers.front().verdict, Verdict::Supported);
    EXPECT_EQ(left->answers.back().listened.focus, Focus::Left) << "the user's focus wins";
    EXPECT_NE(left->answers.back().verdict, Verdict::Supported) << "nothing of that phrase is on the left";
}

TEST(RecordingCheck, LooksForUnwrittenSoundsOnlyAroundWhatIsWritten) {
    const TwoPhrases material;
    const auto recording = RecordingEvidence::listen(material.sound);
    ASSERT_TRUE(recording);
    const auto check = checkRecording(*recording, material.claims);
    ASSERT_TRUE(check);
    EXPECT_TRUE(check->unwritten.empty()) << "the tones at 7 s lie outside both passages";
    const auto everything = checkRecording(*recording, {});
    ASSERT_TRUE(everything);
    // Without claims there is no context either: nearly all of the fifteen tones are found, and nothing else.
    EXPECT_GE(everything->unwritten.size(), 13u);
    for (const UnwrittenSound& sound : everything->unwritten)
        EXPECT_EQ(sound.midi % 2, 0) << "all tones are even";
}

TEST(RecordingCheck, StopsWhenAsked) {
    const TwoPhrases material;
    const auto recording = RecordingEvidence::listen(material.sound);
    ASSERT_TRUE(recording);
    std::stop_source stop;
    stop.request_stop();
    const auto check = checkRecording(*recording, material.claims, stop.get_token());
    ASSERT_FALSE(check);
    EXPECT_EQ(check.error().kind, ErrorKind::Cancelled);
}

} // namespace
} // namespace earwright
