// What one line sounds like beyond what all lines have in common.
#pragma once

#include "core/listening/PartialFeatures.h"
#include "core/listening/PitchRow.h"

#include <array>

namespace earwright {

/// How much more each feature of a span's sound speaks for a pitch in this line than in any: the second
/// partial of one player's trumpet, the breath between the partials of another's tenor. Plain where nothing
/// is known.
///
/// Threads: a plain value.
struct LineColour {
    std::array<float, soundFeatureCount> weights{};

    bool isPlain() const;
    /// What it adds to each pitch's log probability, up to a constant; nothing in silence.
    PitchRow addsTo(const SpanLevels& heard) const;
    /// The same where the features are at hand.
    PitchRow addsTo(const SoundColumns& features) const;
    friend bool operator==(const LineColour&, const LineColour&) = default;
};

} // namespace earwright
