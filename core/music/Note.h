// One written note, with everything a musician says about how it is played.
#pragma once

#include "core/music/Bend.h"
#include "core/music/Pitch.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <vector>

namespace earwright {

/// Where a slide comes from, or goes to, when it is not the neighbouring note.
enum class SlideFrom { Below, Above };
enum class SlideTo { Up, Down };

/// How a slur is made by the left hand, where it is said. Horn players just slur.
enum class SlurBy { HammerOn, PullOff };

/// The neighbour a mordent touches. The lower one has the stroke through its sign.
enum class Mordent { Lower, Upper };
/// Which neighbour a turn starts with: the upper one, or (inverted) the lower one.
enum class Turn { FromAbove, FromBelow };

/// How a note is played. Everything absent is a plain, picked note. Neighbours of turns and mordents are
/// those of the key at the note.
struct Phrasing {
    std::optional<SlideFrom> slideIn;
    std::optional<SlideTo> slideOut;
    /// The finger slides on to the next note, which is slurred or picked as it says itself.
    bool slidesToNext = false;
    /// Pitches sounded quickly before the note and stealing their time from it, in order; MIDI numbers.
    std::vector<int> graceNotes;
    /// Semitones up to the trill's other note, 1 to 4.
    std::optional<int> trill;
    std::optional<Turn> turn;
    std::optional<Mordent> mordent;
    /// This note is not picked but slurred from the one before.
    bool slurred = false;
    /// Only where slurred.
    std::optional<SlurBy> slurBy;
    /// This note stands under the slur of the one before and yet is picked. Never together with slurred.
    bool pickedInSlur = false;
    std::optional<Bend> bend;
    bool vibrato = false;
    /// Falls off at its end, far down and without a goal; a short slide down is slideOut.
    bool fall = false;
    /// Bent up into from about a semitone below, with the breath or the lip; a finger's is slideIn.
    bool scoop = false;
    /// Never together with accented.
    bool ghosted = false;
    bool accented = false;
    bool staccato = false;
    bool tenuto = false;
    /// Sounds on after its length, until its string is needed or it has died away.
    bool letRing = false;

    friend bool operator==(const Phrasing&, const Phrasing&) = default;
};

/// Names a note for as long as the study lives; never used twice.
struct NoteId {
    std::uint64_t value = 0;
    friend auto operator<=>(const NoteId&, const NoteId&) = default;
};

/// A note as written. Its length may cross beats and bars: ties are how such a length is drawn.
struct Note {
    NoteId id;
    Beats onset;
    /// Greater than zero.
    Beats length;
    Pitch pitch;
    /// 0 (inaudible) to 1 (as hard as it goes), before ghost and accent are applied; 0.6 is an ordinary note.
    double loudness = 0.6;
    Phrasing phrasing;
    /// The string it shall be played on, by the user's wish: from 0, the top line of tablature. Passed over
    /// where the string hasn't got the pitch.
    std::optional<int> pinnedString = std::nullopt;

    Beats end() const { return onset + length; }
    Range<Beats> range() const { return {onset, end()}; }
    /// The loudness it sounds with, ghost and accent applied, 0 to 1. How players shade a line (common
    /// practice): a ghosted note is less than half as loud as its neighbours, an accented one a third louder.
    double soundingLoudness() const {
        const double shaded = loudness * (phrasing.ghosted ? 0.45 : 1.0) * (phrasing.accented ? 1.35 : 1.0);
        return std::clamp(shaded, 0.0, 1.0);
    }
    friend bool operator==(const Note&, const Note&) = default;
};

} // namespace earwright
