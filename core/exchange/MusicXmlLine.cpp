#include "core/exchange/MusicXmlLine.h"

#include "core/exchange/ForeignStrings.h"
#include "core/exchange/MusicXmlPhrasing.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <utility>

namespace earwright {

namespace {

/// Before one note; more are no ornament.
constexpr std::size_t mostGraces = 16;
/// A pitch that no line can have, for a note that names none.
constexpr int noPitch = -1;

PitchName nameOf(pugi::xml_node pitch, bool& isOne) {
    static constexpr std::string_view letters = "CDEFGAB";
    const std::string_view letter = pitch.child_value("step");
    const std::size_t step = letter.size() == 1 ? letters.find(letter) : std::string_view::npos;
    isOne = step != std::string_view::npos;
    const double told = pitch.child("alter").text().as_double();
    const double alter = std::isfinite(told) ? std::clamp(told, -3.0, 3.0) : 0;
    return {isOne ? static_cast<Step>(step) : Step::C, static_cast<int>(std::lround(alter))};
}

Pitch pitchOf(pugi::xml_node note, const Transposition& transposition) {
    const pugi::xml_node pitch = note.child("pitch");
    bool isOne = false;
    const PitchName read = nameOf(pitch, isOne);
    if (!isOne) return {noPitch, {}};
    const int octave = std::clamp(pitch.child("octave").text().as_int(), -1, 10);
    const int midi =
        12 * (octave + 1) + PitchName{read.step, 0}.pitchClass() + read.alter + transposition.semitones;
    if (std::abs(read.alter) > 2) return {midi, {}};
    return {midi, transposition.sounding(read)};
}

/// Percent of a forte, which MusicXML says is a MIDI velocity of 90.
double loudnessOf(pugi::xml_node note) {
    const double percent = note.attribute("dynamics").as_double(-1);
    if (!(percent >= 0)) return ForeignNote{}.loudness;
    const double loudness = std::clamp(percent / 100 * 90 / 127, 0.0, 1.0);
    return std::round(loudness * 1e6) / 1e6;
}

bool isTied(pugi::xml_node note, std::string_view type) {
    const auto says = [&](pugi::xml_node parent, const char* name) {
        const auto marks = parent.children(name);
        return std::any_of(marks.begin(), marks.end(),
                           [&](pugi::xml_node mark) { return mark.attribute("type").value() == type; });
    };
    if (says(note, "tie")) return true;
    const auto all = note.children("notations");
    return std::any_of(all.begin(), all.end(),
                       [&](pugi::xml_node notations) { return says(notations, "tied"); });
}

} // namespace

void MusicXmlLine::add(pugi::xml_node note, const MusicXmlPlace& place) {
    if (note.child("grace"))
        addGrace(note, place);
    else if (place.end > place.begin)
        addSounding(note, place);
}

void MusicXmlLine::addGrace(pugi::xml_node note, const MusicXmlPlace& place) {
    readSlurs(note, std::nullopt);
    const int midi = pitchOf(note, place.transposition).midi;
    if (midi < lowestMidi || midi > highestMidi || graceCount >= mostGraces)
        return leaveOut(imported, gracesLeftOut);
    ++graceCount;
    if (note.child("chord") && !graces.empty())
        graces.back().pitches.push_back(midi);
    else
        graces.push_back({{midi}, graceSlur});
}

void MusicXmlLine::addSounding(pugi::xml_node note, const MusicXmlPlace& place) {
    const Pitch pitch = pitchOf(note, place.transposition);
    const bool isChord = note.child("chord");
    if (!isChord) {
        settleGraces();
        firstTogether = notes.size();
        areUnderSlur = !openSlurs.empty();
    }
    MusicXmlReadNote read{note, pitch.midi - place.transposition.semitones, place.key};
    Phrasing phrasing = musicXmlPhrasing(read);
    if (isChord) {
        takeMarksOfChord(phrasing, read, marksOfChord, firstOfChord);
    } else {
        marksOfChord = phrasing;
        firstOfChord = note;
    }
    const auto open = tied.find(pitch.midi);
    std::size_t index = notes.size();
    if (isTied(note, "stop") && open != tied.end() && notes[open->second].end == place.begin) {
        index = open->second;
        notes[index].end = place.end;
        addEndOf(notes[index].phrasing, phrasing);
        if (!isChord) firstTogether = index;
    } else {
        notes.push_back({place.begin, place.end, pitch, loudnessOf(note), phrasing, tabPlaceIn(note)});
        if (areUnderSlur) putUnderSlur(notes.back().phrasing, note);
    }
    if (!isChord) {
        gracesOfTogether = std::move(graces);
        graces.clear();
        graceCount = 0;
        graceSlur.clear();
    }
    tied.erase(pitch.midi);
    if (isTied(note, "start")) tied[pitch.midi] = index;
    readSlurs(note, index);
}

void MusicXmlLine::readSlurs(pugi::xml_node note, std::optional<std::size_t> index) {
    for (const std::string_view type : {"stop", "start"})
        for (const pugi::xml_node notations : note.children("notations"))
            for (const pugi::xml_node slur : notations.children("slur")) {
                if (slur.attribute("type").value() != type) continue;
                const std::string number = slur.attribute("number").as_string("1");
                if (type == "start") {
                    (index ? openSlurs : slursOfGraces).insert(number);
                    if (!index) graceSlur = number;
                } else if (slursOfGraces.erase(number) == 0) {
                    openSlurs.erase(number);
                } else if (index) {
                    goals[number] = *index;
                }
            }
}

void MusicXmlLine::settleGraces() {
    if (gracesOfTogether.empty()) return goals.clear();
    const std::size_t count = notes.size() - firstTogether;
    const bool isEven = std::all_of(gracesOfTogether.begin(), gracesOfTogether.end(),
                                    [&](const GraceGroup& group) { return group.pitches.size() == count; });
    for (const GraceGroup& group : gracesOfTogether) {
        const auto goal = goals.find(group.slur);
        const std::size_t first = goal == goals.end() ? firstTogether : goal->second;
        for (std::size_t i = 0; i < group.pitches.size(); ++i)
            notes[isEven ? firstTogether + i : first].phrasing.graceNotes.push_back(group.pitches[i]);
    }
    gracesOfTogether.clear();
    goals.clear();
}

void MusicXmlLine::finish(const std::optional<StringTuning>& tuning) {
    settleGraces();
    if (!graces.empty()) leaveOut(imported, "Grace notes that lead to no note were left out.");
    settleTuning(imported, notes, tuning);
    addLine(imported, std::move(notes));
}

} // namespace earwright
