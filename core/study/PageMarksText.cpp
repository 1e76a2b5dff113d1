#include "core/study/PageMarksText.h"

#include "core/study/StudyJson.h"
#include "core/study/StudyWords.h"

namespace earwright {

namespace {

using Json = nlohmann::ordered_json;

Json toJson(const KeyChange& change) {
    return {
        {"bar", change.bar}, {"fifths", change.key.fifths}, {"mode", wordFor(modeWords, change.key.mode)}};
}

Json toJson(const MeterChange& change) {
    return {
        {"bar", change.bar}, {"beatsPerBar", change.meter.beatsPerBar}, {"beatUnit", change.meter.beatUnit}};
}

Json toJson(const SwingChange& change) {
    return {{"at", toJson(change.at)}, {"ratio", change.swing.ratio}, {"noteValue", change.swing.noteValue}};
}

Json toJson(const TempoMark& mark) {
    Json json{{"at", toJson(mark.at)}, {"words", mark.words}};
    if (mark.quartersPerMinute) json["quartersPerMinute"] = *mark.quartersPerMinute;
    return json;
}

Json toJson(const DynamicMark& mark) {
    return {{"at", toJson(mark.at)}, {"level", wordFor(dynamicWords, mark.level)}};
}

Json toJson(const Hairpin& hairpin) {
    return {{"begin", toJson(hairpin.range.begin)},
            {"end", toJson(hairpin.range.end)},
            {"kind", wordFor(hairpinWords, hairpin.kind)}};
}

Json toJson(const TextMark& mark) {
    Json json{{"at", toJson(mark.at)}, {"text", mark.text}};
    if (mark.below) json["below"] = true;
    return json;
}

Json toJson(const Repeat& repeat) {
    return {{"firstBar", repeat.firstBar},
            {"lastBar", repeat.lastBar},
            {"times", repeat.times},
            {"endingBars", repeat.endingBars}};
}

} // namespace

Json pageMarksToJson(const PageMarks& page) {
    const auto each = [](const auto& element) { return toJson(element); };
    Json json{{"keys", listOf(page.keys, each)},         {"meters", listOf(page.meters, each)},
              {"swings", listOf(page.swings, each)},     {"tempos", listOf(page.tempos, each)},
              {"dynamics", listOf(page.dynamics, each)}, {"hairpins", listOf(page.hairpins, each)},
              {"texts", listOf(page.texts, each)},       {"repeats", listOf(page.repeats, each)}};
    if (page.pickup) json["pickup"] = toJson(*page.pickup);
    return json;
}

} // namespace earwright
