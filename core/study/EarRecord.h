// What was found by ear and what with help, place by place; the study keeps it so that practice shows.
#pragma once

#include "core/music/Note.h"
#include "core/music/Span.h"
#include "core/time/Seconds.h"

#include <chrono>
#include <optional>
#include <vector>

namespace earwright {

/// A day of the user's calendar; whoever keeps the record says which it is.
using Day = std::chrono::sys_days;

/// How much of the hint ladder was opened for a place.
enum class HelpStep { None = 0, SomethingOff = 1, WhichWay = 2, HowFar = 3, ShowIt = 4 };

/// What was wrong with a note when a check first found it wanting.
enum class Mistake {
    Octave,   ///< the right name, some octaves off
    Semitone, ///< a semitone off
    Pitch,    ///< another pitch, or one the recording does not tell
    Rhythm,   ///< nothing of the line begins there: extra, too early or too late
    Missing   ///< a sound of the line with no note
};

/// A place that a check found contradicted or unwritten, or for which help was opened, and what became of it.
struct EarPlace {
    Seconds time;
    HelpStep help = HelpStep::None;
    /// A later check of the phrase supports what is written there now.
    bool settled = false;
    /// When last found wanting, a sound with no note; otherwise a written note that was contradicted.
    bool unwritten = false;
    /// When first found wanting; none for a place that only help was opened for, and in older files.
    std::optional<Mistake> mistake = std::nullopt;
    /// The written note that was found wanting last, wherever it is moved.
    std::optional<NoteId> note = std::nullopt;
    friend bool operator==(const EarPlace&, const EarPlace&) = default;

    /// Contradicted or unwritten before, supported now, and no step of the ladder opened for it.
    bool foundByEar() const { return settled && help == HelpStep::None; }
};

/// A written note that a check supports: it is found.
struct FoundNote {
    Seconds time;
    NoteId note;
    /// Of the check that first supported it.
    Day day;
    /// The highest step of help that was opened for its place before.
    HelpStep help = HelpStep::None;
    /// Semitones from the note before it in the phrase; none for the first.
    std::optional<int> interval = std::nullopt;
    /// What was wrong with it first; none where it was right at once.
    std::optional<Mistake> mistake = std::nullopt;
    friend bool operator==(const FoundNote&, const FoundNote&) = default;

    bool isUnaided() const { return help == HelpStep::None; }
};

/// What the checks of one phrase have found so far. Edits before its first check don't count: there is no
/// entry until then.
struct PhraseRecord {
    SpanId phrase;
    std::vector<EarPlace> places;
    /// In the order of the recording.
    std::vector<FoundNote> found = {};
    friend bool operator==(const PhraseRecord&, const PhraseRecord&) = default;
};

struct EarRecord {
    std::vector<PhraseRecord> phrases;
    friend bool operator==(const EarRecord&, const EarRecord&) = default;
    int foundByEar() const;
    int foundWithHelp() const;
};

} // namespace earwright
