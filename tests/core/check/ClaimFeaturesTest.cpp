#include "core/check/ClaimFeatures.h"

#include "tests/core/listening/SyntheticSound.h"

#include <cmath>
#include <gtest/gtest.h>
#include <utility>

namespace earwright {
namespace {

using namespace tests;

constexpr int midi = 60;

/// Two claims over a track in which nothing begins: the first of them of the pitch that is asked about.
ClaimContext twoClaims(const Range<Seconds>& first, const Range<Seconds>& second) {
    OnsetTrack::Row nothing;
    nothing.fill(-12);
    nothing[OnsetTrack::noOnset] = 0;
    return {{{first, midi}, {second, midi + 2}},
            ViewBlend({0.0}),
            {},
            {},
            {},
            OnsetTrack(0.0_s, 0.01_s, std::vector(300, nothing))};
}

/// The context with another probability at one place of the track: of an onset of a pitch, or of none.
ClaimContext withProbability(ClaimContext context, Seconds time, std::size_t of, double probability) {
    std::vector<OnsetTrack::Row> rows;
    for (std::size_t place = 0; place < context.onsets.size(); ++place)
        rows.push_back(context.onsets[place]);
    rows[context.onsets.nearest(time)][of] = static_cast<float>(std::log(probability));
    context.onsets = OnsetTrack(0.0_s, 0.01_s, rows);
    return context;
}

ClaimContext withOnsetAt(ClaimContext context, Seconds time, double probability) {
    return withProbability(std::move(context), time, midi - lowestHeardMidi, probability);
}

TEST(SoundingOn, IsWhatWasStruckUpToHalfASecondAgo) {
    EXPECT_TRUE(soundsOnFromBefore(twoClaims({1.0_s, 1.2_s}, {1.2_s, 1.4_s}), 1, midi));
    EXPECT_TRUE(soundsOnFromBefore(twoClaims({1.0_s, 1.48_s}, {1.48_s, 1.6_s}), 1, midi));
    EXPECT_FALSE(soundsOnFromBefore(twoClaims({1.0_s, 1.6_s}, {1.6_s, 1.8_s}), 1, midi));
}

TEST(SoundingOn, IsNoOtherPitchAndNothingBeforeTheFirstNote) {
    const ClaimContext context = twoClaims({1.0_s, 1.2_s}, {1.2_s, 1.4_s});
    EXPECT_FALSE(soundsOnFromBefore(context, 1, midi + 1));
    EXPECT_FALSE(soundsOnFromBefore(context, 0, midi));
}

TEST(SoundingOn, IsNotWhatIsWrittenAsOver) {
    EXPECT_TRUE(soundsOnFromBefore(twoClaims({1.0_s, 1.18_s}, {1.2_s, 1.4_s}), 1, midi));
    EXPECT_FALSE(soundsOnFromBefore(twoClaims({1.0_s, 1.1_s}, {1.2_s, 1.4_s}), 1, midi));
}

TEST(SoundingOn, IsNotWhatBeginsAnew) {
    const ClaimContext context = twoClaims({1.0_s, 1.2_s}, {1.2_s, 1.4_s});
    EXPECT_FALSE(soundsOnFromBefore(withOnsetAt(context, 1.21_s, 0.8), 1, midi));
    EXPECT_TRUE(soundsOnFromBefore(withOnsetAt(context, 1.21_s, 0.3), 1, midi));
    EXPECT_TRUE(soundsOnFromBefore(withOnsetAt(context, 1.0_s, 0.8), 1, midi)) << "the first one's own";
}

/// A claim behind one of another pitch, whose own began 150 ms before it and has sounded since.
ClaimContext lateClaim() {
    ClaimContext context = withOnsetAt(twoClaims({1.15_s, 1.6_s}, {2.0_s, 2.2_s}), 1.0_s, 0.6);
    context.claims.insert(context.claims.begin(), {{0.5_s, 0.9_s}, midi - 3});
    context.before.assign(context.claims.size(), PitchRow{});
    for (PitchRow& row : context.before)
        row.normalise();
    PitchRow sounding;
    sounding[midi - lowestHeardMidi] = 9;
    sounding.normalise();
    context.before[1] = sounding;
    return context;
}

TEST(HeldFromBefore, IsANoteWrittenWhereItOnlySoundsOn) {
    EXPECT_TRUE(isHeldFromBefore(lateClaim(), 1));
}

TEST(HeldFromBefore, IsNoneWhosePitchWasNotHeardBefore) {
    ClaimContext context = lateClaim();
    context.before[1] = context.before[0];
    EXPECT_FALSE(isHeldFromBefore(context, 1));
}

// An attack may be soft: it need not be the line's surest, only as clear as any other of the pitch nearby.
TEST(HeldFromBefore, IsNoneThatBeginsAtItsPlaceAsClearlyAsElsewhere) {
    EXPECT_FALSE(isHeldFromBefore(withOnsetAt(lateClaim(), 1.16_s, 0.4), 1));
    EXPECT_TRUE(isHeldFromBefore(withOnsetAt(lateClaim(), 1.16_s, 0.2), 1));
}

TEST(HeldFromBefore, IsNoneWhereAnythingSurelyBegins) {
    const ClaimContext context = withProbability(lateClaim(), 1.15_s, OnsetTrack::noOnset, 0.2);
    EXPECT_FALSE(isHeldFromBefore(context, 1));
}

TEST(HeldFromBefore, IsNoneThatRepeatsTheNoteBeforeIt) {
    ClaimContext context = lateClaim();
    context.claims[0].midi = midi;
    EXPECT_FALSE(isHeldFromBefore(context, 1)) << "it may still ring";
    context.claims[0].range.end = 0.8_s;
    EXPECT_TRUE(isHeldFromBefore(context, 1)) << "it has long been over";
}

/// A claim written 150 ms before its pitch begins, with as much of it here as the probability says.
ClaimContext earlyClaim(double here) {
    ClaimContext context = withOnsetAt(twoClaims({1.0_s, 1.6_s}, {2.0_s, 2.2_s}), 1.15_s, 0.4);
    return withOnsetAt(std::move(context), 1.0_s, here);
}

TEST(BeginningElsewhere, IsWhatBeginsFourToFiveTimesAsProbablyNearby) {
    EXPECT_TRUE(beginsRatherElsewhere(earlyClaim(0.05), 0));
    EXPECT_FALSE(beginsRatherElsewhere(earlyClaim(0.15), 0));
}

TEST(BeginningElsewhere, IsNotWhatAnotherClaimAccountsFor) {
    ClaimContext context = earlyClaim(0.05);
    context.claims[1] = {{1.15_s, 1.6_s}, midi};
    EXPECT_FALSE(beginsRatherElsewhere(context, 0));
}

TEST(BeginningElsewhere, IsNotTheFlankOfANoteThatIsPlayedLate) {
    ClaimContext context = earlyClaim(0.05);
    context.claims.insert(context.claims.begin(), {{0.79_s, 0.9_s}, midi});
    context = withOnsetAt(withOnsetAt(std::move(context), 1.15_s, 1e-5), 0.86_s, 0.4);
    EXPECT_FALSE(beginsRatherElsewhere(context, 1));
    EXPECT_FALSE(onsetElsewhere(context, 1));
    context.claims[0].range.begin = 0.70_s;
    EXPECT_TRUE(beginsRatherElsewhere(context, 1));
}

TEST(BeginningElsewhere, IsNotWhatIsWrittenWhereSomethingBegins) {
    const ClaimContext context = withProbability(earlyClaim(0.05), 1.0_s, OnsetTrack::noOnset, 0.4);
    EXPECT_FALSE(beginsRatherElsewhere(context, 0));
}

TEST(OutOfPlace, IsWhatBeginsElsewhereUnlessItsSignsAccountForThat) {
    ClaimContext early = earlyClaim(0.05);
    early.before.assign(early.claims.size(), lateClaim().before[0]); // nothing sounded
    EXPECT_TRUE(isOutOfPlace(early, 0));
    early.claims[0].isOrnamented = true;
    EXPECT_FALSE(isOutOfPlace(early, 0)) << "a trill comes back to its note";
    early.claims[0].isOrnamented = false;
    early.claims[0].isGhosted = true;
    EXPECT_FALSE(isOutOfPlace(early, 0)) << "it begins faintly";
    ClaimContext late = lateClaim();
    EXPECT_TRUE(isOutOfPlace(late, 1));
    late.claims[1].isOrnamented = true;
    EXPECT_FALSE(isOutOfPlace(late, 1));
}

} // namespace
} // namespace earwright
