// What stands on the page besides notes and chords: keys, meters, swing, tempo, dynamics, words, repeats.
#pragma once

#include "core/music/KeySignature.h"
#include "core/music/MeterMap.h"
#include "core/music/Swing.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// From this bar on another key stands.
struct KeyChange {
    std::int64_t bar = 1;
    KeySignature key;
    friend bool operator==(const KeyChange&, const KeyChange&) = default;
};

/// From this place on the line swings so, until the next change.
struct SwingChange {
    Beats at;
    Swing swing;
    friend bool operator==(const SwingChange&, const SwingChange&) = default;
};

/// A tempo as the page states it; how fast the recording goes is for its beat marks to say.
struct TempoMark {
    Beats at;
    /// "Medium blues"; may be empty where a number is given.
    std::string words;
    /// Quarters a minute, 10 to 600.
    std::optional<double> quartersPerMinute;
    friend bool operator==(const TempoMark&, const TempoMark&) = default;
};

enum class Dynamic { ppp, pp, p, mp, mf, f, ff, fff, sfz };

struct DynamicMark {
    Beats at;
    Dynamic level = Dynamic::mf;
    friend bool operator==(const DynamicMark&, const DynamicMark&) = default;
};

enum class HairpinKind { Louder, Softer };

struct Hairpin {
    Range<Beats> range;
    HairpinKind kind = HairpinKind::Louder;
    friend bool operator==(const Hairpin&, const Hairpin&) = default;
};

/// Free words over or under the line.
struct TextMark {
    Beats at;
    std::string text;
    bool below = false;
    friend bool operator==(const TextMark&, const TextMark&) = default;
};

/// Bars that are played more than once. The last `endingBars` of them stand under a first ending, the bars
/// behind them under the second; without endings that is 0.
struct Repeat {
    std::int64_t firstBar = 1;
    std::int64_t lastBar = 12;
    /// 2 to 99.
    int times = 2;
    int endingBars = 0;
    friend bool operator==(const Repeat&, const Repeat&) = default;
};

/// Everything of this kind in a study. Invariants: each list is in order of place, keys, meters, swings,
/// tempos and dynamics stand once at a place, meters from bar 2 on, repeats do not overlap, and the pickup is
/// one that fits its bar (isUsablePickup).
struct PageMarks {
    std::vector<KeyChange> keys;
    std::vector<MeterChange> meters;
    std::vector<SwingChange> swings;
    std::vector<TempoMark> tempos;
    std::vector<DynamicMark> dynamics;
    std::vector<Hairpin> hairpins;
    std::vector<TextMark> texts;
    std::vector<Repeat> repeats;
    /// How long the bar before bar 1 is on the page; without it, and where notes begin earlier, it begins
    /// with the beat of the first note.
    std::optional<Beats> pickup;
    friend bool operator==(const PageMarks&, const PageMarks&) = default;

    /// C major where nothing is said. A pickup, and all before bar 1, has the key of bar 1.
    KeySignature keyAt(std::int64_t bar) const;
    /// Even where nothing is said.
    Swing swingAt(const Beats& place) const;
};

} // namespace earwright
