#include "core/exchange/PitchGlide.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace earwright {

namespace {

constexpr double slideSemitones = 2;
constexpr double scoopSemitones = 1;
constexpr double fallSemitones = 7;
/// Seconds a slide takes, and at most this part of its note.
constexpr double slideSeconds = 0.12;
constexpr double longestSlide = 0.4;
constexpr double vibratoSemitones = 1.0 / 3;
constexpr double vibratoPerSecond = 5.5;
/// Swings begin once the note is heard.
constexpr double vibratoDelay = 0.2;
/// Points to a swing: joined by lines they come within a tenth of a sine.
constexpr int pointsPerSwing = 8;

double lineAt(const std::vector<GlidePoint>& points, double at) {
    for (std::size_t i = 1; i < points.size(); ++i) {
        const GlidePoint& from = points[i - 1];
        const GlidePoint& to = points[i];
        if (at > to.at) continue;
        const double share = to.at > from.at ? (at - from.at) / (to.at - from.at) : 1;
        return from.semitones + share * (to.semitones - from.semitones);
    }
    return points.empty() ? 0 : points.back().semitones;
}

std::vector<GlidePoint> bent(const Phrasing& phrasing) {
    if (!phrasing.bend) return {{0, 0}, {1, 0}};
    const double up = phrasing.bend->semitones();
    switch (phrasing.bend->shape) {
    case BendShape::Up:
        return {{0, 0}, {0.1, 0}, {0.4, up}, {1, up}};
    case BendShape::UpAndDown:
        return {{0, 0}, {0.1, 0}, {0.4, up}, {0.6, up}, {0.9, 0}, {1, 0}};
    case BendShape::PrebentHeld:
        return {{0, up}, {1, up}};
    case BendShape::PrebentDown:
        return {{0, up}, {0.4, up}, {0.8, 0}, {1, 0}};
    }
    return {};
}

/// From this far away to the line that is there already.
void slideIn(std::vector<GlidePoint>& points, double from, double share) {
    const double goal = lineAt(points, share);
    std::erase_if(points, [&](const GlidePoint& point) { return point.at <= share; });
    points.insert(points.begin(), {{0, from}, {share, goal}});
}

void slideOut(std::vector<GlidePoint>& points, double to, double share) {
    const double leave = lineAt(points, 1 - share);
    std::erase_if(points, [&](const GlidePoint& point) { return point.at >= 1 - share; });
    points.insert(points.end(), {{1 - share, leave}, {1, to}});
}

void addVibrato(std::vector<GlidePoint>& points, double seconds) {
    const double step = 1 / (vibratoPerSecond * pointsPerSwing * seconds);
    std::vector<GlidePoint> swinging;
    for (const GlidePoint& point : points)
        if (point.at < vibratoDelay) swinging.push_back(point);
    for (double at = vibratoDelay; at < 1; at += step) {
        const double turns = (at - vibratoDelay) * seconds * vibratoPerSecond;
        const double swing = vibratoSemitones * std::sin(2 * std::numbers::pi * turns);
        swinging.push_back({at, lineAt(points, at) + swing});
    }
    swinging.push_back(points.back());
    points = std::move(swinging);
}

} // namespace

std::vector<GlidePoint> pitchGlide(const Phrasing& phrasing, int toNext, double seconds) {
    const bool slidesOn = phrasing.slidesToNext && toNext != 0;
    const bool moves = phrasing.slideIn || phrasing.slideOut || phrasing.scoop || phrasing.fall || slidesOn ||
                       phrasing.bend || phrasing.vibrato;
    if (!moves || !(seconds > 0)) return {};
    const double share = std::min(longestSlide, slideSeconds / seconds);
    std::vector<GlidePoint> points = bent(phrasing);
    if (phrasing.vibrato) addVibrato(points, seconds);
    if (phrasing.slideIn)
        slideIn(points, *phrasing.slideIn == SlideFrom::Below ? -slideSemitones : slideSemitones, share);
    else if (phrasing.scoop)
        slideIn(points, -scoopSemitones, share);
    if (phrasing.fall)
        slideOut(points, -fallSemitones, std::min(longestSlide, 2 * share));
    else if (slidesOn)
        slideOut(points, toNext, share);
    else if (phrasing.slideOut)
        slideOut(points, *phrasing.slideOut == SlideTo::Up ? slideSemitones : -slideSemitones, share);
    for (GlidePoint& point : points)
        point.semitones = std::clamp(point.semitones, -1.0 * widestGlide, 1.0 * widestGlide);
    return points;
}

} // namespace earwright
