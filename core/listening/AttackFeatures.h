// The numbers by which a note that was picked or tongued is told from one that was slurred.
#pragma once

#include "core/listening/NoteAttack.h"

#include <array>
#include <cstddef>

namespace earwright {

/// In five bands from 150 Hz to 9.5 kHz, dB: the onset over what follows, the gap before it, how much louder
/// it is after it, and how much faster it fades than what was before. Of the partials that only one of the
/// two notes has: how the new ones rise and fade, how the old ones do and end, how loud the new are against
/// the old, and whether both are missing between. Of NoteAttack its gap, rise, burst and steepness. And the
/// interval, its direction, and the pitch in octaves above A3.
inline constexpr std::size_t attackFeatureCount = 36;
using AttackFeatures = std::array<float, attackFeatureCount>;

/// Of a beginning that was found. Requires: question.hertzBefore.
/// Threads: any; about a millisecond.
AttackFeatures attackFeatures(const StereoViews& views, std::size_t view, const AttackQuestion& question,
                              const NoteAttack& attack);

} // namespace earwright
