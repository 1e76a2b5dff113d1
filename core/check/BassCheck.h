// What the bass says to a written chord.
#pragma once

#include "core/check/Verdict.h"
#include "core/listening/ChordSound.h"
#include "core/music/ChordSymbol.h"

#include <optional>

namespace earwright {

/// Whether the bass is the one that a symbol says. Note names from 0 (C) to 11.
struct BassAnswer {
    Verdict verdict = Verdict::Unclear;
    /// Chance that the bass is the expected one, 0 to 1; a half where no bass is heard.
    double score = 0.5;
    /// The bass after a slash, or else the root.
    int expected = 0;
    /// What the bass plays most as the chord begins; nothing where no bass is heard.
    std::optional<int> played{};
    /// How far that note stands out of the next strongest, from 0 (not at all) to 1 (it is alone).
    double clearness = 0;
    friend bool operator==(const BassAnswer&, const BassAnswer&) = default;
};

/// Judges the bass by what it plays as the chord begins. Under a symbol without a slash another tone of the
/// chord is at worst unclear, since a walking bass may begin there (common practice). A pure function.
BassAnswer judgeBass(const Chord& chord, const ChordSound& sound);

} // namespace earwright
