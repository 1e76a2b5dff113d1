// What the check of one phrase found: an answer for each written note, and the sounds with no note.
#pragma once

#include "core/check/Claim.h"
#include "core/check/Feel.h"
#include "core/check/Verdict.h"
#include "core/listening/HeardPart.h"
#include "core/music/Note.h"
#include "core/music/Span.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>
#include <vector>

namespace earwright {

/// The answer for one written note.
struct CheckedNote {
    NoteId note;
    Range<Seconds> range;
    int midi = 60;
    Verdict verdict = Verdict::Unclear;
    /// Probability that the note is right (pitch, with an onset of the line within 50 ms), 0 to 1.
    double score = 0;
    /// The pitch the recording supports instead; MIDI number counted from the recording's own tuning.
    std::optional<int> suggestedMidi = std::nullopt;
    /// No note of the line begins here: this one is extra, or written too early or too late.
    bool nothingBegins = false;
    /// Where its pitch begins instead, in the recording, if that is near and not written.
    std::optional<Seconds> beginsAt = std::nullopt;
    /// Where in the recording it was listened for mostly.
    HeardPart listened = {};
    /// How far behind its place (ahead: negative) it was judged, the line's usual lag taken off: the eighths
    /// swing, or it is played early or late. Where it is supported it was found to begin there. That is
    /// style, never a mistake.
    Seconds behind{0};
    /// Where it was judged.
    Seconds begins() const { return range.begin + behind; }
    /// What is left open where it is unclear.
    std::optional<Doubt> doubt = std::nullopt;
    /// How probable the suggested pitch is, 0 to 1; 1 where nothing tells.
    double suggestedScore = 1;
    /// Where it is one of a run whose notes are all off in the same way.
    std::optional<OffTogether> together = std::nullopt;
    friend bool operator==(const CheckedNote&, const CheckedNote&) = default;
};

/// A sound of the line where nothing is written.
struct UnwrittenSound {
    Range<Seconds> range;
    int midi = 60;
    /// Probability that there is such a note, 0 to 1.
    double score = 0;
    friend bool operator==(const UnwrittenSound&, const UnwrittenSound&) = default;
};

/// A written trill that goes to another note in the recording, or a note that is written without one.
struct OtherTrill {
    NoteId note;
    /// Of the note, as it was checked.
    Range<Seconds> range;
    int midi = 60;
    /// Semitones up from the note to the other one: as it is written (0: no trill is), and as it is heard.
    int written = 2;
    int heard = 1;
    /// Contradicted, or unclear where the turns cannot be measured.
    Verdict verdict = Verdict::Contradicted;
    friend bool operator==(const OtherTrill&, const OtherTrill&) = default;
};

/// The check of one phrase as it stood when it was asked for.
struct PhraseCheck {
    SpanId phrase;
    std::vector<CheckedNote> notes;
    std::vector<UnwrittenSound> unwritten;
    /// Of notes that are not contradicted themselves. Their sounds are not listed as unwritten.
    std::vector<OtherTrill> otherTrills = {};
    /// The user had said where to listen.
    bool listenedAsAsked = false;
    /// How far its eighths swing where they are written evenly; nothing where they do not, where too few
    /// tell, or where the study says already how they swing. Of a phrase alone: checkStudy() tells none.
    std::optional<SwingFeel> unwrittenSwing = std::nullopt;
    friend bool operator==(const PhraseCheck&, const PhraseCheck&) = default;

    const CheckedNote* note(NoteId id) const;
    const OtherTrill* otherTrill(NoteId id) const;
    int count(Verdict verdict) const;
    /// Where was listened; nothing without notes.
    std::optional<HeardPart> listened() const;
};

} // namespace earwright
