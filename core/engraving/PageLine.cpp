#include "core/engraving/PageLine.h"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <set>

namespace earwright {

namespace {

constexpr std::int64_t finestParts = 48;

Beats snapped(const Beats& place) {
    return Beats((place * (2 * finestParts) + Beats(1)).floor() >> 1, finestParts);
}

bool isCommon(const Beats& place) {
    static constexpr std::array<std::int64_t, 5> others{5, 7, 9, 10, 11};
    return finestParts % place.denominator() == 0 ||
           std::find(others.begin(), others.end(), place.denominator()) != others.end();
}

void snap(Note& note) {
    const Beats end = std::max(snapped(note.end()), snapped(note.onset) + Beats(1, finestParts));
    note.onset = snapped(note.onset);
    note.length = end - note.onset;
}

bool touches(const Note& note, const std::set<std::int64_t>& beats) {
    return beats.contains(note.onset.floor()) || beats.contains(note.end().floor());
}

/// Beats whose places have no common division that can be drawn.
std::set<std::int64_t> crowdedBeats(const std::vector<Note>& notes) {
    std::map<std::int64_t, std::int64_t> parts;
    std::set<std::int64_t> crowded;
    for (const Note& note : notes)
        for (const Beats& place : {note.onset, note.end()}) {
            std::int64_t& common = parts.try_emplace(place.floor(), 1).first->second;
            common = std::min<std::int64_t>(std::lcm(common, place.denominator()), finestParts * 100);
            if (common > finestParts) crowded.insert(place.floor());
        }
    return crowded;
}

void makeDrawable(std::vector<Note>& notes) {
    for (Note& note : notes)
        if (!isCommon(note.onset) || !isCommon(note.end())) snap(note);
    // A place that moves can reach the next beat; each beat is crowded at most once.
    for (auto crowded = crowdedBeats(notes); !crowded.empty(); crowded = crowdedBeats(notes))
        for (Note& note : notes)
            if (touches(note, crowded)) snap(note);
}

} // namespace

bool isUnderSlur(const Note& note) {
    return note.phrasing.slurred || note.phrasing.pickedInSlur;
}

bool isUnderSlur(const PageNotes& together) {
    return std::any_of(together.notes.begin(), together.notes.end(),
                       [](const Note& note) { return isUnderSlur(note); });
}

std::vector<PageNotes> pageLine(const Study& study) {
    std::vector<Note> notes = study.notes;
    makeDrawable(notes);
    std::stable_sort(notes.begin(), notes.end(), [](const Note& a, const Note& b) {
        return a.onset != b.onset ? a.onset < b.onset : a.pitch.midi < b.pitch.midi;
    });
    std::vector<PageNotes> line;
    for (const Note& note : notes) {
        if (line.empty() || line.back().begin != note.onset) {
            if (!line.empty()) line.back().end = std::min(line.back().end, note.onset);
            line.push_back({note.onset, note.end(), {note}});
            continue;
        }
        PageNotes& together = line.back();
        together.end = std::max(together.end, note.end());
        if (together.notes.back().pitch.midi != note.pitch.midi) together.notes.push_back(note);
    }
    return line;
}

bool goesOn(const std::vector<PageNotes>& line, std::size_t event) {
    return event + 1 < line.size() && line[event + 1].begin == line[event].end;
}

} // namespace earwright
