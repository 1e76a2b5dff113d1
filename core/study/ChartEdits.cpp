#include "core/study/ChartEdits.h"

namespace earwright {

Study setForm(const Study& study, std::string_view text) {
    Study edited = study;
    edited.chart.form = parseBars(text, study.meter);
    return edited;
}

Study overrideBars(const Study& study, std::int64_t firstBar, std::string_view text) {
    // The bar before goes in front, so that a repeat sign finds it.
    const std::string before = toText({study.barChords(firstBar - 1)}, study.meter);
    std::vector<BarChords> bars = parseBars(before + "\n" + std::string(text), study.meter);
    bars.erase(bars.begin());
    if (bars.empty()) bars.emplace_back();
    Study edited = study;
    for (BarChords& bar : bars)
        edited.chart.overrides[firstBar++] = std::move(bar);
    return edited;
}

Study clearOverride(const Study& study, std::int64_t bar) {
    Study edited = study;
    edited.chart.overrides.erase(bar);
    return edited;
}

} // namespace earwright
