#include "core/exchange/MusicXmlPart.h"

#include "core/engraving/WrittenNames.h"
#include "core/exchange/ForeignStrings.h"
#include "core/exchange/HarmonyReading.h"
#include "core/exchange/MusicXmlLeftOut.h"
#include "core/exchange/MusicXmlLength.h"
#include "core/study/Limits.h"
#include "core/study/PageOrder.h"

#include <algorithm>
#include <charconv>
#include <cstdlib>
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
/// Bars of a pickup that is numbered from below.
constexpr int longestPickup = 100;

std::string_view nameOf(pugi::xml_node node) {
    return node.name();
}

/// Of "4", and of "3+2", which stands for five.
int sumOf(std::string_view beats) {
    int sum = 0;
    while (!beats.empty()) {
        int number = 0;
        const auto [end, problem] = std::from_chars(beats.data(), beats.data() + beats.size(), number);
        if (problem != std::errc() || number < 1 || number > 64) return 0;
        sum += number;
        beats.remove_prefix(static_cast<std::size_t>(end - beats.data()));
        const std::size_t next = beats.find_first_not_of("+ ");
        beats.remove_prefix(next == std::string_view::npos ? beats.size() : next);
    }
    return sum;
}

std::optional<Meter> meterIn(pugi::xml_node time) {
    const Meter meter{sumOf(time.child_value("beats")), time.child("beat-type").text().as_int()};
    const bool isUnit =
        meter.beatUnit >= 1 && meter.beatUnit <= 32 && (meter.beatUnit & (meter.beatUnit - 1)) == 0;
    if (!isUnit || meter.beatsPerBar < 1 || meter.beatsPerBar > 32) return std::nullopt;
    return meter;
}

/// Of a bar so many units long, with that unit or a smaller one; nothing where no meter is.
std::optional<Meter> meterFor(const Beats& length, int unit) {
    constexpr int smallestUnit = 32;
    constexpr std::int64_t mostBeats = 32;
    for (int finer = 1; unit * finer <= smallestUnit; finer *= 2)
        if (const Beats beats = length * finer; beats.denominator() == 1 && beats <= Beats(mostBeats))
            return Meter{static_cast<int>(beats.numerator()), unit * finer};
    return std::nullopt;
}

/// The number of a first measure that is part of a pickup; 1 where it is not.
std::int64_t numberOf(pugi::xml_node measure) {
    const int number = measure.attribute("number").as_int(1);
    return number <= 0 && number >= -longestPickup ? number : 1;
}

} // namespace

std::optional<std::string> MusicXmlPart::read(pugi::xml_node part) {
    const auto measures = part.children("measure");
    const auto count = std::distance(measures.begin(), measures.end());
    if (count > mostBars) return "it has more than 10 000 bars";
    findMeter(part);
    voice = fullestVoice(part);
    std::int64_t index = 0;
    for (const pugi::xml_node measure : measures) {
        ++index;
        readMeasure(measure, index == 1, index == count);
        if (line.size() > mostNotes) return "it has more than 20 000 notes";
    }
    line.finish(tuningIn(part));
    directions.finishTempo();
    study.page = settled(std::move(study.page));
    finishPickup();
    divideBeats(imported);
    // Where a line is played depends on how fast it goes.
    loosenPins(study);
    finishChords();
    finishSpellings();
    nameLeftOutSigns(imported, part);
    return std::nullopt;
}

/// The first meter counts the beats, so it is needed before anything else. Where none is stated bars are as
/// long as the longest before one is, if that is a number of quarters or eighths.
void MusicXmlPart::findMeter(pugi::xml_node part) {
    const pugi::xml_node stated = part.child("measure").child("attributes").child("time");
    if (const auto meter = meterIn(stated)) study.meter = *meter;
    meters = study.meters();
    if (stated) return;
    Beats longest;
    for (const pugi::xml_node measure : part.children("measure")) {
        if (measure.child("attributes").child("time")) break;
        readDivisions(measure.child("attributes"));
        longest = std::max(longest, lengthOf(measure));
    }
    divisions = 1;
    const Beats eighths = longest * 2;
    if (eighths <= Beats(0) || eighths > Beats(32) || eighths.denominator() != 1) return;
    const auto count = static_cast<int>(eighths.numerator());
    study.meter = count % 2 == 0 ? Meter{count / 2, 4} : Meter{count, 8};
    meters = study.meters();
}

void MusicXmlPart::readDivisions(pugi::xml_node attributes) {
    if (const auto node = attributes.child("divisions"))
        divisions = std::clamp<std::int64_t>(node.text().as_llong(), 1, mostDivisions);
}

void MusicXmlPart::readMeasure(pugi::xml_node measure, bool isFirst, bool isLast) {
    readDivisions(measure.child("attributes"));
    if (isFirst)
        startFirstBar(measure, isLast);
    else
        barStart = meters.barStart(bar);
    meterBefore = meters.at(bar - 1);
    cursor = lastBegin = furthest = barStart;
    for (const pugi::xml_node element : measure.children())
        readElement(element);
    fitBar(furthest - meters.barStart(bar), isLast);
    ++bar;
}

Beats MusicXmlPart::lengthOf(pugi::xml_node measure) const {
    Beats at;
    Beats most;
    std::int64_t perQuarter = divisions;
    for (const pugi::xml_node element : measure.children()) {
        if (const auto node = element.child("divisions"); node && nameOf(element) == "attributes")
            perQuarter = std::clamp<std::int64_t>(node.text().as_llong(), 1, mostDivisions);
        if (element.child("chord") || element.child("grace")) continue;
        const Beats own = musicXmlLength(element, perQuarter) * study.meter.beatUnit / 4;
        if (nameOf(element) == "backup")
            at = std::max(Beats(0), at - own);
        else if (nameOf(element) == "note" || nameOf(element) == "forward")
            most = std::max(most, at = bounded(at + own));
    }
    return most;
}

/// A first bar that is not full is a pickup and ends where the next one begins; so is one that is numbered 0
/// or below.
void MusicXmlPart::startFirstBar(pugi::xml_node measure, bool isLast) {
    const Beats own = lengthOf(measure);
    const Beats full = study.meter.barLength();
    bar = numberOf(measure);
    const bool isShort = own > Beats(0) && own < full;
    if (bar == 1 && isShort && !isLast) bar = 0;
    barStart = meters.barStart(bar);
    if (isShort && bar < 1) barStart += full - own;
    lineBegin = barStart;
}

/// A bar that is longer or shorter than its meter gets one of its own, in a smaller unit where it needs one.
void MusicXmlPart::fitBar(const Beats& length, bool isLast) {
    const Meter standing = meters.at(bar);
    if (length == meters.barLength(bar) || furthest == barStart || isLast) return;
    const auto here = meterFor(meters.inOwnBeats(length, bar), standing.beatUnit);
    // Bar 1 says how long the pickup's bar is as well, so it can't be shorter than the pickup, and what is
    // counted.
    const bool canBeOwn =
        here &&
        (bar > 1 || (bar == 1 && Beats(0) - lineBegin <= length && here->beatUnit == standing.beatUnit));
    if (!canBeOwn || study.page.meters.size() > mostMarks)
        return leaveOut(imported,
                        "A bar is longer or shorter than its meter; what is beyond its end stands in "
                        "the next one.");
    std::erase_if(study.page.meters, [&](const MeterChange& change) { return change.bar == bar; });
    if (bar == 1) {
        // The pickup's bar becomes as long; its chords stay as far before bar 1.
        if (const auto pickup = study.chart.overrides.find(0); pickup != study.chart.overrides.end())
            for (PlacedChord& chord : pickup->second.chords)
                chord.withinBar += length - meters.barLength(0);
        study.meter = *here;
    } else {
        study.page.meters.push_back({bar, *here});
    }
    study.page.meters.push_back({bar + 1, standing});
    meters = study.meters();
}

void MusicXmlPart::readElement(pugi::xml_node element) {
    const std::string_view name = nameOf(element);
    if (name == "attributes")
        readAttributes(element);
    else if (name == "note")
        readNote(element);
    else if (name == "backup")
        goBack(length(element));
    else if (name == "forward")
        furthest = std::max(furthest, cursor = bounded(cursor + length(element)));
    else if (name == "harmony")
        readHarmony(element);
    else if (name == "direction")
        readDirection(element);
    else if (name == "sound")
        directions.readSound(element, offsetOf(element));
    else if (name == "barline")
        readBarline(element);
}

void MusicXmlPart::readAttributes(pugi::xml_node attributes) {
    readDivisions(attributes);
    if (const auto node = attributes.child("transpose")) transposition = transpositionIn(node);
    if (const auto node = attributes.child("key")) readKey(node);
    if (const auto node = attributes.child("time")) readTime(node);
}

void MusicXmlPart::readKey(pugi::xml_node node) {
    const std::string_view staff = node.attribute("number").value();
    if (!staff.empty() && staff != voice.staff) return;
    if (!node.child("fifths")) return leaveOut(imported, "A key that no page here can show was left out.");
    const int fifths = std::clamp(node.child("fifths").text().as_int(), -mostFifths, mostFifths);
    const bool isMinor = std::string_view(node.child_value("mode")) == "minor";
    readKeySignature = {fifths, isMinor ? Mode::Minor : Mode::Major};
    const KeySignature key = transposition.sounding(readKeySignature);
    if (study.page.keyAt(bar) == key) return;
    if (cursor > barStart) leaveOut(imported, "A change of key within a bar was written at its beginning.");
    if (study.page.keys.size() < mostMarks) study.page.keys.push_back({std::max<std::int64_t>(bar, 1), key});
}

void MusicXmlPart::readTime(pugi::xml_node time) {
    if (time.child("senza-misura"))
        return leaveOut(imported, "Music without a meter was written in bars of the meter before.");
    const auto meter = meterIn(time);
    if (!meter) return leaveOut(imported, "A meter that no page here can show was left out.");
    if (cursor != barStart) return leaveOut(imported, "A change of meter within a bar was left out.");
    if (bar < 2 || study.page.meters.size() > mostMarks) return;
    std::erase_if(study.page.meters, [&](const MeterChange& change) { return change.bar == bar; });
    if (meterBefore != *meter) study.page.meters.push_back({bar, *meter});
    meters = study.meters();
}

Beats MusicXmlPart::length(pugi::xml_node element) const {
    return musicXmlLength(element, divisions) * study.meter.beatUnit / 4;
}

void MusicXmlPart::goBack(const Beats& by) {
    // What was rounded leaves a rest too short for any note.
    const Beats shortest(1, 100);
    const Beats back = bounded(cursor - by);
    cursor = back - barStart < shortest ? barStart : back;
}

Beats MusicXmlPart::offsetOf(pugi::xml_node element) const {
    const auto offset = std::clamp<std::int64_t>(element.child("offset").text().as_llong(), -longestDuration,
                                                 longestDuration);
    return std::max(barStart, writable(cursor + Beats(offset * study.meter.beatUnit, 4 * divisions)));
}

Beats MusicXmlPart::bounded(const Beats& place) {
    // Such a place and a length of mostDivisions add up within 64 bits.
    constexpr std::int64_t finest = 20'000;
    return std::min(place.denominator() > finest ? writable(place) : place, Beats(furthestMark));
}

bool MusicXmlPart::isChosen(pugi::xml_node note) {
    const MusicXmlVoice here = voiceOf(note);
    if (here == voice) return true;
    if (!note.child("rest"))
        leaveOut(imported, here.staff != voice.staff ? "Other staves of the part were left out."
                                                     : "Other voices of the part were left out.");
    return false;
}

void MusicXmlPart::readNote(pugi::xml_node note) {
    const bool isGrace = note.child("grace");
    const bool isChord = note.child("chord");
    const Beats begin = isChord && !isGrace ? lastBegin : cursor;
    const Beats end = isGrace ? begin : bounded(begin + length(note));
    if (!isChord && !isGrace) {
        lastBegin = cursor;
        cursor = end;
    }
    furthest = std::max(furthest, end);
    if (!isChosen(note) || !note.child("pitch") || note.child("cue")) return;
    for (const pugi::xml_node notations : note.children("notations"))
        if (!isChord) directions.readSigns(notations, writable(begin));
    line.add(note, {begin, end, transposition.under(readKeySignature), readKeySignature});
}

void MusicXmlPart::readHarmony(pugi::xml_node harmony) {
    const auto symbol = harmonySymbol(harmony, transposition.under(readKeySignature));
    if (!symbol) return leaveOut(imported, "Chord symbols of kinds not known here were left out.");
    addChord(offsetOf(harmony), *symbol);
}

void MusicXmlPart::readDirection(pugi::xml_node direction) {
    const Beats place = offsetOf(direction);
    const std::string staff = direction.child_value("staff");
    if (!staff.empty() && staff != voice.staff) return;
    if (const auto text = directions.read(direction, place)) addChord(place, parseChordSymbol(*text));
}

void MusicXmlPart::addChord(const Beats& place, const ChordSymbol& symbol) {
    const Beats within = place - meters.barStart(bar);
    if (!earwright::addChord(imported, bar, within, symbol))
        leaveOut(imported, "Chord symbols between beats were left out.");
}

void MusicXmlPart::readBarline(pugi::xml_node barline) {
    const std::string_view ending = barline.child("ending").attribute("type").value();
    const std::string_view number = barline.child("ending").attribute("number").value();
    // "1" or "1, 2", and not "10".
    const bool isFirst = number == "1" || number.starts_with("1,");
    if (ending == "start") endingFrom = isFirst ? bar : 0;
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

/// The page begins where the file's does. A pickup that begins within a tuplet has the whole of its beat.
void MusicXmlPart::finishPickup() {
    for (const Beats& each : {-lineBegin, -Beats(lineBegin.floor())})
        if (isUsablePickup(each, study.meter)) {
            study.page.pickup = each;
            return;
        }
}

/// How long a bar is may be told behind its chords.
void MusicXmlPart::finishChords() {
    const MeterMap final = study.meters();
    for (auto& [number, written] : study.chart.overrides) {
        const Beats length = final.barLength(number);
        const auto isBehind = [&](const PlacedChord& chord) { return chord.withinBar >= length; };
        if (std::erase_if(written.chords, isBehind) > 0)
            leaveOut(imported, "Chord symbols behind the end of their bar were left out.");
    }
}

/// Only a name that the page would not choose by itself is the user's: neither as the line sounds nor as the
/// player read it.
void MusicXmlPart::finishSpellings() {
    // Looking a chord up goes back over its empty bars; a file made to keep us busy keeps its spellings.
    if (static_cast<std::int64_t>(study.notes.size()) * bar > mostLookups) return;
    const WrittenNames sounding(study);
    const Reading reading = transposition.reading().value_or(Reading::Concert);
    const WrittenNames read = reading == Reading::Concert ? sounding : WrittenNames(study, reading);
    for (Note& note : study.notes) {
        const PitchName ownName = sounding.byItself(note);
        const KeySignature key = study.page.keyAt(meters.barOf(note.onset));
        const PitchName chosen = note.pitch.spelling.value_or(ownName);
        const bool isAsRead = readAs(reading, note.pitch.midi, chosen, key).name == read.byItself(note);
        if (chosen == ownName || (isAsRead && reading != Reading::Concert)) note.pitch.spelling.reset();
    }
}

} // namespace earwright
