// Which string and fret each written note is played on.
#pragma once

#include "core/engraving/HandPlace.h"
#include "core/engraving/StringTuning.h"
#include "core/music/Note.h"

#include <map>
#include <vector>

namespace earwright {

/// The string a note shall be played on, by the user's wish; from 0, the top line of tablature.
using StringPins = std::map<NoteId, int>;

/// Notes are either in `places` or in `unplayable`.
/// Always: a note's pitch is that of the open string (with the capo) plus its fret.
struct Fingering {
    std::map<NoteId, TabPlace> places;
    /// By onset. Not on this neck, or not together with the notes they begin with.
    std::vector<NoteId> unplayable;
    friend bool operator==(const Fingering&, const Fingering&) = default;
};

/// The way through the line that costs least (HandPlace.h says what costs), found by dynamic programming over
/// the hand's positions (Viterbi, 1967; for fingering in this form: Sayegh, Computer Music Journal 13(3),
/// 1989). A pin wins over any cost; one to a string that hasn't got the pitch is passed over. Of notes that
/// cannot be struck together the lowest are given up first.
///
/// Notes in any order. Requires: isPlayable(tuning). Threads: any; a thousand notes take some milliseconds.
Fingering fingered(const std::vector<Note>& notes, const StringTuning& tuning, const StringPins& pins = {});

} // namespace earwright
