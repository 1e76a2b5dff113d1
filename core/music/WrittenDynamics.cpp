#include "core/music/WrittenDynamics.h"

#include <algorithm>
#include <optional>

namespace earwright {

namespace {

constexpr double ofMedium = 80;

/// MIDI velocities.
double velocityOf(Dynamic level) {
    switch (level) {
    case Dynamic::ppp:
        return 16;
    case Dynamic::pp:
        return 33;
    case Dynamic::p:
        return 49;
    case Dynamic::mp:
        return 64;
    case Dynamic::mf:
        return 80;
    case Dynamic::f:
        return 96;
    case Dynamic::ff:
        return 112;
    case Dynamic::fff:
    case Dynamic::sfz:
        return 127;
    }
    return ofMedium;
}

constexpr double step = 1.2;

/// Of the last mark up to here, sfz aside.
double standing(const PageMarks& page, const Beats& place) {
    double factor = 1;
    for (const DynamicMark& mark : page.dynamics)
        if (mark.at <= place && mark.level != Dynamic::sfz) factor = velocityOf(mark.level) / ofMedium;
    return factor;
}

/// Where a hairpin leads: to the mark at its end, or no further than a beat behind it.
double goalOf(const PageMarks& page, const Hairpin& hairpin, double from) {
    for (const DynamicMark& mark : page.dynamics) {
        const bool isAtEnd = mark.at > hairpin.range.begin && mark.at >= hairpin.range.end - Beats(1) &&
                             mark.at <= hairpin.range.end + Beats(1);
        if (isAtEnd && mark.level != Dynamic::sfz) return velocityOf(mark.level) / ofMedium;
    }
    return hairpin.kind == HairpinKind::Louder ? from * step : from / step;
}

} // namespace

double dynamicFactor(const PageMarks& page, const Beats& place) {
    double factor = standing(page, place);
    for (const Hairpin& hairpin : page.hairpins) {
        const double from = standing(page, hairpin.range.begin);
        const double to = goalOf(page, hairpin, from);
        if (hairpin.range.contains(place)) {
            const double share = ((place - hairpin.range.begin).toDouble()) /
                                 (hairpin.range.end - hairpin.range.begin).toDouble();
            factor = from + share * (to - from);
        } else if (place >= hairpin.range.end) {
            // It stays there until a mark says otherwise.
            const bool isMarkedSince =
                std::any_of(page.dynamics.begin(), page.dynamics.end(), [&](const DynamicMark& mark) {
                    return mark.level != Dynamic::sfz && mark.at > hairpin.range.begin && mark.at <= place;
                });
            if (!isMarkedSince) factor = to;
        }
    }
    for (const DynamicMark& mark : page.dynamics)
        if (mark.at == place && mark.level == Dynamic::sfz) return velocityOf(Dynamic::sfz) / ofMedium;
    return factor;
}

double writtenLoudness(const PageMarks& page, const Note& note) {
    return std::clamp(note.soundingLoudness() * dynamicFactor(page, note.onset), 0.0, 1.0);
}

} // namespace earwright
