#include "core/check/PhrasingMark.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <utility>

namespace earwright {
namespace {

/// A clear note of half a second, bent up by a whole tone and then shaken.
NotePlaying bentAndShaken() {
    NotePlaying playing;
    playing.heard = {Seconds(1), Seconds(1.5)};
    playing.begins = true;
    playing.pitch.clearShare = 1;
    playing.pitch.bendCents = 190;
    playing.pitch.vibrato = HeardVibrato{5.5, 30, 0.9};
    return playing;
}

/// The same, held still.
NotePlaying still() {
    NotePlaying playing = bentAndShaken();
    playing.pitch.bendCents.reset();
    playing.pitch.vibrato.reset();
    for (Seconds time = playing.heard.begin; time < playing.heard.end; time += PitchTrace::step)
        playing.contour.push_back({time, 3, 0.8});
    return playing;
}

Phrasing bendAndVibrato(int quarterTones = 4) {
    Phrasing written;
    written.bend = Bend{quarterTones, BendShape::Up};
    written.vibrato = true;
    return written;
}

TEST(PhrasingMarks, OfABendAndAVibratoAreSupportedWhereTheyAreHeard) {
    const std::vector<MarkAnswer> both{{PhrasingMark::Bend, Verdict::Supported},
                                       {PhrasingMark::Vibrato, Verdict::Supported}};
    EXPECT_EQ(judgePhrasing(bendAndVibrato(), bentAndShaken()).written, both);
}

TEST(PhrasingMarks, OfABendAndAVibratoAreContradictedByAPitchThatStandsStill) {
    const std::vector<MarkAnswer> neither{{PhrasingMark::Bend, Verdict::Contradicted},
                                          {PhrasingMark::Vibrato, Verdict::Contradicted}};
    EXPECT_EQ(judgePhrasing(bendAndVibrato(), still()).written, neither);
    NotePlaying covered = still();
    covered.pitch.clearShare = 0.2;
    for (const MarkAnswer& answer : judgePhrasing(bendAndVibrato(), covered).written)
        EXPECT_EQ(answer.verdict, Verdict::Unclear);
}

TEST(PhrasingMarks, LeaveABendOfAnotherSizeOpen) {
    EXPECT_EQ(judgePhrasing(bendAndVibrato(2), bentAndShaken()).written.front().verdict, Verdict::Unclear);
}

TEST(PhrasingMarks, AreListedAsUnwrittenOnlyWhereTheyAreNotWritten) {
    EXPECT_EQ(judgePhrasing({}, bentAndShaken()).unwritten,
              (std::vector{PhrasingMark::Bend, PhrasingMark::Vibrato}));
    EXPECT_TRUE(judgePhrasing(bendAndVibrato(), bentAndShaken()).unwritten.empty());
}

TEST(PhrasingMarks, NeverListAnAccentForALoudNoteAlone) {
    NotePlaying loud = still();
    loud.loudnessDb = 9;
    EXPECT_TRUE(judgePhrasing({}, loud).unwritten.empty());
}

TEST(PhrasingMark, IsNotHeardOfANoteThatSoundsAtAnotherPitch) {
    NotePlaying soft = still();
    soft.loudnessDb = -12;
    EXPECT_EQ(judgePhrasing({}, soft).unwritten, std::vector{PhrasingMark::Ghost});
    soft.pitch.centreCents = 102;
    EXPECT_TRUE(judgePhrasing({}, soft).unwritten.empty()) << "where a semitone higher is played";
}

/// A still note that is slurred from the one before with a chance.
NotePlaying slurredBy(double chance) {
    NotePlaying playing = still();
    playing.slurChance = chance;
    return playing;
}

TEST(PhrasingMarks, OfASlurAreAnsweredByHowTheNoteBegins) {
    Phrasing slurred;
    slurred.slurred = true;
    for (const auto& [chance, verdict] : {std::pair{0.02, Verdict::Contradicted},
                                          {0.3, Verdict::Unclear},
                                          {0.7, Verdict::Supported},
                                          {0.99, Verdict::Supported}}) {
        const std::vector expected{MarkAnswer{PhrasingMark::Slur, verdict}};
        EXPECT_EQ(judgePhrasing(slurred, slurredBy(chance)).written, expected) << chance;
        EXPECT_TRUE(judgePhrasing(slurred, slurredBy(chance)).unwritten.empty()) << "it is written";
    }
}

TEST(PhrasingMarks, ListASlurThatIsNotWrittenOnlyWhereItIsSurelyHeard) {
    EXPECT_EQ(judgePhrasing({}, slurredBy(0.98)).unwritten, std::vector{PhrasingMark::Slur});
    EXPECT_TRUE(judgePhrasing({}, slurredBy(0.8)).unwritten.empty());
    NotePlaying covered = slurredBy(0.98);
    covered.pitch.clearShare = 0.2;
    EXPECT_TRUE(judgePhrasing({}, covered).unwritten.empty());
}

TEST(PhrasingMarks, ListNoSlurOfANoteThatIsLedIntoAnotherWay) {
    Phrasing slid, graced, scooped;
    slid.slideIn = SlideFrom::Below;
    graced.graceNotes = {59};
    scooped.scoop = true;
    for (const Phrasing& written : {slid, graced, scooped})
        EXPECT_TRUE(judgePhrasing(written, slurredBy(0.98)).unwritten.empty());
    NotePlaying slidTo = slurredBy(0.98);
    slidTo.isSlidTo = true;
    EXPECT_TRUE(judgePhrasing({}, slidTo).unwritten.empty());
}

} // namespace
} // namespace earwright
