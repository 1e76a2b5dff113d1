#include "core/check/HelpReach.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double reachInBeats = 1;
/// An onset of the record lies a little beside the place on the page.
constexpr double looseness = 0.05;

} // namespace

ReachedCheck withinReach(const PhraseCheck& check, const Study& study) {
    ReachedCheck reached{check, 0};
    const BeatMap& map = study.beatMap;
    const auto isNear = [&](const UnwrittenSound& sound) {
        const double place = map.beatsAt(sound.range.begin);
        return std::any_of(check.notes.begin(), check.notes.end(), [&](const CheckedNote& note) {
            return place >= map.beatsAt(note.range.begin) - reachInBeats - looseness &&
                   place <= map.beatsAt(note.range.end) + reachInBeats + looseness;
        });
    };
    reached.furtherOn = static_cast<int>(
        std::erase_if(reached.check.unwritten, [&](const UnwrittenSound& sound) { return !isNear(sound); }));
    return reached;
}

} // namespace earwright
