#include "ui/desk/LoopMaking.h"

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr Seconds nudge{0.025}; // about the smallest shift of an attack that is heard as a shift
constexpr Seconds shortest{0.05};

} // namespace

std::optional<Range<Seconds>> LoopMaking::tap(Seconds ear) {
    if (!from) {
        from = ear;
        return std::nullopt;
    }
    const Range<Seconds> loop{std::min(*from, ear), std::max(*from, ear)};
    if (loop.length() < shortest) return std::nullopt; // the same place twice: still waiting for the end
    from.reset();
    return loop;
}

Range<Seconds> LoopMaking::nudged(const Range<Seconds>& loop, LoopEnd end, int direction, Seconds duration) {
    Range<Seconds> moved = loop;
    const Seconds by = nudge * static_cast<double>(direction);
    if (end == LoopEnd::Start)
        moved.begin = std::clamp(loop.begin + by, Seconds(0), std::max(loop.end - shortest, Seconds(0)));
    else
        moved.end = std::clamp(loop.end + by, std::min(loop.begin + shortest, duration), duration);
    return moved;
}

} // namespace earwright::ui
