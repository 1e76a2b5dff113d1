#include "core/engraving/SlurString.h"

#include <algorithm>

namespace earwright {

bool leavesString(const PageNotes& before, const Note& note, const std::map<NoteId, TabPlace>& places) {
    const auto own = places.find(note.id);
    if (own == places.end()) return false;
    return std::all_of(before.notes.begin(), before.notes.end(), [&](const Note& earlier) {
        const auto place = places.find(earlier.id);
        return place != places.end() && place->second.string != own->second.string;
    });
}

bool isSlurredOnString(const PageNotes& before, const PageNotes& together,
                       const std::map<NoteId, TabPlace>& places) {
    return std::any_of(together.notes.begin(), together.notes.end(), [&](const Note& note) {
        return isUnderSlur(note) && !leavesString(before, note, places);
    });
}

} // namespace earwright
