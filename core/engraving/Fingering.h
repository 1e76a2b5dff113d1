// Which string and fret each written note is played on.
#pragma once

#include "core/engraving/HandPlace.h"
#include "core/engraving/LineTime.h"
#include "core/music/Note.h"
#include "core/music/StringTuning.h"

#include <map>
#include <optional>
#include <vector>

namespace earwright {

/// Notes are either in `places` or in `unplayable`.
/// Always: a note's pitch is that of the open string (with the capo) plus its fret.
struct Fingering {
    std::map<NoteId, TabPlace> places;
    /// By onset. Not on this neck, or not together with the notes they begin with.
    std::vector<NoteId> unplayable;
    friend bool operator==(const Fingering&, const Fingering&) = default;
};

/// The way through the line that costs least (HandPlace.h and HandMove.h say what costs), found by dynamic
/// programming over the hand's positions (Viterbi, 1967; for fingering in this form: Sayegh, Computer Music
/// Journal 13(3), 1989). Notes that are held over more than the next event, and those that ring, keep their
/// strings as far as the cheapest way to each place tells where they are. A pinned string wins over any cost;
/// one that hasn't got the pitch is passed over. Of notes that cannot be struck together the lowest are given
/// up first.
///
/// Notes in any order; `time` says how fast they follow each other. Requires: isPlayable(tuning). Threads:
/// any; a thousand notes take some milliseconds.
Fingering fingered(const std::vector<Note>& notes, const StringTuning& tuning, const LineTime& time = {});

/// Whether a string has the note's pitch.
bool isOnString(const Note& note, const StringTuning& tuning, int string);

/// The string next to `now` that has the note's pitch, upwards or downwards in pitch of strings; none where
/// there is none.
std::optional<int> neighbourString(const Note& note, const StringTuning& tuning, int now, bool higher);

} // namespace earwright
