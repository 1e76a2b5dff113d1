// How a written note is played in the recording, for those who play it back.
#pragma once

#include "core/music/Note.h"
#include "core/study/Study.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <map>
#include <optional>

namespace earwright {

/// Measured, not written: it can be measured again at any time, so no study file keeps it.
struct PlayedNote {
    /// What was measured. The measure holds for as long as the note is written so.
    Range<Seconds> written;
    int midi = 60;
    /// Where it sounds in the recording.
    Range<Seconds> heard;
    /// 0 to 1, as Note::soundingLoudness(): ghost and accent are in it as they are played.
    double loudness = 0.6;
    friend bool operator==(const PlayedNote&, const PlayedNote&) = default;
};

/// Notes whose beginning is heard; the others are played as written.
using PlayedNotes = std::map<NoteId, PlayedNote>;

/// From where to where a measured note sounds: as it was heard. One that is let ring lasts as long as
/// soundingLength() says, since how long a string rings on under others isn't heard.
Range<Seconds> soundingAsPlayed(const Note& note, const PlayedNote& playing);

/// How a note of the study is played; null where it was not measured, or is no longer written as it was
/// then.
const PlayedNote* playingOf(const PlayedNotes& played, const Study& study, const Note& note);

} // namespace earwright
