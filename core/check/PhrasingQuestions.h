// Where and in which view the beginnings of a passage's notes are looked for.
#pragma once

#include "core/check/PhrasingClaim.h"
#include "core/listening/NoteAttack.h"
#include "core/listening/StereoViews.h"
#include "core/listening/TuningCurve.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// Whether a claim begins where the one before it ends, or at most 150 ms later: after a longer rest nothing
/// is slurred. Requires: claims rise by onset.
bool followsOn(const std::vector<PhrasingClaim>& claims, std::size_t index);

/// Whether the claim before may be slurred to it: it follows on, at another pitch, and they are no double
/// stop. Requires: claims rise by onset.
bool mayBeSlurred(const std::vector<PhrasingClaim>& claims, std::size_t index);

/// About each claim's beginning. Requires: claims rise by onset.
std::vector<AttackQuestion> attackQuestions(const TuningCurve& tuning,
                                            const std::vector<PhrasingClaim>& claims);

/// The view in which the claims' pitches stand out most.
std::size_t clearestView(const StereoViews& views, const TuningCurve& tuning,
                         const std::vector<PhrasingClaim>& claims);

} // namespace earwright
