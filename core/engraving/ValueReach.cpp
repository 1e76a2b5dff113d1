#include "core/engraving/ValueReach.h"

#include "core/engraving/PageBars.h"

#include <algorithm>
#include <bit>

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

} // namespace

Beats noteReach(const Meter& meter, const Beats& from, const Beats& to) {
    if (const std::int64_t pulse = pulseBeats(meter); pulse > 1) return compoundNoteReach(pulse, from, to);
    if (!isWhole(from)) return std::min(to, syncopationReach(meter, from, to));
    if (to - from > Beats(1) && !isWhole(to * 2)) return Beats(to.floor());
    const std::int64_t half = halfBar(meter);
    if (half == 0 || isWhole(from / half) || isWhole(to)) return to;
    return std::min(to, nextMultiple(from, half));
}

Beats restReach(const Meter& meter, const Beats& from, const Beats& to) {
    if (const std::int64_t pulse = pulseBeats(meter); pulse > 1)
        return compoundRestReach(meter, pulse, from, to);
    if (!isWhole(from)) return std::min(to, from + Beats(1, from.denominator()));
    const bool startsHalf = meter.beatsPerBar % 3 != 0 && isWhole(from / 2);
    if (startsHalf && to - from >= Beats(2)) return from + Beats(2);
    return std::min(to, from + Beats(1));
}

} // namespace earwright
