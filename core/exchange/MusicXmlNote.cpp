#include "core/exchange/MusicXmlNote.h"

#include "core/engraving/WrittenName.h"
#include "core/exchange/MusicXmlMarks.h"

#include <array>

namespace earwright {

namespace {

/// MusicXML numbers beams up to here (beam-level).
constexpr std::size_t mostBeams = 8;

const char* typeName(int denominator) {
    switch (denominator) {
    case 1:
        return "whole";
    case 2:
        return "half";
    case 4:
        return "quarter";
    case 8:
        return "eighth";
    case 16:
        return "16th";
    case 32:
        return "32nd";
    case 64:
        return "64th";
    case 128:
        return "128th";
    case 256:
        return "256th";
    case 512:
        return "512th";
    default:
        return "1024th";
    }
}

/// Voice, type and what belongs to the type.
void addValue(pugi::xml_node note, const NoteValue& value) {
    addText(note, "voice", "1");
    if (value.denominator == 0) return;
    addText(note, "type", typeName(value.denominator));
    if (value.dotted) note.append_child("dot");
}

void addTimeModification(pugi::xml_node note, const NoteValue& value) {
    if (!value.tuplet) return;
    pugi::xml_node modification = note.append_child("time-modification");
    addText(modification, "actual-notes", std::to_string(value.tuplet->actual));
    addText(modification, "normal-notes", std::to_string(value.tuplet->normal));
}

} // namespace

pugi::xml_node addText(pugi::xml_node parent, const char* name, const std::string& text) {
    pugi::xml_node child = parent.append_child(name);
    // XML has no way to write these (XML 1.0, production 2, Char).
    std::string allowed = text;
    std::erase_if(allowed, [](char c) {
        return static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n' && c != '\r';
    });
    child.text().set(allowed.c_str());
    return child;
}

std::int64_t MusicXmlNotes::duration(const Beats& length) const {
    return (length * (4 * divisions) / study.meter.beatUnit).floor();
}

void MusicXmlNotes::add(pugi::xml_node measure, const PagePiece& piece,
                        const std::vector<std::string>& beams) {
    if (!piece.event) return addRest(measure, piece);
    if (!piece.tiedFromBefore) addGraceNotes(measure, line[*piece.event]);
    for (std::size_t i = 0; i < line[*piece.event].notes.size(); ++i)
        addNote(measure, piece, i, i == 0 ? beams : std::vector<std::string>{});
}

void MusicXmlNotes::addRest(pugi::xml_node measure, const PagePiece& piece) {
    pugi::xml_node note = measure.append_child("note");
    pugi::xml_node rest = note.append_child("rest");
    if (piece.value.denominator == 0) rest.append_attribute("measure") = "yes";
    addText(note, "duration", std::to_string(duration(piece.end - piece.begin)));
    addValue(note, piece.value);
    addTimeModification(note, piece.value);
    if (!piece.startsTuplet && !piece.endsTuplet) return;
    addMark(note.append_child("notations"), "tuplet", piece.startsTuplet ? "start" : "stop");
}

void MusicXmlNotes::addGraceNotes(pugi::xml_node measure, const PageNotes& event) {
    for (const Note& written : event.notes) {
        const std::vector<int>& pitches = written.phrasing.graceNotes;
        for (const int midi : pitches) {
            pugi::xml_node note = measure.append_child("note");
            pugi::xml_node grace = note.append_child("grace");
            // One grace note is a struck-through eighth, several are sixteenths (common practice).
            if (pitches.size() == 1) grace.append_attribute("slash") = "yes";
            Note before = written;
            before.pitch = {midi, {}};
            const PitchName name = writtenName(before, study);
            addPitch(note, name, midi);
            addValue(note, {pitches.size() == 1 ? 8 : 16, false, {}});
            addAccidental(note, name, midi, false);
        }
    }
}

void MusicXmlNotes::addNote(pugi::xml_node measure, const PagePiece& piece, std::size_t index,
                            const std::vector<std::string>& beams) {
    const Note& written = line[*piece.event].notes[index];
    pugi::xml_node note = measure.append_child("note");
    if (index > 0) note.append_child("chord");
    const PitchName name = writtenName(written, study);
    addPitch(note, name, written.pitch.midi);
    addText(note, "duration", std::to_string(duration(piece.end - piece.begin)));
    if (piece.tiedFromBefore) addMark(note, "tie", "stop");
    if (piece.tiedOn) addMark(note, "tie", "start");
    addValue(note, piece.value);
    addAccidental(note, name, written.pitch.midi, piece.tiedFromBefore);
    addTimeModification(note, piece.value);
    if (written.phrasing.ghosted) addText(note, "notehead", "normal").append_attribute("parentheses") = "yes";
    for (std::size_t level = 0; level < beams.size() && level < mostBeams; ++level)
        addText(note, "beam", beams[level]).append_attribute("number") = static_cast<unsigned>(level + 1);
    addNotations(note, piece, index);
}

void MusicXmlNotes::addPitch(pugi::xml_node note, const PitchName& name, int midi) {
    pugi::xml_node pitch = note.append_child("pitch");
    addText(pitch, "step", toString(PitchName{name.step, 0}));
    if (name.alter != 0) addText(pitch, "alter", std::to_string(name.alter));
    addText(pitch, "octave", std::to_string(writtenOctave(name, midi)));
}

void MusicXmlNotes::addAccidental(pugi::xml_node note, const PitchName& name, int midi, bool isTied) {
    static constexpr std::array<const char*, 5> names{"flat-flat", "flat", "natural", "sharp",
                                                      "double-sharp"};
    // A tied note needs no sign of its own, not even behind a bar line, and sets none for later notes.
    if (isTied) return;
    int& standing =
        accidentals.try_emplace({name.step, writtenOctave(name, midi)}, key.alterOf(name.step)).first->second;
    if (standing != name.alter) addText(note, "accidental", names[static_cast<std::size_t>(name.alter + 2)]);
    standing = name.alter;
}

bool MusicXmlNotes::slurEnds(std::size_t event) const {
    const auto isSlurred = [&](std::size_t at) {
        return at > 0 && at < line.size() && line[at].notes.front().phrasing.slurred;
    };
    return isSlurred(event) && !isSlurred(event + 1);
}

bool MusicXmlNotes::slurBegins(std::size_t event) const {
    const bool isSlurred = event > 0 && line[event].notes.front().phrasing.slurred;
    return !isSlurred && event + 1 < line.size() && line[event + 1].notes.front().phrasing.slurred;
}

/// What leads from this note to the next, and from the one before to this.
void MusicXmlNotes::addJoins(pugi::xml_node notations, const PagePiece& piece) const {
    const std::size_t event = *piece.event;
    const Phrasing& here = line[event].notes.front().phrasing;
    const Phrasing before = event > 0 ? line[event - 1].notes.front().phrasing : Phrasing{};
    const Phrasing next = event + 1 < line.size() ? line[event + 1].notes.front().phrasing : Phrasing{};
    const auto byHand = [&](SlurBy by, const char* type) {
        const char* name = by == SlurBy::HammerOn ? "hammer-on" : "pull-off";
        addMark(notations.append_child("technical"), name, type);
    };
    if (!piece.tiedFromBefore && event > 0 && here.slurBy) byHand(*here.slurBy, "stop");
    if (!piece.tiedOn && next.slurBy) byHand(*next.slurBy, "start");
    if (!piece.tiedFromBefore && before.slidesToNext) addMark(notations, "slide", "stop");
    if (!piece.tiedOn && here.slidesToNext && event + 1 < line.size()) addMark(notations, "slide", "start");
}

void MusicXmlNotes::addNotations(pugi::xml_node note, const PagePiece& piece, std::size_t index) {
    const Phrasing& phrasing = line[*piece.event].notes[index].phrasing;
    pugi::xml_node notations = note.append_child("notations");
    if (piece.tiedFromBefore) addMark(notations, "tied", "stop");
    if (piece.tiedOn) addMark(notations, "tied", "start");
    if (index == 0) {
        if (!piece.tiedFromBefore && slurBegins(*piece.event)) addMark(notations, "slur", "start");
        if (!piece.tiedOn && slurEnds(*piece.event)) addMark(notations, "slur", "stop");
        if (piece.startsTuplet) addMark(notations, "tuplet", "start");
        if (piece.endsTuplet) addMark(notations, "tuplet", "stop");
    }
    addPhrasing(notations, piece, phrasing);
    if (index == 0) addJoins(notations, piece);
    if (!notations.first_child()) note.remove_child(notations);
}

} // namespace earwright
