// Study to JSON: StudyFile::text().
#include "core/study/DayText.h"
#include "core/study/PageMarksText.h"
#include "core/study/StudyFile.h"
#include "core/study/StudyJson.h"
#include "core/study/StudyWords.h"

namespace earwright {

namespace {

using Json = nlohmann::ordered_json;

Json toJson(const RecordingRef& recording) {
    return {{"path", recording.path},
            {"contentHash", recording.contentHash},
            {"rate", recording.rate.hertz},
            {"length", recording.length.value}};
}

Json toJson(const BeatMark& mark) {
    return {{"position", toJson(mark.position)}, {"time", mark.time.value}};
}

Json toJson(const BarChords& bar) {
    return listOf(bar.chords, [](const PlacedChord& chord) {
        return Json{{"at", toJson(chord.withinBar)}, {"symbol", chord.symbol.text}};
    });
}

Json toJson(const Span& span) {
    return {{"id", span.id.value},
            {"kind", wordFor(spanKindWords, span.kind)},
            {"name", span.name},
            {"begin", span.range.begin.value},
            {"end", span.range.end.value}};
}

void addPhrasing(Json& note, const Phrasing& phrasing) {
    if (phrasing.slideIn) note["slideIn"] = wordFor(slideInWords, *phrasing.slideIn);
    if (phrasing.slideOut) note["slideOut"] = wordFor(slideOutWords, *phrasing.slideOut);
    if (phrasing.turn) note["turn"] = wordFor(turnWords, *phrasing.turn);
    if (phrasing.mordent) note["mordent"] = wordFor(mordentWords, *phrasing.mordent);
    if (phrasing.slurBy) note["slurBy"] = wordFor(slurByWords, *phrasing.slurBy);
    if (phrasing.bend)
        note["bend"] = {{"quarterTones", phrasing.bend->quarterTones},
                        {"shape", wordFor(bendWords, phrasing.bend->shape)}};
    if (!phrasing.graceNotes.empty()) note["graceNotes"] = phrasing.graceNotes;
    if (phrasing.trill) note["trill"] = *phrasing.trill;
    for (const auto& [member, mark] : phrasingMarks)
        if (phrasing.*mark) note[member] = true;
}

Json toJson(const Note& note) {
    Json json{{"id", note.id.value},
              {"onset", toJson(note.onset)},
              {"length", toJson(note.length)},
              {"midi", note.pitch.midi}};
    if (note.pitch.spelling) json["spelling"] = spellingText(*note.pitch.spelling);
    json["loudness"] = note.loudness;
    addPhrasing(json, note.phrasing);
    if (note.pinnedString) json["string"] = *note.pinnedString + 1;
    return json;
}

Json toJson(const LooseEnd& looseEnd) {
    return {{"id", looseEnd.id.value},
            {"time", looseEnd.time.value},
            {"text", looseEnd.text},
            {"done", looseEnd.done}};
}

Json toJson(const Take& take) {
    Json json{{"id", take.id.value},        {"name", take.name},
              {"file", take.file},          {"begin", take.part.begin.value},
              {"end", take.part.end.value}, {"at", take.at.value},
              {"speed", take.speed},        {"semitones", take.semitones},
              {"recorded", take.recorded}};
    if (take.chosen) json["chosen"] = true;
    return json;
}

Json toJson(const EarPlace& place) {
    Json json{{"time", place.time.value},
              {"help", wordFor(helpWords, place.help)},
              {"settled", place.settled},
              {"unwritten", place.unwritten}};
    if (place.mistake) json["mistake"] = wordFor(mistakeWords, *place.mistake);
    if (place.note) json["note"] = place.note->value;
    return json;
}

Json toJson(const FoundNote& found) {
    Json json{{"time", found.time.value},
              {"note", found.note.value},
              {"day", dayText(found.day)},
              {"help", wordFor(helpWords, found.help)}};
    if (found.interval) json["interval"] = *found.interval;
    if (found.mistake) json["mistake"] = wordFor(mistakeWords, *found.mistake);
    return json;
}

Json toJson(const PhraseRecord& phrase) {
    const auto each = [](const auto& element) { return toJson(element); };
    Json json{{"phrase", phrase.phrase.value}, {"places", listOf(phrase.places, each)}};
    if (!phrase.found.empty()) json["found"] = listOf(phrase.found, each);
    return json;
}

Json toJson(const Players& players) {
    Json json = Json::object();
    if (players.line) {
        if (const auto* range = std::get_if<PitchRange>(&*players.line))
            json["range"] = {{"lowest", range->lowestMidi}, {"highest", range->highestMidi}};
        else
            json["line"] = wordFor(std::get<Instrument>(*players.line));
    }
    if (players.bass != StereoPlace::Unknown) json["bass"] = wordFor(stereoPlaceWords, players.bass);
    return json;
}

Json toJson(const Practice& practice) {
    Json json = Json::object();
    if (practice.loop)
        json["loop"] = {{"begin", practice.loop->begin.value}, {"end", practice.loop->end.value}};
    json["speed"] = practice.speed;
    json["semitones"] = practice.semitones;
    json["cents"] = practice.cents;
    return json;
}

Json overridesToJson(const ChordChart& chart) {
    return listOf(chart.overrides, [](const auto& entry) {
        return Json{{"bar", entry.first}, {"chords", toJson(entry.second)}};
    });
}

Json divisionsToJson(const Study& study) {
    return listOf(study.divisions, [](const auto& entry) {
        return Json{{"beat", toJson(entry.first)}, {"parts", static_cast<int>(entry.second)}};
    });
}

Json toJson(const StringTuning& tuning) {
    return {{"strings", tuning.strings}, {"frets", tuning.frets}, {"capo", tuning.capo}};
}

Json toJson(const Study& study) {
    const auto each = [](const auto& element) { return toJson(element); };
    Json json{{"format", studyFormatName},
              {"version", StudyFile::version},
              {"title", study.title},
              {"recording", toJson(study.recording)},
              {"meter", {{"beatsPerBar", study.meter.beatsPerBar}, {"beatUnit", study.meter.beatUnit}}},
              {"beatMarks", listOf(study.beatMap.marks(), each)},
              {"form", listOf(study.chart.form, each)},
              {"overrides", overridesToJson(study.chart)},
              {"spans", listOf(study.spans, each)},
              {"notes", listOf(study.notes, each)},
              {"page", pageMarksToJson(study.page)}};
    // A guitar as usual needs no word.
    if (study.tuning != StringTuning{}) json["tuning"] = toJson(study.tuning);
    if (study.players != Players{}) json["players"] = toJson(study.players);
    json.update(Json{{"divisions", divisionsToJson(study)},
                     {"looseEnds", listOf(study.looseEnds, each)},
                     {"takes", listOf(study.takes, each)},
                     {"earRecord", listOf(study.earRecord.phrases, each)},
                     {"practice", toJson(study.practice)},
                     {"nextId", study.nextId}});
    return json;
}

/// Bytes that are not UTF-8 become the replacement character instead of spoiling the whole file.
std::string compact(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace

std::string StudyFile::text(const Study& study) {
    std::string text = "{";
    const Json json = toJson(study);
    for (const auto& [name, value] : json.items()) {
        text += (text.size() > 1 ? ",\n  " : "\n  ") + compact(Json(name)) + ": ";
        if (!value.is_array() || value.empty()) {
            text += compact(value);
            continue;
        }
        const char* before = "[\n    ";
        for (const Json& item : value) {
            text += before + compact(item);
            before = ",\n    ";
        }
        text += "\n  ]";
    }
    return text + "\n}\n";
}

} // namespace earwright
