#include "core/engraving/ValueReach.h"

#include "core/engraving/PageBars.h"

#include <algorithm>
#include <bit>
#include <iterator>

namespace earwright {

namespace {

bool isWhole(const Beats& beats) {
    return beats.denominator() == 1;
}

/// Beats from one middle of a bar to the next; 0 where the bar has no middle.
std::int64_t halfBar(const Meter& meter) {
    return meter.beatsPerBar == 2 || meter.beatsPerBar == 4 ? 2 : 0;
}

Beats nextMultiple(const Beats& place, std::int64_t step) {
    return Beats(((place / step).floor() + 1) * step);
}

/// Of so many groups of three, as many as one dotted value can show.
Beats longestGroups(const Beats& length, std::int64_t pulse) {
    const auto groups = static_cast<std::uint64_t>((length / pulse).floor());
    return Beats(pulse * static_cast<std::int64_t>(std::bit_floor(groups)));
}

Beats compoundNoteReach(std::int64_t pulse, const Beats& from, const Beats& to) {
    if (!isWhole(from / pulse)) return std::min(to, nextMultiple(from, pulse));
    return to - from >= Beats(pulse) ? from + longestGroups(to - from, pulse) : to;
}

/// Where a note that begins in the middle of a beat may reach over the next one.
Beats syncopationReach(const Meter& meter, const Beats& from, const Beats& to) {
    const Beats beatEnd(from.floor() + 1);
    if ((from * 2).denominator() != 1) return beatEnd;
    if (meter.beatsPerBar == 3) return from == Beats(3, 2) && to >= Beats(3) ? Beats(3) : beatEnd;
    if (halfBar(meter) == 0) return beatEnd;
    const Beats reach = std::min(to, nextMultiple(from, halfBar(meter)));
    return isWhole(reach * 2) ? reach : beatEnd;
}

Beats compoundRestReach(const Meter& meter, std::int64_t pulse, const Beats& from, const Beats& to) {
    if (!isWhole(from)) return std::min(to, from + Beats(1, from.denominator()));
    // Two thirds of a beat are one rest where they begin it, and two where they end it.
    if (!isWhole(from / pulse)) return std::min(to, from + Beats(1));
    const Beats beatEnd = nextMultiple(from, pulse);
    const bool startsHalf = meter.beatsPerBar == 4 * pulse && isWhole(from / (2 * pulse));
    return startsHalf && to - from >= Beats(2 * pulse) ? from + Beats(2 * pulse) : std::min(to, beatEnd);
}

/// Of a bar, or of a group of beats, by itself.
Beats noteReachAlone(const Meter& meter, const Beats& from, const Beats& to) {
    if (const std::int64_t pulse = pulseBeats(meter); pulse > 1) return compoundNoteReach(pulse, from, to);
    if (!isWhole(from)) return std::min(to, syncopationReach(meter, from, to));
    if (to - from > Beats(1) && !isWhole(to * 2)) return Beats(to.floor());
    const std::int64_t half = halfBar(meter);
    if (half == 0 || isWhole(from / half) || isWhole(to)) return to;
    return std::min(to, nextMultiple(from, half));
}

Beats restReachAlone(const Meter& meter, const Beats& from, const Beats& to) {
    if (const std::int64_t pulse = pulseBeats(meter); pulse > 1)
        return compoundRestReach(meter, pulse, from, to);
    if (!isWhole(from)) return std::min(to, from + Beats(1, from.denominator()));
    const bool startsHalf = meter.beatsPerBar % 3 != 0 && isWhole(from / 2);
    if (startsHalf && to - from >= Beats(2)) return from + Beats(2);
    return std::min(to, from + Beats(1));
}

/// Beats [begin, end) of a bar.
struct BeatGroup {
    std::int64_t begin;
    std::int64_t end;

    Meter asMeter(const Meter& bar) const { return {static_cast<int>(end - begin), bar.beatUnit}; }
};

BeatGroup groupAt(const std::vector<std::int64_t>& ends, const Beats& place) {
    const auto end = std::find_if(ends.begin(), ends.end(), [&](std::int64_t e) { return place < Beats(e); });
    return {end == ends.begin() ? 0 : *std::prev(end), *end};
}

/// The end of as many whole groups as one value fills; nothing where it fills none.
std::optional<Beats> wholeGroups(const Meter& meter, const std::vector<std::int64_t>& ends, const Beats& from,
                                 const Beats& to) {
    std::optional<Beats> reach;
    for (const std::int64_t end : ends) {
        const Beats length = Beats(end) - from;
        if (Beats(end) > to || length <= Beats(0)) continue;
        if (const auto value = longestValue(meter, length); value && value->length == length)
            reach = Beats(end);
    }
    return reach;
}

} // namespace

std::optional<PlainValue> longestValue(const Meter& meter, const Beats& room) {
    for (int denominator = 1; denominator <= 1024; denominator *= 2)
        for (const bool dotted : {true, false}) {
            const Beats length = Beats(meter.beatUnit, denominator) * (dotted ? 3 : 2) / 2;
            if (length <= room) return PlainValue{denominator, dotted, length};
        }
    return std::nullopt;
}

Beats noteReach(const Meter& meter, const std::vector<std::int64_t>& groupEnds, const Beats& from,
                const Beats& to) {
    if (groupEnds.empty()) return noteReachAlone(meter, from, to);
    const BeatGroup group = groupAt(groupEnds, from);
    const Beats begin(group.begin);
    if (from == begin)
        if (const auto reach = wholeGroups(meter, groupEnds, from, to)) return *reach;
    const Beats end = std::min(to, Beats(group.end));
    return begin + noteReachAlone(group.asMeter(meter), from - begin, end - begin);
}

Beats restReach(const Meter& meter, const std::vector<std::int64_t>& groupEnds, const Beats& from,
                const Beats& to) {
    if (groupEnds.empty()) return restReachAlone(meter, from, to);
    const BeatGroup group = groupAt(groupEnds, from);
    const Beats end = std::min(to, Beats(group.end));
    const bool isThreeQuarters = meter.beatUnit < 8 && group.end - group.begin == 3;
    if (isThreeQuarters) return restReachAlone(meter, from, end);
    const Beats begin(group.begin);
    return begin + restReachAlone(group.asMeter(meter), from - begin, end - begin);
}

} // namespace earwright
