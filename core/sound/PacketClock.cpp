#include "core/sound/PacketClock.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace earwright {

PacketClock::PacketClock(const Settings& settings)
    : given(settings),
      framesPerTick(static_cast<double>(settings.tickNumerator) * settings.rate.hertz /
                    static_cast<double>(settings.tickDenominator)) {
    const bool nothingIsRounded =
        settings.tickDenominator % (settings.tickNumerator * settings.rate.hertz) == 0;
    // Time stamps are rounded to the tick, the origin's too. A tick finer than a frame is off by one at most.
    loose = nothingIsRounded ? Frames(0) : Frames(std::llround(std::ceil(framesPerTick)));
}

Frames PacketClock::placeOf(std::int64_t tick) const {
    // Beyond this, years of sound, a stamp is damage; the bound keeps the arithmetic defined.
    constexpr double farthest = 1e14;
    const double ticks = static_cast<double>(tick) - static_cast<double>(given.originTick);
    const double exact = std::clamp(ticks * framesPerTick, -farthest, farthest);
    const Frames rounded(std::llround(exact));
    if (loose == Frames(0) || given.grid <= Frames(1)) return given.originFrame + rounded;
    const Frames onGrid(std::llround(exact / static_cast<double>(given.grid.value)) * given.grid.value);
    const bool agrees = std::abs((onGrid - rounded).value) <= loose.value;
    return given.originFrame + (agrees ? onGrid : rounded);
}

std::int64_t PacketClock::tickBefore(Frames place) const {
    const auto frames = static_cast<double>((place - given.originFrame).value);
    // Stamps near the ends of their range are damage; the bound keeps the arithmetic defined.
    constexpr double farthest = 4e18;
    const double ticks = std::floor(frames / framesPerTick);
    const double tick = static_cast<double>(given.originTick) + ticks;
    if (std::max(std::abs(ticks), std::abs(tick)) >= farthest)
        return static_cast<std::int64_t>(std::copysign(farthest, tick));
    return given.originTick + std::llround(ticks);
}

} // namespace earwright
