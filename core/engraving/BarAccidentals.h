// Which notes need an accidental before them, bar by bar.
#pragma once

#include "core/engraving/PageView.h"
#include "core/music/KeySignature.h"

#include <map>
#include <optional>

namespace earwright {

/// An accidental before a head.
struct HeadSign {
    /// Semitones: −2 to 2, 0 for a natural.
    int alter = 0;
    /// A reminder that could be left out: shown in parentheses.
    bool isCautionary = false;
    friend bool operator==(const HeadSign&, const HeadSign&) = default;
};

/// An accidental holds for its letter and octave until the bar ends, and over a bar line into a tied note
/// only (common practice). Where a letter and octave was altered in the bar before, also by a tie from
/// further back, and is as the key has it now, the first note of it is told again, by a cautionary accidental
/// (Gould, "Behind Bars", from memory; in parentheses as copyists of jazz have it, common practice).
///
/// Threads: a value.
class BarAccidentals {
public:
    /// The next bar, under this key as the page's reader has it.
    void startBar(const KeySignature& standing);
    /// The sign of a note that comes next in the bar; none where nothing has to be shown, nor before one that
    /// is tied from the note before.
    std::optional<HeadSign> signOf(const ReadPitch& pitch, bool isTied);
    /// Semitones that hold for a letter and octave at this place of the bar.
    int standingAt(const ReadPitch& pitch) const;

private:
    /// By ReadPitch::letters().
    using Alterations = std::map<int, int>;

    KeySignature key;
    /// What was shown in this bar, or needed nothing shown.
    Alterations standing;
    /// What sounded last in this bar where it was not as the key has it, and in the bar before.
    Alterations altered;
    Alterations alteredBefore;
};

} // namespace earwright
