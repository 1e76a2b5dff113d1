#include "core/exchange/ForeignStrings.h"

#include "core/engraving/Fingering.h"
#include "core/music/PitchNames.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <string_view>
#include <utility>

namespace earwright {

namespace {

constexpr const char* misfits = "Strings and frets that do not go with the tuning were left out.";
constexpr int octaveOfZero = -1;
constexpr int furthestOctave = 9;

/// MIDI number of an open string; nothing where it has none.
std::optional<int> openStringIn(pugi::xml_node tuning) {
    std::string_view step = tuning.child_value("tuning-step");
    const auto name = takeName(step, 0);
    if (!name) return std::nullopt;
    const int alter = std::clamp(tuning.child("tuning-alter").text().as_int(), -2, 2);
    const int octave = std::clamp(tuning.child("tuning-octave").text().as_int(-9), -9, furthestOctave);
    const int midi = 12 * (octave - octaveOfZero) + name->pitchClass() + alter;
    return midi >= 0 && midi <= 127 ? std::optional(midi) : std::nullopt;
}

std::optional<StringTuning> tuningOf(pugi::xml_node details) {
    std::map<int, int> fromBelow;
    for (const pugi::xml_node tuning : details.children("staff-tuning"))
        if (const auto open = openStringIn(tuning)) fromBelow[tuning.attribute("line").as_int()] = *open;
    StringTuning tuning;
    tuning.strings.clear();
    for (auto line = fromBelow.rbegin(); line != fromBelow.rend(); ++line)
        tuning.strings.push_back(line->second);
    tuning.capo = std::clamp(details.child("capo").text().as_int(), 0, mostFrets);
    return isPlayable(tuning) ? std::optional(tuning) : std::nullopt;
}

std::optional<StringTuning> ownTuningIn(pugi::xml_node part) {
    for (const pugi::xml_node attributes : part.child("measure").children("attributes"))
        for (const pugi::xml_node details : attributes.children("staff-details"))
            if (auto tuning = tuningOf(details)) return tuning;
    return std::nullopt;
}

/// Whether a part says on which strings it is played.
bool saysStrings(pugi::xml_node part) {
    return !part.find_node([](pugi::xml_node node) {
                    return std::string_view(node.name()) == "string" &&
                           std::string_view(node.parent().name()) == "technical";
                })
                .empty();
}

/// The open strings that the notes' frets tell of; nothing where they contradict each other.
std::optional<std::map<int, int>> openStringsOf(const std::vector<ForeignNote>& notes) {
    std::map<int, int> open;
    for (const ForeignNote& note : notes) {
        if (!note.place) continue;
        const int pitch = note.pitch.midi - note.place->fret;
        if (open.try_emplace(note.place->string, pitch).first->second != pitch) return std::nullopt;
    }
    return open;
}

bool hasAll(const StringTuning& tuning, const std::map<int, int>& open) {
    return std::all_of(open.begin(), open.end(), [&](const auto& told) {
        return told.first < static_cast<int>(tuning.strings.size()) &&
               tuning.openPitch(told.first) == told.second;
    });
}

/// The first of the named tunings that has the strings told of, or of the guitars with the lowest capo there
/// is; but for the plain guitar one string is too few to tell by.
std::optional<StringTuning> namedTuningOf(const std::map<int, int>& open) {
    constexpr std::size_t enough = 2;
    // An octave is how guitars are written, not a capo.
    constexpr int highestCapo = 11;
    for (int capo = 0; capo <= highestCapo; ++capo)
        for (const NamedTuning& named : namedTunings()) {
            if (capo > 0 && !named.isGuitar) continue;
            if (open.size() < enough && named.tuning != StringTuning{}) continue;
            StringTuning tuning = named.tuning;
            tuning.capo = capo;
            if (hasAll(tuning, open)) return tuning;
        }
    return std::nullopt;
}

/// A named tuning, or else the guitar's with the strings told of in their place.
std::optional<StringTuning> tuningOf(const std::map<int, int>& open) {
    if (auto named = namedTuningOf(open)) return named;
    StringTuning tuning;
    for (const auto& [string, pitch] : open) {
        const auto place = static_cast<std::size_t>(string);
        if (place > tuning.strings.size()) return std::nullopt;
        if (place == tuning.strings.size()) tuning.strings.emplace_back();
        tuning.strings[place] = pitch;
    }
    return isPlayable(tuning) ? std::optional(tuning) : std::nullopt;
}

/// Whether a note's string has its pitch at its fret, be the neck long enough or not.
bool isItsPitch(const ForeignNote& note, const StringTuning& tuning) {
    const TabPlace& place = *note.place;
    return place.string < static_cast<int>(tuning.strings.size()) &&
           tuning.openPitch(place.string) + place.fret == note.pitch.midi;
}

/// As long as the neck has to be.
void reachFrets(StringTuning& tuning, const std::vector<ForeignNote>& notes) {
    for (const ForeignNote& note : notes)
        if (note.place && isItsPitch(note, tuning))
            tuning.frets = std::clamp(note.place->fret + tuning.capo, tuning.frets, mostFrets);
}

bool goesWith(const ForeignNote& note, const StringTuning& tuning) {
    return isItsPitch(note, tuning) && note.place->fret <= tuning.highestFret();
}

} // namespace

std::optional<TabPlace> tabPlaceIn(pugi::xml_node note) {
    for (const pugi::xml_node notations : note.children("notations"))
        for (const pugi::xml_node technical : notations.children("technical")) {
            const int string = technical.child("string").text().as_int();
            const int fret = technical.child("fret").text().as_int(-1);
            if (string >= 1 && string <= mostStrings && fret >= 0 && fret <= mostFrets)
                return TabPlace{string - 1, fret};
        }
    return std::nullopt;
}

std::optional<StringTuning> tuningIn(pugi::xml_node part) {
    if (auto own = ownTuningIn(part)) return own;
    if (!saysStrings(part)) return std::nullopt;
    std::optional<StringTuning> others;
    for (const pugi::xml_node other : part.parent().children("part"))
        if (auto tuning = ownTuningIn(other)) {
            if (others) return std::nullopt;
            others = std::move(tuning);
        }
    return others;
}

void settleTuning(Imported& imported, std::vector<ForeignNote>& notes,
                  const std::optional<StringTuning>& stated) {
    std::optional<StringTuning> tuning = stated;
    if (!tuning)
        if (const auto open = openStringsOf(notes)) tuning = tuningOf(*open);
    StringTuning& settled = imported.study.tuning;
    if (tuning) settled = *tuning;
    reachFrets(settled, notes);
    for (ForeignNote& note : notes)
        if (note.place && !goesWith(note, settled)) {
            note.place.reset();
            leaveOut(imported, misfits);
        }
}

void loosenPins(Study& study) {
    if (std::none_of(study.notes.begin(), study.notes.end(),
                     [](const Note& note) { return note.pinnedString.has_value(); }))
        return;
    const std::vector<Note> wished = study.notes;
    for (Note& note : study.notes)
        note.pinnedString.reset();
    // A pin that is taken off may move its neighbours, so what moved is pinned until nothing does. A file
    // made to keep us busy keeps all its pins.
    constexpr int mostRounds = 8;
    bool changed = true;
    for (int round = 0; changed; ++round) {
        if (round == mostRounds) {
            study.notes = wished;
            return;
        }
        changed = false;
        const Fingering found = fingered(study.notes, study.tuning, LineTime(study));
        for (std::size_t i = 0; i < wished.size(); ++i) {
            Note& note = study.notes[i];
            if (!wished[i].pinnedString || note.pinnedString) continue;
            const auto place = found.places.find(note.id);
            if (place != found.places.end() && place->second.string == *wished[i].pinnedString) continue;
            note.pinnedString = wished[i].pinnedString;
            changed = true;
        }
    }
}

} // namespace earwright
