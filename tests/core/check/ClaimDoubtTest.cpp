#include "core/check/ClaimDoubt.h"

#include "core/check/Judgement.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr int written = 60;

/// Three claims in a row, the middle one written at `written`; what is heard while it lasts is set by hand.
ClaimContext threeClaims(Seconds length) {
    std::vector<Claim> claims;
    for (const int midi : {57, written, 64}) {
        const Seconds begin(0.5 + 0.5 * static_cast<double>(claims.size()));
        claims.push_back({{begin, begin + length}, midi});
    }
    const std::vector<PitchRow> nothing(claims.size());
    return {std::move(claims), ViewBlend({0}), nothing,
            nothing,           nothing,        OnsetTrack(Seconds(0), Seconds(0.01), {})};
}

void hear(ClaimContext& context, int midi, float log) {
    context.own[1][static_cast<std::size_t>(midi - lowestHeardMidi)] = log;
}

/// Features of which the first of each decides: how far the pitch leads, and how strong its onset is.
ClaimFeatures features(float pitch, float onset) {
    ClaimFeatures all;
    all.pitch[0] = pitch;
    all.onset[0] = onset;
    return all;
}

const ClaimFeatures surePitchDoubtfulOnset = features(8, -6);
const ClaimFeatures doubtfulPitch = features(-2, 0);

TEST(ClaimDoubt, IsAboutTheBeginningWhereThePitchIsSure) {
    ASSERT_GT(probabilityOfPitch(surePitchDoubtfulOnset), 0.9);
    ASSERT_LT(probabilityOfBeginning(surePitchDoubtfulOnset), 0.9);
    EXPECT_EQ(doubtAbout(threeClaims(Seconds(0.3)), 1, surePitchDoubtfulOnset), Doubt::Beginning);
}

// A held note that is written late: its onset's odds may be as good as its pitch's.
TEST(ClaimDoubt, IsAboutTheBeginningOfANoteThatOnlySoundsOn) {
    ClaimFeatures sureOfBoth = features(3, 0);
    sureOfBoth.onset[1] = 4; // far above its onsets elsewhere
    ASSERT_GT(probabilityOfPitch(sureOfBoth), 0.9);
    ASSERT_GT(probabilityOfBeginning(sureOfBoth), probabilityOfPitch(sureOfBoth));
    ClaimContext context = threeClaims(Seconds(0.3));
    EXPECT_NE(doubtAbout(context, 1, sureOfBoth), Doubt::Beginning);
    constexpr std::size_t pitch = written - lowestHeardMidi;
    context.before[1][pitch] = 9;
    context.before[1].normalise();
    OnsetTrack::Row nothing;
    nothing.fill(-12);
    nothing[OnsetTrack::noOnset] = 0;
    std::vector<OnsetTrack::Row> rows(200, nothing);
    rows[85][pitch] = -0.5f;
    context.onsets = OnsetTrack(Seconds(0), Seconds(0.01), rows);
    EXPECT_EQ(doubtAbout(context, 1, sureOfBoth), Doubt::Beginning);
}

TEST(ClaimDoubt, IsAboutTheLengthOfANoteShorterThanWhatIsListenedTo) {
    EXPECT_EQ(doubtAbout(threeClaims(Seconds(0.05)), 1, doubtfulPitch), Doubt::Short);
    EXPECT_NE(doubtAbout(threeClaims(Seconds(0.2)), 1, doubtfulPitch), Doubt::Short);
}

// Over a count of cymbals no pitch sounds, and one of them is the likeliest all the same.
TEST(ClaimDoubt, CallsNoNoteCoveredWhereNoPitchIsHeardSurely) {
    ClaimContext context = threeClaims(Seconds(0.3));
    hear(context, written, -4);
    hear(context, 67, 2);
    context.own[1].normalise();
    EXPECT_EQ(doubtAbout(context, 1, doubtfulPitch), Doubt::Faint);
    hear(context, 67, 8);
    context.own[1].normalise();
    EXPECT_EQ(doubtAbout(context, 1, doubtfulPitch), Doubt::Covered);
}

TEST(ClaimDoubt, CallsANoteCoveredOnlyWhereAnotherSoundIsStronger) {
    ClaimContext context = threeClaims(Seconds(0.3));
    EXPECT_EQ(doubtAbout(context, 1, doubtfulPitch), Doubt::Faint) << "silence covers nothing";
    hear(context, written, 2);
    EXPECT_EQ(doubtAbout(context, 1, doubtfulPitch), Doubt::Faint) << "it is the strongest itself";
    hear(context, 67, 5);
    EXPECT_EQ(doubtAbout(context, 1, doubtfulPitch), Doubt::Covered);
}

TEST(ClaimDoubt, HoldsNeitherAnOctaveNorTheNotesAroundItForACover) {
    for (const int midi : {48, 72, 57, 64}) {
        ClaimContext context = threeClaims(Seconds(0.3));
        hear(context, midi, 5);
        EXPECT_EQ(doubtAbout(context, 1, doubtfulPitch), Doubt::Faint) << midi;
    }
}

} // namespace
} // namespace earwright
