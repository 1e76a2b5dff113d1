// The marks of phrasing that a recording can bear out, and what it says to each of them.
#pragma once

#include "core/check/PhrasingMeasure.h"
#include "core/check/Verdict.h"

#include <vector>

namespace earwright {

enum class PhrasingMark {
    SlideIn,
    SlideOut,
    Grace,
    Trill,
    Slur,
    Ghost,
    Accent,
    Bend,
    Vibrato,
    SlideToNext,
    Fall,
    Scoop,
    Turn,
    Mordent
};

/// "slide", "slide-out", "grace", "trill", "slur", "ghost", "accent", "bend", "vibrato",
/// "slide-next", "fall", "scoop", "turn", "mordent".
const char* toString(PhrasingMark mark);

struct MarkAnswer {
    PhrasingMark mark;
    Verdict verdict;
    friend bool operator==(const MarkAnswer&, const MarkAnswer&) = default;
};

/// What a recording says to a note's phrasing.
struct PhrasingAnswer {
    /// Each mark that is written.
    std::vector<MarkAnswer> written;
    /// Marks that are clearly heard and not written; none of a note that is not at its pitch, which would
    /// pass for ghosted since little sounds there.
    std::vector<PhrasingMark> unwritten;
    friend bool operator==(const PhrasingAnswer&, const PhrasingAnswer&) = default;
};

/// Whether enough of its trace is clear to say where its pitch lies.
bool isPitchClear(const NotePlaying& playing);

/// What the turns of a note's pitch say to a trill over so many semitones.
Verdict trillVerdict(int semitones, const NotePlaying& playing);

/// What the way a note begins says to a slur from the note before.
Verdict slurVerdict(const NotePlaying& playing);

/// Whether a note's pitch is heard as it is written, within a quarter tone, or moves in a way that leaves it
/// (bend, trill, as written or heard). What is measured at another pitch tells nothing of this note.
bool isAtItsPitch(const Phrasing& written, const NotePlaying& playing);

/// Judges the written marks of a note by its playing. What cannot be heard well enough is unclear. Placement
/// against the beat is never judged: 30 to 40 ms behind is style.
PhrasingAnswer judgePhrasing(const Phrasing& written, const NotePlaying& playing);

} // namespace earwright
