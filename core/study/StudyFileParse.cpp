// JSON to study: StudyFile::parse().
#include "core/study/EarRecordReading.h"
#include "core/study/JsonSyntax.h"
#include "core/study/Limits.h"
#include "core/study/Order.h"
#include "core/study/PageMarksReading.h"
#include "core/study/PhrasingReading.h"
#include "core/study/PlayersReading.h"
#include "core/study/StrictJson.h"
#include "core/study/StudyFile.h"
#include "core/study/StudyNumbers.h"
#include "core/study/StudyWords.h"
#include "core/study/TakeReading.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace earwright {

namespace {

/// Members "begin" and "end" of an object.
Range<Seconds> readRange(const StrictJson& json) {
    const Range<Seconds> range{readSeconds(json["begin"]), readSeconds(json["end"])};
    if (range.isEmpty()) json["end"].refuse("must lie after “begin”");
    return range;
}

RecordingRef readRecording(const StrictJson& json) {
    json.expectMembers({"path", "contentHash", "rate", "length"});
    RecordingRef recording;
    recording.path = json["path"].text();
    recording.contentHash = json["contentHash"].text();
    const std::string& hash = recording.contentHash;
    const bool hex = hash.find_first_not_of("0123456789abcdef") == std::string::npos;
    if (!hash.empty() && (hash.size() != 32 || !hex))
        json["contentHash"].refuse("must be 32 lower-case hexadecimal digits or empty");
    recording.rate.hertz = readInt(json["rate"], 1, 1'000'000);
    recording.length = Frames(json["length"].whole(0, largestId));
    return recording;
}

Beats readMarkPosition(const StrictJson& json) {
    const Beats position = json.beats();
    if (position < Beats(-furthestMark) || position > Beats(furthestMark))
        json.refuse("lies further from bar 1 than any recording reaches");
    return position;
}

BeatMap readBeatMap(const StrictJson& json) {
    std::vector<BeatMark> marks;
    for (const StrictJson& item : json.items()) {
        item.expectMembers({"position", "time"});
        const BeatMark mark{readMarkPosition(item["position"]), readSeconds(item["time"])};
        // A beat map drops what would cross, so a pair that stays a pair is in order.
        if (!marks.empty() && BeatMap({marks.back(), mark}).marks() != std::vector{marks.back(), mark})
            item.refuse("must lie after the mark before it, in beats and at least 20 ms in time");
        if (!marks.empty() && !isWithinLimits(BeatMap({marks.back(), mark})))
            item.refuse("makes beats shorter than a millisecond, of which a recording would hold too many");
        marks.push_back(mark);
    }
    return BeatMap(std::move(marks));
}

ChordSymbol readSymbol(const StrictJson& json) {
    const std::string text = json.text();
    if (text.empty() || text == "/" || text == "%" || text.find_first_of(" \t\n\r\f\v|") != std::string::npos)
        json.refuse("must be a chord symbol without blanks or strokes");
    return parseChordSymbol(text);
}

BarChords readBar(const StrictJson& json, const Beats& length) {
    BarChords bar;
    Beats earliest(0);
    std::int64_t parts = 1;
    for (const StrictJson& item : json.items()) {
        item.expectMembers({"at", "symbol"});
        const Beats at = item["at"].beats();
        if (at < earliest || at >= length || (!bar.chords.empty() && at == earliest))
            item["at"].refuse("must lie within its bar, after the chord before");
        parts = std::lcm(parts, at.denominator());
        if (parts > finestChordParts) {
            item["at"].refuse("divides its bar too finely");
            break;
        }
        earliest = at;
        bar.chords.push_back({at, readSymbol(item["symbol"])});
    }
    return bar;
}

/// While bars could not change length yet, chords were kept up to the length of the first meter; those behind
/// the end of a bar that is shorter now go unheard and unseen, and are dropped.
std::map<std::int64_t, BarChords> readOverrides(const StrictJson& json, const MeterMap& meters) {
    std::map<std::int64_t, BarChords> overrides;
    const Beats first = meters.barLength(1);
    for (const StrictJson& item : json.items()) {
        item.expectMembers({"bar", "chords"});
        const std::int64_t bar = item["bar"].whole(-furthestBeat, furthestBeat);
        const Beats own = meters.barLength(bar);
        BarChords chords = readBar(item["chords"], std::max(own, first));
        std::erase_if(chords.chords, [&](const PlacedChord& chord) { return chord.withinBar >= own; });
        if (!overrides.emplace(bar, std::move(chords)).second) item["bar"].refuse("stands twice");
    }
    return overrides;
}

Span readSpan(const StrictJson& json) {
    json.expectMembers({"id", "kind", "name", "begin", "end"});
    return {SpanId{readId(json["id"])}, json["kind"].oneOf(spanKindWords), json["name"].text(),
            readRange(json)};
}

Pitch readPitch(const StrictJson& note) {
    Pitch pitch{readInt(note["midi"], lowestMidi, highestMidi), std::nullopt};
    if (!note.has("spelling")) return pitch;
    const std::string text = note["spelling"].text();
    for (int step = 0; step < 7; ++step)
        for (int alter = -2; alter <= 2; ++alter) {
            const PitchName name{static_cast<Step>(step), alter};
            if (spellingText(name) == text && name.pitchClass() == pitchClassOf(pitch.midi))
                pitch.spelling = name;
        }
    if (!pitch.spelling) note["spelling"].refuse("must name the note's pitch, such as \"Eb\" or \"F#\"");
    return pitch;
}

Note readNote(const StrictJson& json, std::int64_t version) {
    expectNoteMembers(json, version);
    Note note;
    note.id = NoteId{readId(json["id"])};
    note.onset = json["onset"].beats();
    note.length = json["length"].beats();
    if (note.length <= Beats(0)) json["length"].refuse("must be greater than zero");
    note.pitch = readPitch(json);
    note.loudness = json["loudness"].number(0, 1);
    note.phrasing = readPhrasing(json);
    if (json.has("string")) note.pinnedString = readInt(json["string"], 1, mostStrings) - 1;
    return note;
}

StringTuning readTuning(const StrictJson& json) {
    json.expectMembers({"strings", "frets", "capo"});
    StringTuning tuning;
    tuning.strings.clear();
    for (const StrictJson& string : json["strings"].items())
        tuning.strings.push_back(readInt(string, 0, 127));
    tuning.frets = readInt(json["frets"], 1, mostFrets);
    tuning.capo = readInt(json["capo"], 0, mostFrets);
    if (isPlayable(tuning)) return tuning;
    json.refuse("must be one to eight strings with the capo below the last fret");
    return {};
}

std::map<Beats, BeatDivision> readDivisions(const StrictJson& json, std::int64_t version) {
    std::map<Beats, BeatDivision> divisions;
    for (const StrictJson& item : json.items()) {
        item.expectMembers({"beat", "parts"});
        const std::int64_t parts = item["parts"].whole(version < 3 ? 2 : 1, version < 3 ? 6 : 12);
        const auto division = divisionInto(parts);
        if (!division || (version < 3 && parts == 5)) item["parts"].refuse("is no division a beat can have");
        const Beats beat = item["beat"].beats();
        if (!divisions.emplace(beat, division.value_or(BeatDivision::Two)).second)
            item["beat"].refuse("stands twice");
    }
    return divisions;
}

LooseEnd readLooseEnd(const StrictJson& json) {
    json.expectMembers({"id", "time", "text", "done"});
    return {LooseEndId{readId(json["id"])}, readSeconds(json["time"]), json["text"].text(),
            json["done"].boolean()};
}

Practice readPractice(const StrictJson& json) {
    json.expectMembers({"speed", "semitones", "cents"}, {"loop"});
    Practice practice;
    if (json.has("loop")) {
        json["loop"].expectMembers({"begin", "end"});
        practice.loop = readRange(json["loop"]);
    }
    practice.speed = json["speed"].number(0.1, 2);
    practice.semitones = readInt(json["semitones"], -12, 12);
    practice.cents = readInt(json["cents"], -100, 100);
    return practice;
}

/// Ids come from one counter, so none may stand twice and all lie below the next one.
void checkIds(const Study& study, const StrictJson& json) {
    std::set<std::uint64_t> ids;
    const auto check = [&](const char* member, const auto& list) {
        const std::vector<StrictJson> items = json[member].items();
        for (std::size_t i = 0; i < list.size(); ++i) {
            const StrictJson id = items[i]["id"];
            if (!ids.insert(list[i].id.value).second) id.refuse("stands twice");
            if (list[i].id.value >= study.nextId) id.refuse("must lie below “nextId”");
        }
    };
    check("spans", study.spans);
    check("notes", study.notes);
    check("looseEnds", study.looseEnds);
    if (json.has("takes")) check("takes", study.takes);
}

/// Version 1 had no takes, version 2 no page marks.
std::int64_t expectStudyMembers(const StrictJson& json) {
    const std::int64_t version = json["version"].whole(1, StudyFile::version);
    std::vector<const char*> members{"format",    "version",   "title",     "recording", "meter",
                                     "beatMarks", "form",      "overrides", "spans",     "notes",
                                     "divisions", "looseEnds", "earRecord", "practice",  "nextId"};
    if (version >= 2) members.push_back("takes");
    if (version >= 3) members.push_back("page");
    json.expectMembers(members, version >= 3 ? std::vector<const char*>{"tuning", "players"}
                                             : std::vector<const char*>{});
    return version;
}

Study readStudy(const StrictJson& json) {
    const std::int64_t version = expectStudyMembers(json);
    Study study;
    study.title = json["title"].text();
    study.recording = readRecording(json["recording"]);
    study.meter = readMeter(json["meter"]);
    study.beatMap = readBeatMap(json["beatMarks"]);
    for (const StrictJson& bar : json["form"].items())
        study.chart.form.push_back(readBar(bar, study.meter.barLength()));
    if (version >= 3) study.page = readPageMarks(json["page"], study.meter);
    study.chart.overrides = readOverrides(json["overrides"], study.meters());
    for (const StrictJson& span : json["spans"].items())
        study.spans.push_back(readSpan(span));
    for (const StrictJson& note : json["notes"].items())
        study.notes.push_back(readNote(note, version));
    study.divisions = readDivisions(json["divisions"], version);
    if (json.has("tuning")) study.tuning = readTuning(json["tuning"]);
    if (json.has("players")) study.players = readPlayers(json["players"]);
    for (const StrictJson& end : json["looseEnds"].items())
        study.looseEnds.push_back(readLooseEnd(end));
    study.takes = readTakes(json);
    study.earRecord = readEarRecord(json["earRecord"]);
    study.practice = readPractice(json["practice"]);
    study.nextId = readId(json["nextId"]);
    checkIds(study, json);
    sortLists(study);
    return study;
}

/// Whether this is a study at all, and one this program may read; asked before its members are.
std::optional<Error> checkFormat(const nlohmann::json& json, const std::string& name) {
    const auto is = [&](const char* member) { return json.is_object() && json.contains(member); };
    if (!is("format") || json["format"] != studyFormatName)
        return Error{ErrorKind::Malformed, name + " is not a study.", "format"};
    const double version = is("version") && json["version"].is_number() ? json["version"].get<double>() : 0;
    if (version < 1 || version != std::floor(version))
        return Error{ErrorKind::Malformed, name + ": “version” must be a whole number from 1.", "version"};
    if (version > StudyFile::version)
        return Error{ErrorKind::Unsupported,
                     name + " was written by a newer program (format version " + json["version"].dump() +
                         ", this one reads up to " + std::to_string(StudyFile::version) +
                         "); it is left as it is. Open it with a newer Earwright.",
                     "version"};
    return std::nullopt;
}

} // namespace

Result<Study> StudyFile::parse(std::string_view text, const std::string& name) {
    const Result<nlohmann::json> json = parseJson(text, name);
    if (!json) return json.error();
    if (const auto error = checkFormat(*json, name)) return *error;
    FirstProblem problem(name);
    Study study = readStudy(StrictJson(*json, "", problem));
    if (problem.error()) return *problem.error();
    return study;
}

} // namespace earwright
