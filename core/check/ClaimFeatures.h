// The few numbers a claim is judged by.
#pragma once

#include "core/check/ClaimContext.h"

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

inline constexpr std::size_t claimPitchFeatureCount = 6;
inline constexpr std::size_t claimOnsetFeatureCount = 4;
inline constexpr std::size_t suggestionFeatureCount = 8;

/// What speaks for and against a claim, apart for its pitch and for its onset: a tone that still rings is the
/// right pitch and yet no note that begins.
struct ClaimFeatures {
    /// How far its pitch leads all others with and without what the neighbours say, how probable it is, its
    /// distance from the register of its neighbours, its length, and the strongest onset of its pitch within
    /// 50 ms.
    std::array<float, claimPitchFeatureCount> pitch{};
    /// The strongest onset of any pitch within 50 ms, how far its own stands above those 70 to 240 ms away
    /// that no other claim accounts for, its length, and whether its pitch sounded before, which no claim of
    /// it accounts for.
    std::array<float, claimOnsetFeatureCount> onset{};
};

/// One row a claim.
std::vector<ClaimFeatures> claimFeatures(const ClaimContext& context);

/// Another pitch that may be what was played at a claim, and what speaks for that.
struct Suggestion {
    int midi = 60;
    /// How probable it is and how far it leads, its strongest onset within 50 ms and that of any pitch, how
    /// far its own stands above those elsewhere, whether it sounded before, the claim's length, and how far
    /// the claimed pitch's onset stands above its onsets elsewhere.
    std::array<float, suggestionFeatureCount> features{};
};

/// The likeliest pitch in place of a claim's, but none that another claim within 60 ms names already.
Suggestion suggestionFor(const ClaimContext& context, std::size_t claim);

/// Probability that any note of the line begins within 50 ms of a claim's onset, as the onsets alone say.
double onsetProbability(const ClaimContext& context, std::size_t claim);

/// Whether a pitch that would be suggested for a claim is that of the claim before, which sounds on: up to
/// half a second earlier, not written as over by then (by 40 ms or more), and no onset of it is heard here
/// that is not that claim's own.
bool soundsOnFromBefore(const ClaimContext& context, std::size_t claim, int midi);

/// Whether a claim's own pitch sounded 45 to 115 ms before it, which no claim of that pitch accounts for, and
/// began twice as probably 70 to 240 ms away as here, where more likely than not nothing begins: a held note
/// that is written late looks so, and its pitch alone would bear it out.
bool isHeldFromBefore(const ClaimContext& context, std::size_t claim);

/// Whether more likely than not nothing begins at a claim, and its pitch begins four to five times as
/// probably 70 to 240 ms away, where no other claim of it is: a long note that is written early looks so.
bool beginsRatherElsewhere(const ClaimContext& context, std::size_t claim);

/// Whether its pitch may bear a claim out that does not begin there: one that repeats the pitch before it,
/// which only sounds on, as where one held note is written as two; or either of the two above, unless its
/// pitch rises there as one that is struck. Where attacks are soft a sure pitch would outweigh the odds of
/// the onset. Not where the claim is ghosted, or its signs move its pitch.
bool isOutOfPlace(const ClaimContext& context, std::size_t claim);

/// Where a note of the claim's pitch more likely than not begins, 70 to 240 ms away and more clearly than at
/// the claim itself, if no other claim accounts for it.
std::optional<Seconds> onsetElsewhere(const ClaimContext& context, std::size_t claim);

} // namespace earwright
