// What comping and bass say to a written chord.
#pragma once

#include "core/check/BassCheck.h"
#include "core/check/Verdict.h"
#include "core/listening/ChordSound.h"
#include "core/music/ChordSymbol.h"

#include <vector>

namespace earwright {

/// The answer for one chord. Note names from 0 (C) to 11.
struct ChordAnswer {
    Verdict verdict = Verdict::Unclear;
    /// Chance that the chord is right in root, third, fifth and seventh, 0 to 1.
    double score = 0;
    /// Its tones that are plainly heard, whatever the verdict, from the root up.
    std::vector<int> heard{};
    /// Where it is not supported: what is heard and no tone of the chord, strongest first, three at most.
    std::vector<int> heardAgainst{};
    /// Its third, fifth or seventh that are not heard.
    std::vector<int> missing{};
    /// Whether the bass is the one the symbol says.
    BassAnswer bass{};
    friend bool operator==(const ChordAnswer&, const ChordAnswer&) = default;
};

/// Judges a chord by its third, fifth and seventh, as far as its symbol says them, and its bass by itself;
/// tensions are not judged. Under a symbol with a slash the chord is told without what the bass plays as it
/// begins. A pure function.
ChordAnswer judgeChord(const Chord& chord, const ChordSound& sound);

/// Of a chord and its bass together: contradicted where either is, else what the chord itself is.
Verdict verdictOf(const ChordAnswer& answer);

} // namespace earwright
