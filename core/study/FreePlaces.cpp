#include "core/study/FreePlaces.h"

#include <algorithm>

namespace earwright {

namespace {

/// A plucked chord is not struck at once (common practice: a strum takes up to some 30 ms).
constexpr Seconds strum{0.035};

bool has(const FreePlace& place, int midi) {
    return std::find(place.pitches.begin(), place.pitches.end(), midi) != place.pitches.end();
}

} // namespace

std::vector<FreePlace> placesOf(std::vector<FreeNote> notes) {
    std::sort(notes.begin(), notes.end(),
              [](const FreeNote& a, const FreeNote& b) { return a.held.begin < b.held.begin; });
    std::vector<FreePlace> places;
    for (const FreeNote& note : notes) {
        const bool joins = !places.empty() && note.held.begin - places.back().onset < strum &&
                           !has(places.back(), note.midi);
        if (!joins) {
            places.push_back({note.held.begin, note.held.end, {note.midi}});
            continue;
        }
        places.back().pitches.push_back(note.midi);
        places.back().end = std::max(places.back().end, note.held.end);
    }
    return places;
}

} // namespace earwright
