#include "core/study/PageMarksReading.h"

#include "core/study/PageOrder.h"
#include "core/study/StudyNumbers.h"
#include "core/study/StudyWords.h"

namespace earwright {

namespace {

std::int64_t readBar(const StrictJson& json, std::int64_t least = -furthestBeat) {
    return json.whole(least, furthestBeat);
}

Meter meterOf(const StrictJson& json) {
    const Meter meter{readInt(json["beatsPerBar"], 1, 32), readInt(json["beatUnit"], 1, 32)};
    if ((meter.beatUnit & (meter.beatUnit - 1)) != 0) json["beatUnit"].refuse("must be 1, 2, 4, 8, 16 or 32");
    return meter;
}

KeyChange readKey(const StrictJson& json) {
    json.expectMembers({"bar", "fifths", "mode"});
    return {readBar(json["bar"]),
            {readInt(json["fifths"], -mostFifths, mostFifths), json["mode"].oneOf(modeWords)}};
}

MeterChange readMeterChange(const StrictJson& json) {
    json.expectMembers({"bar", "beatsPerBar", "beatUnit"});
    return {readBar(json["bar"], 2), meterOf(json)};
}

SwingChange readSwing(const StrictJson& json) {
    json.expectMembers({"at", "ratio", "noteValue"});
    const Swing swing{json["ratio"].number(leastSwing, mostSwing), readInt(json["noteValue"], 8, 16)};
    if (swing.noteValue != 8 && swing.noteValue != 16) json["noteValue"].refuse("must be 8 or 16");
    return {json["at"].beats(), swing};
}

TempoMark readTempo(const StrictJson& json) {
    json.expectMembers({"at", "words"}, {"quartersPerMinute"});
    TempoMark mark{json["at"].beats(), json["words"].text(), {}};
    if (json.has("quartersPerMinute"))
        mark.quartersPerMinute = json["quartersPerMinute"].number(slowestTempo, fastestTempo);
    if (mark.words.empty() && !mark.quartersPerMinute)
        json["words"].refuse("must say something, or a number must");
    return mark;
}

DynamicMark readDynamic(const StrictJson& json) {
    json.expectMembers({"at", "level"});
    return {json["at"].beats(), json["level"].oneOf(dynamicWords)};
}

Hairpin readHairpin(const StrictJson& json) {
    json.expectMembers({"begin", "end", "kind"});
    const Hairpin hairpin{{json["begin"].beats(), json["end"].beats()}, json["kind"].oneOf(hairpinWords)};
    if (hairpin.range.isEmpty()) json["end"].refuse("must lie after “begin”");
    return hairpin;
}

TextMark readText(const StrictJson& json) {
    json.expectMembers({"at", "text"}, {"below"});
    TextMark mark{json["at"].beats(), json["text"].text(), json.has("below") && json["below"].boolean()};
    if (mark.text.empty()) json["text"].refuse("must not be empty");
    return mark;
}

Repeat readRepeat(const StrictJson& json) {
    json.expectMembers({"firstBar", "lastBar", "times", "endingBars"});
    const Repeat repeat{readBar(json["firstBar"]), readBar(json["lastBar"]),
                        readInt(json["times"], 2, mostTimes), readInt(json["endingBars"], 0, mostEndingBars)};
    if (!isUsable(repeat)) json["lastBar"].refuse("must leave a bar before the first ending");
    return repeat;
}

/// The list as read; an item that is out of order, or stands where another one stands, is refused.
template <class Item, class Read>
std::vector<Item> inOrder(const StrictJson& json, Read read) {
    std::vector<Item> list;
    for (const StrictJson& item : json.items()) {
        list.push_back(read(item));
        if (list.size() > 1 && !mayFollow(list[list.size() - 2], list.back()))
            item.refuse("must lie after the one before it");
    }
    return list;
}

} // namespace

Meter readMeter(const StrictJson& json) {
    json.expectMembers({"beatsPerBar", "beatUnit"});
    return meterOf(json);
}

PageMarks readPageMarks(const StrictJson& json, const Meter& first) {
    json.expectMembers({"keys", "meters", "swings", "tempos", "dynamics", "hairpins", "texts", "repeats"},
                       {"pickup"});
    PageMarks page;
    page.keys = inOrder<KeyChange>(json["keys"], readKey);
    page.meters = inOrder<MeterChange>(json["meters"], readMeterChange);
    page.swings = inOrder<SwingChange>(json["swings"], readSwing);
    page.tempos = inOrder<TempoMark>(json["tempos"], readTempo);
    page.dynamics = inOrder<DynamicMark>(json["dynamics"], readDynamic);
    page.hairpins = inOrder<Hairpin>(json["hairpins"], readHairpin);
    page.texts = inOrder<TextMark>(json["texts"], readText);
    page.repeats = inOrder<Repeat>(json["repeats"], readRepeat);
    if (!json.has("pickup")) return page;
    page.pickup = json["pickup"].beats();
    if (!isUsablePickup(*page.pickup, first))
        json["pickup"].refuse("must be above 0 and at most a bar, in thirty-seconds or longer values");
    return page;
}

} // namespace earwright
