// A line and where a guitarist plays it, as fingering tests tell it.
#pragma once

#include "core/engraving/Fingering.h"

#include <cstdint>
#include <utility>
#include <vector>

namespace earwright::tests {

/// Eighths one after the other; each names its MIDI number.
inline std::vector<Note> lineOf(const std::vector<int>& pitches) {
    std::vector<Note> notes;
    for (const int midi : pitches) {
        Note note;
        note.id = {notes.size() + 1};
        note.onset = Beats(static_cast<std::int64_t>(notes.size()), 2);
        note.length = Beats(1, 2);
        note.pitch.midi = midi;
        notes.push_back(note);
    }
    return notes;
}

/// As guitarists say it: strings counted from 1, the highest.
using Frets = std::vector<std::pair<int, int>>;

inline Frets fretsOf(const std::vector<Note>& notes, const Fingering& fingering) {
    Frets frets;
    for (const Note& note : notes) {
        const auto place = fingering.places.find(note.id);
        if (place == fingering.places.end())
            frets.emplace_back(0, 0);
        else
            frets.emplace_back(place->second.string + 1, place->second.fret);
    }
    return frets;
}

inline Frets guitar(const std::vector<Note>& notes) {
    return fretsOf(notes, fingered(notes, {}));
}

} // namespace earwright::tests
