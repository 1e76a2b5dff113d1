#include "core/exchange/MusicXmlNote.h"

#include "core/engraving/SlurString.h"
#include "core/exchange/ChordMarks.h"
#include "core/exchange/MusicXmlMarks.h"
#include "core/theory/ChordDegree.h"

#include <algorithm>
#include <cstdio>

namespace earwright {

namespace {

/// MusicXML numbers beams up to here (beam-level).
constexpr std::size_t mostBeams = 8;
/// And slides, slurs and what joins two notes else (number-level).
constexpr std::size_t mostNumbered = 16;

/// Loudness in percent of a forte, which MusicXML says is a MIDI velocity of 90.
std::string dynamicsOf(double loudness) {
    char text[40];
    std::snprintf(text, sizeof text, "%.6f", loudness * 127 / 90 * 100);
    return text;
}

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

/// Tells the joins of the notes of a double stop apart, by their index.
unsigned numberOf(std::size_t index) {
    return static_cast<unsigned>(std::min(index, mostNumbered - 1) + 1);
}

/// The slur from its grace notes to a note of a double stop; the line's own slurs are the first.
unsigned graceSlurOf(std::size_t index) {
    return numberOf(index + 1);
}

bool haveEqualGraces(const PageNotes& event) {
    const std::size_t count = event.notes.front().phrasing.graceNotes.size();
    return std::all_of(event.notes.begin(), event.notes.end(),
                       [&](const Note& note) { return note.phrasing.graceNotes.size() == count; });
}

pugi::xml_node notationsOf(pugi::xml_node note) {
    const pugi::xml_node there = note.child("notations");
    return there ? there : note.append_child("notations");
}

void addSlur(pugi::xml_node notations, const char* type, unsigned number) {
    pugi::xml_node slur = notations.append_child("slur");
    slur.append_attribute("type") = type;
    slur.append_attribute("number") = number;
}

/// Voice, type and what belongs to the type.
void addValue(pugi::xml_node note, const NoteValue& value) {
    addText(note, "voice", "1");
    if (value.denominator == 0) return;
    addText(note, "type", typeName(value.denominator));
    if (value.dotted) note.append_child("dot");
}

void addBeams(pugi::xml_node note, const std::vector<std::string>& beams) {
    for (std::size_t level = 0; level < beams.size() && level < mostBeams; ++level)
        addText(note, "beam", beams[level]).append_attribute("number") = static_cast<unsigned>(level + 1);
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
    if (!piece.tiedFromBefore && showsGraces(line[*piece.event])) addGraceNotes(measure, line[*piece.event]);
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

/// Of a double stop whose notes have equally many, they sound together; else one after the other, and slurs
/// say which lead to which.
void MusicXmlNotes::addGraceNotes(pugi::xml_node measure, const PageNotes& event) {
    if (haveEqualGraces(event)) {
        const std::size_t count = event.notes.front().phrasing.graceNotes.size();
        for (std::size_t i = 0; i < count; ++i)
            for (const Note& written : event.notes) {
                const bool isChord = &written != &event.notes.front();
                pugi::xml_node note = addGraceNote(measure, written, i, isChord);
                if (i == 0 && !isChord) addSlur(notationsOf(note), "start", graceSlurOf(0));
            }
        return;
    }
    for (std::size_t index = 0; index < event.notes.size(); ++index) {
        const Note& written = event.notes[index];
        for (std::size_t i = 0; i < written.phrasing.graceNotes.size(); ++i) {
            pugi::xml_node note = addGraceNote(measure, written, i, false);
            if (i == 0) addSlur(notationsOf(note), "start", graceSlurOf(index));
        }
    }
}

pugi::xml_node MusicXmlNotes::addGraceNote(pugi::xml_node measure, const Note& written, std::size_t index,
                                           bool isChord) {
    const std::size_t count = written.phrasing.graceNotes.size();
    pugi::xml_node note = measure.append_child("note");
    pugi::xml_node grace = note.append_child("grace");
    // One grace note is a struck-through eighth, several are sixteenths under a beam (common practice).
    if (count == 1) grace.append_attribute("slash") = "yes";
    if (isChord) note.append_child("chord");
    const ReadPitch pitch = names.ofGrace(written, index);
    addPitch(note, pitch);
    addValue(note, {count == 1 ? 8 : 16, false, {}});
    if (!isTablature) addAccidental(note, pitch, false, false);
    if (count > 1 && !isChord) {
        const char* const word = index == 0 ? "begin" : index + 1 == count ? "end" : "continue";
        addBeams(note, {word, word});
    }
    if (isTablature)
        addStringPlace(note.append_child("notations"), written,
                       written.phrasing.graceNotes[index] - written.pitch.midi);
    return note;
}

bool MusicXmlNotes::showsGraces(const PageNotes& event) const {
    if (!isTablature) return true;
    return std::all_of(event.notes.begin(), event.notes.end(), [this](const Note& note) {
        const auto place = places.find(note.id);
        const std::vector<int>& graces = note.phrasing.graceNotes;
        if (graces.empty()) return true;
        const int lowest = *std::min_element(graces.begin(), graces.end());
        return place != places.end() && place->second.fret + lowest - note.pitch.midi >= 0;
    });
}

void MusicXmlNotes::addNote(pugi::xml_node measure, const PagePiece& piece, std::size_t index,
                            const std::vector<std::string>& beams) {
    const Note& written = line[*piece.event].notes[index];
    pugi::xml_node note = measure.append_child("note");
    if (written.loudness != Note{}.loudness)
        note.append_attribute("dynamics") = dynamicsOf(written.loudness).c_str();
    if (index > 0) note.append_child("chord");
    const ReadPitch pitch = names.of(written);
    addPitch(note, pitch);
    addText(note, "duration", std::to_string(duration(piece.end - piece.begin)));
    if (piece.tiedFromBefore) addMark(note, "tie", "stop");
    if (piece.tiedOn) addMark(note, "tie", "start");
    addValue(note, piece.value);
    if (!isTablature) addAccidental(note, pitch, piece.tiedFromBefore, written.phrasing.ghosted);
    addTimeModification(note, piece.value);
    if (written.phrasing.ghosted) addText(note, "notehead", "normal").append_attribute("parentheses") = "yes";
    addBeams(note, beams);
    addNotations(note, piece, index);
    if (options.degrees && !piece.tiedFromBefore && !isTablature) addDegree(note, written);
}

void MusicXmlNotes::addPitch(pugi::xml_node note, const ReadPitch& read) {
    pugi::xml_node pitch = note.append_child("pitch");
    addText(pitch, "step", toString(PitchName{read.name.step, 0}));
    if (read.name.alter != 0) addText(pitch, "alter", std::to_string(read.name.alter));
    addText(pitch, "octave", std::to_string(read.octave));
}

/// A reminder is in parentheses as on our page, where those of a ghosted note are in the way.
void MusicXmlNotes::addAccidental(pugi::xml_node note, const ReadPitch& pitch, bool isTied, bool isGhosted) {
    const auto sign = accidentals.signOf(pitch, isTied);
    if (!sign) return;
    pugi::xml_node accidental = addText(note, "accidental", accidentalName(sign->alter));
    if (!sign->isCautionary) return;
    accidental.append_attribute("cautionary") = "yes";
    if (!isGhosted) accidental.append_attribute("parentheses") = "yes";
}

TrillPlace MusicXmlNotes::trillPlaceOf(const Note& written, bool isByKey) const {
    const ReadPitch main = names.of(written);
    const int letter = static_cast<int>(main.name.step) + 1;
    const ReadPitch upper{{static_cast<Step>(letter % 7), 0}, main.octave + letter / 7};
    return {main.name, key, accidentals.standingAt(upper), isByKey};
}

void MusicXmlNotes::addStringPlace(pugi::xml_node notations, const Note& written, int semitonesUp) const {
    const auto place = places.find(written.id);
    if (place == places.end()) return;
    pugi::xml_node technical = notations.append_child("technical");
    addText(technical, "string", std::to_string(place->second.string + 1));
    addText(technical, "fret", std::to_string(place->second.fret + semitonesUp));
}

/// What it is on the chord under it; of a double stop a verse for each note.
void MusicXmlNotes::addDegree(pugi::xml_node note, const Note& written) const {
    const auto symbol = study.chordAt(written.onset);
    if (!symbol || !symbol->chord) return;
    pugi::xml_node lyric = note.append_child("lyric");
    addText(lyric, "syllabic", "single");
    addText(lyric, "text", degreeOf(written.pitch.midi, *symbol->chord).label);
}

PageBar MusicXmlNotes::shown(PageBar bar) const {
    for (PagePiece& piece : bar.pieces)
        if (piece.event && isHidden(piece)) piece.event.reset();
    return bar;
}

bool MusicXmlNotes::isHidden(const PagePiece& piece) const {
    const std::vector<Note>& together = line[*piece.event].notes;
    return isTablature && std::none_of(together.begin(), together.end(),
                                       [this](const Note& note) { return places.contains(note.id); });
}

bool MusicXmlNotes::isUnderSlur(std::size_t event) const {
    if (event == 0 || event >= line.size()) return false;
    return isTablature ? isSlurredOnString(line[event - 1], line[event], places)
                       : earwright::isUnderSlur(line[event]);
}

bool MusicXmlNotes::slurEnds(std::size_t event) const {
    return isUnderSlur(event) && !isUnderSlur(event + 1);
}

bool MusicXmlNotes::slurBegins(std::size_t event) const {
    return !isUnderSlur(event) && isUnderSlur(event + 1);
}

/// One trill over notes that have different steps above them.
bool MusicXmlNotes::sharesTrillByKey(std::size_t event) const {
    const std::vector<Note>& together = line[event].notes;
    const auto byKey = [this](const Note& note) {
        return note.phrasing.trill && goesByKey(*note.phrasing.trill, trillPlaceOf(note));
    };
    const auto another = [&](const Note& note) {
        return note.phrasing.trill != together.front().phrasing.trill;
    };
    return std::any_of(together.begin(), together.end(), another) &&
           std::all_of(together.begin(), together.end(), byKey);
}

bool MusicXmlNotes::sharesMarksOfChord(std::size_t event, std::size_t index) const {
    const std::vector<Note>& together = line[event].notes;
    Phrasing other = together[index].phrasing;
    if (sharesTrillByKey(event)) other.trill = together.front().phrasing.trill;
    return sharesMarks(together.front().phrasing, other);
}

Phrasing MusicXmlNotes::shownPhrasing(std::size_t event, std::size_t index) const {
    const std::vector<Note>& together = line[event].notes;
    const Phrasing& own = together[index].phrasing;
    return index > 0 && sharesMarksOfChord(event, index) ? withoutShared(together.front().phrasing, own)
                                                         : own;
}

/// What leads from this note to the next, and from the one before to this; what leads to the notes of a
/// double stop begins at the first note before.
void MusicXmlNotes::addJoins(pugi::xml_node notations, const PagePiece& piece, std::size_t index) const {
    const std::size_t event = *piece.event;
    const auto byHand = [&](SlurBy by, const char* type, std::size_t of) {
        const char* name = by == SlurBy::HammerOn ? "hammer-on" : "pull-off";
        pugi::xml_node mark = notations.append_child("technical").append_child(name);
        mark.append_attribute("type") = type;
        if (of > 0) mark.append_attribute("number") = numberOf(of);
    };
    const auto say = [&](const char* word) {
        addText(notations.append_child("technical"), "other-technical", word);
    };
    const Phrasing& here = line[event].notes[index].phrasing;
    if (!piece.tiedFromBefore && !isTablature && index > 0 && !sharesMarksOfChord(event, index))
        say(ownSignsWord);
    if (!piece.tiedFromBefore && event > 0) {
        if (here.slurBy && !leavesString(line[event - 1], line[event].notes[index], places))
            byHand(*here.slurBy, "stop", index);
        if (here.pickedInSlur)
            say(pickedWord);
        else if (isUnderSlur(event) && !here.slurred)
            say(struckWord);
    }
    if (piece.tiedOn || index > 0 || event + 1 == line.size()) return;
    const std::vector<Note>& next = line[event + 1].notes;
    for (std::size_t i = 0; i < next.size(); ++i)
        if (next[i].phrasing.slurBy && !leavesString(line[event], next[i], places))
            byHand(*next[i].phrasing.slurBy, "start", i);
}

/// Each note of a double stop has a slide of its own, told apart by number.
void MusicXmlNotes::addSlides(pugi::xml_node notations, const PagePiece& piece, std::size_t index) const {
    const std::size_t event = *piece.event;
    const auto add = [&](const char* type, std::size_t of) {
        pugi::xml_node slide = notations.append_child("slide");
        slide.append_attribute("type") = type;
        slide.append_attribute("number") = numberOf(of);
    };
    if (!piece.tiedFromBefore && event > 0 && goesOn(line, event - 1) && index == 0)
        for (std::size_t i = 0; i < line[event - 1].notes.size(); ++i)
            if (line[event - 1].notes[i].phrasing.slidesToNext) add("stop", i);
    if (!piece.tiedOn && line[event].notes[index].phrasing.slidesToNext && goesOn(line, event))
        add("start", index);
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
    const Note& written = line[*piece.event].notes[index];
    const bool endsGraces =
        !phrasing.graceNotes.empty() && (index == 0 || !haveEqualGraces(line[*piece.event]));
    if (endsGraces && !piece.tiedFromBefore && showsGraces(line[*piece.event]))
        addSlur(notations, "stop", graceSlurOf(index));
    if (isTablature)
        addTabPhrasing(notations, piece, phrasing);
    else
        addPhrasing(notations, piece, shownPhrasing(*piece.event, index),
                    trillPlaceOf(written, sharesTrillByKey(*piece.event)));
    // A tied note of tablature without its place is drawn anywhere by others.
    if (!piece.tiedFromBefore || isTablature) addStringPlace(notations, written);
    addJoins(notations, piece, index);
    addSlides(notations, piece, index);
    if (!notations.first_child()) note.remove_child(notations);
}

} // namespace earwright
