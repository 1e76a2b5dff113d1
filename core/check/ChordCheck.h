// What comping and bass say to a written chord.
#pragma once

#include "core/check/Verdict.h"
#include "core/listening/ChordSound.h"
#include "core/music/ChordSymbol.h"

#include <optional>
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
    /// What the bass plays, where that is clear and neither the chord's root nor its written bass.
    std::optional<int> bass{};
    /// The root, or the bass after a slash, where that is what the bass plays most as the chord begins.
    std::optional<int> ownBass{};
    friend bool operator==(const ChordAnswer&, const ChordAnswer&) = default;
};

/// Judges a chord by its third, fifth and seventh, as far as its symbol says them; tensions are not judged,
/// nor is a bass after a slash, which at worst leaves its chord unclear. A pure function.
ChordAnswer judgeChord(const Chord& chord, const ChordSound& sound);

} // namespace earwright
