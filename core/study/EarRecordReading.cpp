#include "core/study/EarRecordReading.h"

#include "core/study/DayText.h"
#include "core/study/StudyNumbers.h"
#include "core/study/StudyWords.h"

#include <algorithm>
#include <set>

namespace earwright {

namespace {

/// Between any two MIDI numbers.
constexpr int widestInterval = 127;

std::optional<Mistake> readMistake(const StrictJson& json) {
    if (!json.has("mistake")) return std::nullopt;
    return json["mistake"].oneOf(mistakeWords);
}

EarPlace readPlace(const StrictJson& json) {
    json.expectMembers({"time", "help", "settled", "unwritten"}, {"mistake", "note"});
    EarPlace place{readSeconds(json["time"]), json["help"].oneOf(helpWords), json["settled"].boolean(),
                   json["unwritten"].boolean()};
    place.mistake = readMistake(json);
    if (json.has("note")) place.note = NoteId{readId(json["note"])};
    return place;
}

Day readDay(const StrictJson& json) {
    const auto day = dayFrom(json.text());
    if (!day) json.refuse("must be a day such as \"2031-05-04\"");
    return day.value_or(Day());
}

FoundNote readFound(const StrictJson& json) {
    json.expectMembers({"time", "note", "day", "help"}, {"interval", "mistake"});
    FoundNote found{readSeconds(json["time"]), NoteId{readId(json["note"])}, readDay(json["day"]),
                    json["help"].oneOf(helpWords)};
    if (json.has("interval")) found.interval = readInt(json["interval"], -widestInterval, widestInterval);
    found.mistake = readMistake(json);
    return found;
}

} // namespace

EarRecord readEarRecord(const StrictJson& json) {
    EarRecord record;
    std::set<SpanId> phrases;
    for (const StrictJson& item : json.items()) {
        item.expectMembers({"phrase", "places"}, {"found"});
        PhraseRecord phrase{SpanId{readId(item["phrase"])}, {}};
        if (!phrases.insert(phrase.phrase).second) item["phrase"].refuse("stands twice");
        for (const StrictJson& place : item["places"].items())
            phrase.places.push_back(readPlace(place));
        if (item.has("found"))
            for (const StrictJson& found : item["found"].items())
                phrase.found.push_back(readFound(found));
        std::stable_sort(phrase.found.begin(), phrase.found.end(),
                         [](const FoundNote& a, const FoundNote& b) { return a.time < b.time; });
        record.phrases.push_back(std::move(phrase));
    }
    return record;
}

} // namespace earwright
