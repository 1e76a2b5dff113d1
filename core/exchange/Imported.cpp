#include "core/exchange/Imported.h"

#include "core/study/Limits.h"
#include "core/time/BeatRatio.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <numeric>

namespace earwright {

namespace {

constexpr std::int64_t finestParts = 960;
constexpr std::int64_t snappedParts = 480;
/// Parts of a beat on which a chord can stand.
constexpr std::int64_t finestOfChords = 12;
const Beats shortest(1, 48);

static_assert(finestParts <= largestDenominator);

/// True if the place had to move.
bool snap(Beats& place) {
    const Beats before = place;
    place = writable(place);
    return place != before;
}

/// Between places that a study file holds there may be a length that it does not: 1919/1920 of a beat.
Beats writableLength(const Beats& length) {
    if (length.denominator() <= largestDenominator) return length;
    return std::max(shortest, Beats((length * (2 * snappedParts) + Beats(1)).floor() >> 1, snappedParts));
}

/// "A note was …" and "12 notes were …": what happened to so many notes, told once. Nothing for none.
void tell(Imported& imported, std::size_t count, const std::string& ofOne, const std::string& ofMany) {
    if (count == 1) leaveOut(imported, "A note " + ofOne + ".");
    if (count > 1) leaveOut(imported, std::to_string(count) + " notes " + ofMany + ".");
}

bool isWritable(int midi) {
    return midi >= lowestMidi && midi <= highestMidi;
}

} // namespace

void leaveOut(Imported& imported, const std::string& sentence) {
    if (std::find(imported.leftOut.begin(), imported.leftOut.end(), sentence) == imported.leftOut.end())
        imported.leftOut.push_back(sentence);
}

Beats writable(const Beats& place) {
    Beats held = place;
    if (place.denominator() > finestParts)
        held = Beats((place * (2 * snappedParts) + Beats(1)).floor() >> 1, snappedParts);
    if (std::abs(held.numerator()) <= largestNumerator) return held;
    return Beats(std::clamp(held.floor(), -furthestBeat, furthestBeat));
}

bool addChord(Imported& imported, std::int64_t bar, const Beats& within, const ChordSymbol& symbol) {
    if (within.denominator() > finestOfChords) return false;
    std::vector<PlacedChord> chords;
    if (const auto written = imported.study.chart.overrides.find(bar);
        written != imported.study.chart.overrides.end())
        chords = written->second.chords;
    std::int64_t parts = within.denominator();
    for (const PlacedChord& chord : chords)
        parts = std::lcm(parts, chord.withinBar.denominator());
    if (parts > finestChordParts) return false;
    const auto behind =
        std::lower_bound(chords.begin(), chords.end(), within,
                         [](const PlacedChord& chord, const Beats& at) { return chord.withinBar < at; });
    if (behind == chords.end() || behind->withinBar != within) chords.insert(behind, {within, symbol});
    imported.study.chart.overrides[bar].chords = std::move(chords);
    return true;
}

void divideBeats(Imported& imported) {
    Study& study = imported.study;
    const MeterMap meters = study.meters();
    std::map<Beats, std::int64_t> parts;
    for (const Note& note : study.notes) {
        const Beats beat = meters.countStart(note.onset);
        // Of so many parts of the beat the note begins on one.
        const std::int64_t own = ratio(note.onset - beat, meters.nextCount(beat) - beat).denominator();
        std::int64_t& common = parts.try_emplace(beat, 1).first->second;
        common = std::lcm(common, std::min(own, finestParts));
        if (common > finestParts) common = finestParts;
    }
    for (const auto& [beat, count] : parts)
        if (const auto division = divisionInto(count);
            division && static_cast<std::int64_t>(study.divisionOf(beat)) % count != 0)
            study.divisions[beat] = *division;
}

void nameOtherParts(Imported& imported) {
    constexpr std::size_t mostNamed = 8;
    std::string names;
    std::size_t others = 0;
    for (std::size_t i = 0; i < imported.parts.size(); ++i) {
        if (i == imported.part || imported.parts[i].notes == 0) continue;
        if (others++ < mostNamed) names += (others == 1 ? "" : ", ") + imported.parts[i].name;
    }
    if (others == 0) return;
    leaveOut(imported, "The part " + imported.parts[imported.part].name + " was taken; " +
                           (others == 1 ? "another part was" : std::to_string(others) + " other parts were") +
                           " left out: " + names + (others > mostNamed ? " and more" : "") + ".");
}

void addLine(Imported& imported, std::vector<ForeignNote> notes) {
    const auto outside =
        std::erase_if(notes, [](const ForeignNote& note) { return !isWritable(note.pitch.midi); });
    tell(imported, outside, "lies lower than E1 or higher than C7 and was left out",
         "lie lower than E1 or higher than C7 and were left out");
    std::size_t moved = 0;
    for (ForeignNote& note : notes) {
        if (std::erase_if(note.phrasing.graceNotes, [](int midi) { return !isWritable(midi); }) > 0)
            leaveOut(imported, gracesLeftOut);
        const bool beginMoved = snap(note.begin);
        if (snap(note.end) || beginMoved) ++moved;
        note.end = std::max(note.end, note.begin + shortest);
    }
    tell(imported, moved, "was moved to the nearest 480th of a beat",
         "were moved to the nearest 480th of a beat");
    std::stable_sort(notes.begin(), notes.end(), [](const ForeignNote& a, const ForeignNote& b) {
        return a.begin != b.begin ? a.begin < b.begin : a.pitch.midi < b.pitch.midi;
    });
    Study& study = imported.study;
    std::size_t doubled = 0;
    std::size_t shortened = 0;
    for (std::size_t i = 0, next = 0; i < notes.size(); ++i) {
        const ForeignNote& note = notes[i];
        if (i > 0 && notes[i - 1].begin == note.begin && notes[i - 1].pitch.midi == note.pitch.midi) {
            ++doubled;
            continue;
        }
        while (next < notes.size() && notes[next].begin <= note.begin)
            ++next;
        Beats end = note.end;
        if (next < notes.size() && notes[next].begin < end) {
            end = notes[next].begin;
            ++shortened;
        }
        study.notes.push_back({NoteId{study.nextId++}, note.begin, writableLength(end - note.begin),
                               note.pitch, note.loudness, note.phrasing,
                               note.place ? std::optional(note.place->string) : std::nullopt});
    }
    tell(imported, doubled, "stood twice and was taken once", "stood twice and were taken once");
    tell(imported, shortened, "still sounded when the next one began and was ended there",
         "still sounded when the next one began and were ended there");
}

} // namespace earwright
