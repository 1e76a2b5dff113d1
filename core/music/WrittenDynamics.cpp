#include "core/music/WrittenDynamics.h"

#include <algorithm>

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

/// From one level to the next, where a hairpin leads to no mark: mf to f.
constexpr double step = 1.2;

/// Where a hairpin leads: to a mark in its direction that stands no further than a beat from its end, or by
/// one step.
double goalOf(const PageMarks& page, const Hairpin& hairpin, double from) {
    for (const DynamicMark& mark : page.dynamics) {
        const bool isAtEnd = mark.at > hairpin.range.begin && mark.at >= hairpin.range.end - Beats(1) &&
                             mark.at <= hairpin.range.end + Beats(1);
        if (!isAtEnd || mark.level == Dynamic::sfz) continue;
        const double goal = velocityOf(mark.level) / ofMedium;
        if (hairpin.kind == HairpinKind::Louder ? goal > from : goal < from) return goal;
    }
    return hairpin.kind == HairpinKind::Louder ? from * step : from / step;
}

/// The level the line has reached at a place, sfz aside.
double levelAt(const PageMarks& page, const Beats& place) {
    double level = 1;
    auto mark = page.dynamics.begin();
    const auto follow = [&](const Beats& until) {
        for (; mark != page.dynamics.end() && mark->at <= until; ++mark)
            if (mark->level != Dynamic::sfz) level = velocityOf(mark->level) / ofMedium;
    };
    for (const Hairpin& hairpin : page.hairpins) {
        if (hairpin.range.begin > place) break;
        follow(hairpin.range.begin);
        const double goal = goalOf(page, hairpin, level);
        if (hairpin.range.contains(place)) {
            const double share = (place - hairpin.range.begin).toDouble() /
                                 (hairpin.range.end - hairpin.range.begin).toDouble();
            return level + share * (goal - level);
        }
        level = goal;
    }
    follow(place);
    return level;
}

} // namespace

double dynamicFactor(const PageMarks& page, const Beats& place) {
    for (const DynamicMark& mark : page.dynamics)
        if (mark.at == place && mark.level == Dynamic::sfz) return velocityOf(Dynamic::sfz) / ofMedium;
    return levelAt(page, place);
}

double writtenLoudness(const PageMarks& page, const Note& note) {
    return std::clamp(note.soundingLoudness() * dynamicFactor(page, note.onset), 0.0, 1.0);
}

} // namespace earwright
