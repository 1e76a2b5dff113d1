#include "core/study/PlayedNote.h"

#include "core/study/PlayedTime.h"

namespace earwright {

const PlayedNote* playingOf(const PlayedNotes& played, const Study& study, const Note& note) {
    const auto found = played.find(note.id);
    if (found == played.end() || !study.beatMap.hasTempo()) return nullptr;
    const PlayedNote& measured = found->second;
    const bool holds =
        measured.midi == note.pitch.midi && measured.written == playedTime(study, note.range());
    return holds ? &measured : nullptr;
}

} // namespace earwright
