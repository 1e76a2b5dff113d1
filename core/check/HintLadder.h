// Help in steps for one place the check found wanting; never says more than its step.
#pragma once

#include "core/check/PhraseCheck.h"
#include "core/study/EarRecord.h"

#include <optional>
#include <vector>

namespace earwright {

/// What kind of thing is off; told from the second step on.
enum class PlaceKind {
    WrongPitch,   ///< a written note, and the recording has another pitch, which may not be known
    NothingThere, ///< a written note where no note of the line begins: extra, too early or too late
    Unclear,      ///< a written note of which cannot be told whether it is right
    Unwritten,    ///< a sound of the line with no note
    OtherTrill,   ///< a written trill, and the recording's goes to another note
    MissingTrill, ///< a written note, and the recording has a trill there
    MovedRun,     ///< several written notes that all begin as much earlier or later
    OctaveRun,    ///< several written notes that all sound an octave away
};

/// One place that is off, in the order of the recording.
struct CheckedPlace {
    PlaceKind kind = PlaceKind::WrongPitch;
    Range<Seconds> range;
    /// The written note; none for an unwritten sound; of a run its first one.
    std::optional<NoteId> note;
    /// The written pitch, if any, and the pitch the recording supports, if known. Of a trill its other note.
    std::optional<int> writtenMidi;
    std::optional<int> heardMidi;
    /// Where a note begins instead of here, if anywhere near.
    std::optional<Seconds> beginsAt = std::nullopt;
    /// What is left open of an unclear note, or of a trill.
    std::optional<Doubt> doubt = std::nullopt;
    /// How far behind its place a written note was judged.
    Seconds behind{0};
    /// Of a trill: over how many semitones the recording has it.
    std::optional<int> trillHeard = std::nullopt;
    /// Of a wrong pitch: what is heard there is not surely the line's.
    bool mayBeBand = false;
    /// Of a run: all of its notes that are still as they were checked, and what is off about them.
    std::vector<NoteId> notes = {};
    std::optional<OffTogether> together = std::nullopt;

    /// Whether it is the place of a written note, or of a run with that note in it.
    bool isAbout(NoteId id) const;
    friend bool operator==(const CheckedPlace&, const CheckedPlace&) = default;
};

/// What a step lets through. Fields a step may not tell are empty.
struct Hint {
    HelpStep step = HelpStep::None;
    Range<Seconds> range;
    /// From the first step, since it says where: how many notes of a run are off together; else nought.
    int notes = 0;
    /// From the first step, since its head says so: an unclear note or trill, which need not be wrong.
    bool isUnsure = false;
    /// From step WhichWay: what kind of thing, and −1 (lower), +1 (higher) or 0 (same or not known). An
    /// octave is how far already: of a run that is off by one the direction is told from step HowFar.
    std::optional<PlaceKind> kind;
    std::optional<int> direction;
    /// From step HowFar: semitones from the written pitch; for an unwritten sound from the written note
    /// before it, for a trill from the other note that is written.
    std::optional<int> semitones;
    /// From step HowFar, where nothing begins: whether the note, or the run, begins earlier (−1) or later
    /// (+1); empty if it is rather extra.
    std::optional<int> moved;
    /// From step WhichWay: what is left open of an unclear note.
    std::optional<Doubt> doubt = std::nullopt;
    /// From step HowFar: over how many semitones the recording has the trill.
    std::optional<int> trillHeard = std::nullopt;
    /// From step WhichWay: what is heard instead may be the band, and the note be one too many.
    bool mayBeBand = false;
    /// At step ShowIt only.
    std::optional<int> heardMidi;
    std::optional<Seconds> beginsAt = std::nullopt;
    /// With beginsAt: how far that lies behind where the note was judged; ahead is negative. Of a run in the
    /// middle of its notes.
    std::optional<Seconds> apart = std::nullopt;
    /// The same of a run as a step of the page, where it is one.
    std::optional<Beats> apartInBeats = std::nullopt;
    friend bool operator==(const Hint&, const Hint&) = default;
};

/// The places of a check that are not supported, by time.
std::vector<CheckedPlace> placesOf(const PhraseCheck& check);
/// What the given step says of a place. `before` is the written pitch before an unwritten sound, if any.
Hint hintAt(const CheckedPlace& place, HelpStep step, std::optional<int> before = std::nullopt);

} // namespace earwright
