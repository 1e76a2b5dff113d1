#include "core/study/PlayedNote.h"

#include "core/study/PlayedTime.h"

#include <algorithm>

namespace earwright {

Range<Seconds> soundingAsPlayed(const Note& note, const PlayedNote& playing) {
    Range<Seconds> time = playing.heard;
    if (note.phrasing.letRing)
        time.end = std::max(time.end, time.begin + soundingLength(note.phrasing, time.length()));
    return time;
}

const PlayedNote* playingOf(const PlayedNotes& played, const Study& study, const Note& note) {
    const auto found = played.find(note.id);
    if (found == played.end() || !study.beatMap.hasTempo()) return nullptr;
    const PlayedNote& measured = found->second;
    const bool holds =
        measured.midi == note.pitch.midi && measured.written == playedTime(study, note.range());
    return holds ? &measured : nullptr;
}

} // namespace earwright
