#include "core/exchange/MusicXmlPart.h"

#include "core/engraving/WrittenName.h"
#include "core/exchange/HarmonyReading.h"
#include "core/exchange/MusicXmlPhrasing.h"
#include "core/study/Limits.h"
#include "core/study/PageOrder.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string_view>
#include <utility>

namespace earwright {

namespace {

constexpr std::int64_t mostBars = 10'000;
constexpr std::size_t mostNotes = 20'000;
constexpr std::int64_t mostDivisions = 100'000;
constexpr std::int64_t longestDuration = 10'000'000;
constexpr std::int64_t mostLookups = 5'000'000;
/// Of a kind of mark; no music has more, and a file made to keep us busy may.
constexpr std::size_t mostMarks = 1'000;
/// A pitch that no line can have, for a note that names none.
constexpr int noPitch = -1;
constexpr std::pair<std::string_view, Dynamic> musicXmlDynamics[] = {
    {"ppp", Dynamic::ppp}, {"pp", Dynamic::pp},   {"p", Dynamic::p},
    {"mp", Dynamic::mp},   {"mf", Dynamic::mf},   {"f", Dynamic::f},
    {"ff", Dynamic::ff},   {"fff", Dynamic::fff}, {"sfz", Dynamic::sfz}};

std::string_view nameOf(pugi::xml_node node) {
    return node.name();
}

/// Concert key of a part whose sounding pitch lies so many semitones from the written one.
int concertFifths(int written, int semitones) {
    int fifths = written + 7 * (semitones % 12);
    while (fifths > 6)
        fifths -= 12;
    while (fifths < -6)
        fifths += 12;
    return fifths;
}

std::optional<Meter> meterIn(pugi::xml_node time) {
    const Meter meter{time.child("beats").text().as_int(), time.child("beat-type").text().as_int()};
    const bool isUnit =
        meter.beatUnit >= 1 && meter.beatUnit <= 32 && (meter.beatUnit & (meter.beatUnit - 1)) == 0;
    if (!isUnit || meter.beatsPerBar < 1 || meter.beatsPerBar > 32) return std::nullopt;
    return meter;
}

} // namespace

std::optional<std::string> MusicXmlPart::read(pugi::xml_node part) {
    const auto measures = part.children("measure");
    const auto count = std::distance(measures.begin(), measures.end());
    if (count > mostBars) return "it has more than 10 000 bars";
    // The first meter counts the beats, so it is needed before anything else.
    if (const auto meter = meterIn(part.child("measure").child("attributes").child("time")))
        study.meter = *meter;
    std::int64_t index = 0;
    for (const pugi::xml_node measure : measures) {
        ++index;
        readMeasure(measure, index == 1, index == count);
        if (notes.size() > mostNotes) return "it has more than 20 000 notes";
    }
    addLine(imported, std::move(notes));
    finishTempo();
    study.page = settled(std::move(study.page));
    finishSpellings();
    return std::nullopt;
}

void MusicXmlPart::readMeasure(pugi::xml_node measure, bool isFirst, bool isLast) {
    const std::size_t firstNote = notes.size();
    barStart = study.meters().barStart(bar);
    meterBefore = study.meters().at(bar - 1);
    cursor = lastBegin = furthest = barStart;
    for (const pugi::xml_node element : measure.children())
        readElement(element);
    const Beats length = furthest - barStart;
    const Beats full = study.meters().barLength(bar);
    if (isFirst && length < full && !isLast) {
        // A pickup ends where bar 1 begins.
        for (std::size_t i = firstNote; i < notes.size(); ++i) {
            notes[i].begin -= length;
            notes[i].end -= length;
        }
        if (const auto held = study.chart.overrides.extract(1); !held.empty() && length > Beats(0))
            for (const PlacedChord& chord : held.mapped().chords)
                study.chart.overrides[0].chords.push_back({full - length + chord.withinBar, chord.symbol});
        return;
    }
    fitBar(length, isFirst, isLast);
    ++bar;
}

/// A bar that is longer or shorter than its meter gets one of its own.
void MusicXmlPart::fitBar(const Beats& length, bool isFirst, bool isLast) {
    const MeterMap meters = study.meters();
    const Meter standing = meters.at(bar);
    if (length == meters.barLength(bar) || length == Beats(0) || isLast) return;
    const Beats own = meters.inOwnBeats(length, bar);
    if (isFirst || bar < 2 || own.denominator() != 1 || own > Beats(32) ||
        study.page.meters.size() > mostMarks)
        return leaveOut(imported,
                        "A bar is longer or shorter than its meter; notes beyond its end were cut off.");
    std::erase_if(study.page.meters, [&](const MeterChange& change) { return change.bar == bar; });
    study.page.meters.push_back({bar, {static_cast<int>(own.numerator()), standing.beatUnit}});
    study.page.meters.push_back({bar + 1, standing});
}

void MusicXmlPart::readElement(pugi::xml_node element) {
    const std::string_view name = nameOf(element);
    if (name == "attributes")
        readAttributes(element);
    else if (name == "note")
        readNote(element);
    else if (name == "backup")
        cursor = std::max(barStart, cursor - length(element));
    else if (name == "forward")
        furthest = std::max(furthest, cursor += length(element));
    else if (name == "harmony")
        readHarmony(element);
    else if (name == "direction")
        readDirection(element);
    else if (name == "sound")
        readSound(element, offsetOf(element));
    else if (name == "barline")
        readBarline(element);
}

void MusicXmlPart::readAttributes(pugi::xml_node attributes) {
    if (const auto node = attributes.child("divisions"))
        divisions = std::clamp<std::int64_t>(node.text().as_llong(), 1, mostDivisions);
    if (const auto node = attributes.child("transpose"))
        transposition = std::clamp(node.child("chromatic").text().as_int() +
                                       12 * node.child("octave-change").text().as_int(),
                                   -60, 60);
    if (const auto node = attributes.child("key"); node && study.page.keys.size() < mostMarks) {
        const int fifths = std::clamp(node.child("fifths").text().as_int(), -mostFifths, mostFifths);
        const bool isMinor = std::string_view(node.child_value("mode")) == "minor";
        const KeySignature key{transposition % 12 == 0 ? fifths : concertFifths(fifths, transposition),
                               isMinor ? Mode::Minor : Mode::Major};
        if (study.page.keyAt(bar) != key) study.page.keys.push_back({bar, key});
    }
    const pugi::xml_node time = attributes.child("time");
    if (!time || cursor != barStart) return;
    const auto meter = meterIn(time);
    if (!meter) return leaveOut(imported, "A meter that no page here can show was left out.");
    if (bar < 2 || study.page.meters.size() > mostMarks) return;
    std::erase_if(study.page.meters, [&](const MeterChange& change) { return change.bar == bar; });
    if (meterBefore != *meter) study.page.meters.push_back({bar, *meter});
}

Beats MusicXmlPart::length(pugi::xml_node element) const {
    const auto duration =
        std::clamp<std::int64_t>(element.child("duration").text().as_llong(), 0, longestDuration);
    return Beats(duration * study.meter.beatUnit, 4 * divisions);
}

Beats MusicXmlPart::offsetOf(pugi::xml_node element) const {
    const auto offset = std::clamp<std::int64_t>(element.child("offset").text().as_llong(), -longestDuration,
                                                 longestDuration);
    return std::max(barStart, cursor + Beats(offset * study.meter.beatUnit, 4 * divisions));
}

Pitch MusicXmlPart::pitchOf(pugi::xml_node note) const {
    const pugi::xml_node pitch = note.child("pitch");
    static constexpr std::string_view letters = "CDEFGAB";
    const std::string_view letter = pitch.child_value("step");
    const std::size_t step = letter.size() == 1 ? letters.find(letter) : std::string_view::npos;
    const int alter =
        static_cast<int>(std::lround(std::clamp(pitch.child("alter").text().as_double(), -3.0, 3.0)));
    const int octave = std::clamp(pitch.child("octave").text().as_int(), -1, 10);
    if (step == std::string_view::npos) return {noPitch, {}};
    const PitchName name{static_cast<Step>(step), alter};
    const int midi = 12 * (octave + 1) + PitchName{name.step, 0}.pitchClass() + alter + transposition;
    if (transposition % 12 != 0 || std::abs(alter) > 2) return {midi, {}};
    return {midi, name};
}

bool MusicXmlPart::isChosen(pugi::xml_node note) {
    const std::string staff = note.child_value("staff");
    if (!staff.empty() && staff != "1") {
        leaveOut(imported, "Staves below the first were left out.");
        return false;
    }
    const std::string here = note.child_value("voice");
    if (!voice && note.child("pitch")) voice = here;
    if (!voice || here == *voice) return true;
    leaveOut(imported, "Voices beside the first were left out.");
    return false;
}

void MusicXmlPart::readNote(pugi::xml_node note) {
    const bool isGrace = note.child("grace");
    const bool isChord = note.child("chord");
    const Beats begin = isChord ? lastBegin : cursor;
    const Beats end = begin + (isGrace ? Beats(0) : length(note));
    if (!isChord && !isGrace) {
        lastBegin = cursor;
        cursor = end;
    }
    furthest = std::max(furthest, end);
    if (!isChosen(note)) return;
    if (note.child("lyric")) leaveOut(imported, "Words that are sung were left out.");
    if (note.child("unpitched")) leaveOut(imported, "Notes without a pitch were left out.");
    if (!note.child("pitch") || note.child("cue")) return;
    const Pitch pitch = pitchOf(note);
    if (isGrace) {
        if (pitch.midi >= lowestMidi && pitch.midi <= highestMidi && graceNotes.size() < 8)
            graceNotes.push_back(pitch.midi);
        return;
    }
    if (end > begin) readSounding(note, pitch, begin, end);
}

void MusicXmlPart::readSounding(pugi::xml_node note, const Pitch& pitch, const Beats& begin,
                                const Beats& end) {
    int slurStarts = 0;
    int slurStops = 0;
    bool tieStarts = false;
    bool tieStops = false;
    for (const pugi::xml_node tie : note.children("tie"))
        (std::string_view(tie.attribute("type").value()) == "start" ? tieStarts : tieStops) = true;
    for (const pugi::xml_node notations : note.children("notations"))
        for (const pugi::xml_node slur : notations.children("slur")) {
            const std::string_view type = slur.attribute("type").value();
            if (type == "start") ++slurStarts;
            if (type == "stop") ++slurStops;
        }
    Phrasing phrasing = musicXmlPhrasing(note);
    const auto open = tied.find(pitch.midi);
    std::size_t index = notes.size();
    if (tieStops && open != tied.end() && notes[open->second].end == begin) {
        index = open->second;
        notes[index].end = end;
        addEndOf(notes[index].phrasing, phrasing);
    } else {
        phrasing.slurred = phrasing.slurred || (openSlurs > 0 && !note.child("chord"));
        phrasing.graceNotes = std::move(graceNotes);
        graceNotes.clear();
        notes.push_back({begin, end, pitch, ForeignNote{}.loudness, phrasing});
    }
    tied.erase(pitch.midi);
    if (tieStarts) tied[pitch.midi] = index;
    openSlurs = std::max(0, openSlurs - slurStops) + slurStarts;
}

void MusicXmlPart::readHarmony(pugi::xml_node harmony) {
    const auto symbol = harmonySymbol(harmony);
    if (!symbol) return leaveOut(imported, "Chord symbols of kinds not known here were left out.");
    const Beats within = offsetOf(harmony) - barStart;
    if (!study.page.meters.empty() || within >= study.meter.barLength() || within.denominator() > 12)
        return leaveOut(imported, "Chord symbols behind a change of meter, or between beats, were left out.");
    auto& chords = study.chart.overrides[bar].chords;
    if (chords.empty() || chords.back().withinBar < within) chords.push_back({within, *symbol});
}

void MusicXmlPart::readDirection(pugi::xml_node direction) {
    const Beats place = offsetOf(direction);
    std::string words;
    for (const pugi::xml_node type : direction.children("direction-type")) {
        for (const pugi::xml_node text : type.children("words"))
            words += (words.empty() ? "" : " ") + std::string(text.child_value());
        for (const pugi::xml_node sign : type.child("dynamics").children())
            for (const auto& [word, level] : musicXmlDynamics)
                if (nameOf(sign) == word && study.page.dynamics.size() < mostMarks)
                    study.page.dynamics.push_back({place, level});
        if (const auto wedge = type.child("wedge")) readWedge(wedge, place);
        if (const auto metronome = type.child("metronome")) {
            const double number = metronome.child("per-minute").text().as_double();
            const bool isQuarter = std::string_view(metronome.child_value("beat-unit")) == "quarter";
            if (isQuarter && number >= slowestTempo && number <= fastestTempo &&
                study.page.tempos.size() < mostMarks) {
                study.page.tempos.push_back({place, words, number});
                words.clear();
            }
        }
    }
    if (const auto sound = direction.child("sound")) readSound(sound, place);
    if (words.empty() || study.page.texts.size() >= mostMarks) return;
    const bool isBelow = std::string_view(direction.attribute("placement").value()) == "below";
    study.page.texts.push_back({place, words, isBelow});
}

void MusicXmlPart::readWedge(pugi::xml_node wedge, const Beats& place) {
    const std::string_view type = wedge.attribute("type").value();
    if (type == "crescendo" || type == "diminuendo") {
        openWedge = type == "crescendo" ? HairpinKind::Louder : HairpinKind::Softer;
        wedgeBegin = place;
    } else if (type == "stop" && openWedge) {
        if (study.page.hairpins.size() < mostMarks)
            study.page.hairpins.push_back({{wedgeBegin, place}, *openWedge});
        openWedge.reset();
    }
}

void MusicXmlPart::readSound(pugi::xml_node sound, const Beats& place) {
    const double tempo = sound.attribute("tempo").as_double();
    if (tempo >= slowestTempo && tempo <= fastestTempo) tempos[Beats(place.floor())] = tempo;
    const pugi::xml_node swing = sound.child("swing");
    if (!swing || study.page.swings.size() >= mostMarks) return;
    const double first = swing.child("first").text().as_double();
    const double second = swing.child("second").text().as_double();
    const bool isSixteenth = std::string_view(swing.child_value("swing-type")) == "16th";
    const double ratio =
        swing.child("straight") || second <= 0 ? 1 : std::clamp(first / second, leastSwing, mostSwing);
    study.page.swings.push_back({place, {ratio, isSixteenth ? 16 : 8}});
}

void MusicXmlPart::readBarline(pugi::xml_node barline) {
    const std::string_view ending = barline.child("ending").attribute("type").value();
    const std::string_view number = barline.child("ending").attribute("number").value();
    if (ending == "start") endingFrom = number.starts_with("1") ? bar : 0;
    const pugi::xml_node repeat = barline.child("repeat");
    if (!repeat) return;
    if (std::string_view(repeat.attribute("direction").value()) == "forward") {
        repeatFrom = bar;
        return;
    }
    const int times = std::clamp(repeat.attribute("times").as_int(2), 2, mostTimes);
    const auto endingBars = endingFrom > 0 ? std::min<std::int64_t>(bar - endingFrom + 1, mostEndingBars) : 0;
    if (study.page.repeats.size() < mostMarks)
        study.page.repeats.push_back({repeatFrom, bar, times, static_cast<int>(endingBars)});
    repeatFrom = bar + 1;
    endingFrom = 0;
}

/// Beat marks as the tempos say, one wherever it changes and one behind the last note.
void MusicXmlPart::finishTempo() {
    if (tempos.empty()) return;
    const double first = tempos.begin()->second;
    tempos.try_emplace(Beats(0), first);
    const Beats last = study.notes.empty() ? Beats(0) : study.notes.back().end();
    tempos.try_emplace(std::max(Beats(last.floor() + 1), Beats(tempos.rbegin()->first.floor() + 4)), first);
    std::vector<BeatMark> marks;
    double seconds = 0;
    for (auto tempo = tempos.begin(); tempo != tempos.end(); ++tempo) {
        if (tempo != tempos.begin()) {
            const auto before = std::prev(tempo);
            const double quarters = (tempo->first - before->first).toDouble() * 4 / study.meter.beatUnit;
            seconds += quarters * 60 / before->second;
        }
        marks.push_back({tempo->first, Seconds(seconds)});
    }
    study.beatMap = BeatMap(std::move(marks));
    if (!isWithinLimits(study.beatMap)) study.beatMap = {};
}

/// Only a spelling that is not what the page would choose by itself is the user's.
void MusicXmlPart::finishSpellings() {
    // Looking a chord up goes back over its empty bars; a file made to keep us busy keeps its spellings.
    if (static_cast<std::int64_t>(study.notes.size()) * bar > mostLookups) return;
    for (Note& note : study.notes) {
        Note plain = note;
        plain.pitch.spelling.reset();
        if (note.pitch.spelling && writtenName(plain, study) == *note.pitch.spelling)
            note.pitch.spelling.reset();
    }
}

} // namespace earwright
