#include "core/engraving/StrokeStagger.h"

namespace earwright {

namespace {

/// In half spaces: strokes whose heads lie further apart do not reach one another.
constexpr int reach = 2;
constexpr double step = 0.5;

} // namespace

double strokeStagger(const std::vector<StaffHead>& heads, std::size_t index, bool Phrasing::*mark) {
    double by = 0;
    const StaffHead* under = nullptr;
    for (std::size_t i = 0; i <= index; ++i) {
        const StaffHead& head = heads[i];
        if (!(head.phrasing.*mark)) continue;
        by = under && head.position - under->position <= reach ? by + step : 0;
        under = &head;
    }
    return under == &heads[index] ? by : 0;
}

} // namespace earwright
