#include "core/check/PitchContour.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr double clearEnough = PitchPoint::clearEnough;
constexpr double clearInGlide = PitchPoint::clearInGlide;
/// A plain note stays within this.
constexpr double plainCents = 45;
/// A neighbour is at least so far away: a semitone, smeared.
constexpr double neighbourCents = 65;

using Points = std::vector<ContourPoint>;

Points within(const Points& contour, Seconds from, Seconds to) {
    Points part;
    std::copy_if(contour.begin(), contour.end(), std::back_inserter(part),
                 [&](const ContourPoint& point) { return point.time >= from && point.time < to; });
    return part;
}

/// Without what belongs to its neighbours: windows reach 23 ms either way.
Points ownPart(const Points& contour, Range<Seconds> note) {
    return within(contour, note.begin + Seconds(0.005), note.end - Seconds(0.02));
}

bool isPlain(const Points& part, double cents = plainCents) {
    constexpr double enough = 0.85;
    constexpr std::size_t least = 6;
    std::size_t clear = 0;
    for (const ContourPoint& point : part) {
        if (point.clarity < clearEnough) continue;
        ++clear;
        if (std::abs(point.cents) > cents) return false;
    }
    return part.size() >= least && static_cast<double>(clear) >= enough * static_cast<double>(part.size());
}

Verdict plainOrUnclear(bool plain) {
    return plain ? Verdict::Contradicted : Verdict::Unclear;
}

/// The farthest up (sign 1) or down (−1) that is held for so many points.
double heldFarthest(const Points& part, int sign, std::size_t held) {
    double farthest = 0;
    for (std::size_t i = 0; i + held <= part.size(); ++i) {
        double least = 1e9;
        for (std::size_t k = i; k < i + held; ++k)
            least = std::min(least, part[k].clarity < clearInGlide ? 0.0 : sign * part[k].cents);
        farthest = std::max(farthest, least);
    }
    return farthest;
}

/// A time spent on one side of the written pitch.
struct Excursion {
    int side = 0;
    std::size_t first = 0;
    std::size_t length = 0;
};

/// Excursions to a neighbour that last, in order.
std::vector<Excursion> excursionsIn(const Points& part) {
    constexpr std::size_t lasting = 3;
    constexpr double farthestNeighbour = 330;
    std::vector<Excursion> found;
    Excursion now;
    const auto close = [&] {
        if (now.side != 0 && now.length >= lasting) found.push_back(now);
        now = {};
    };
    for (std::size_t i = 0; i < part.size(); ++i) {
        const double away = std::abs(part[i].cents);
        const bool isAway =
            away >= neighbourCents && away <= farthestNeighbour && part[i].clarity >= clearInGlide;
        const int side = isAway ? (part[i].cents > 0 ? 1 : -1) : 0;
        if (side != now.side) {
            close();
            now = {side, i, 0};
        }
        ++now.length;
    }
    close();
    return found;
}

/// From a place on, where the written pitch is first held for 15 ms, as near as this; past the end where it
/// never is.
std::size_t firstHeld(const Points& points, std::size_t from, double cents) {
    constexpr std::size_t held = 3;
    std::size_t run = 0;
    for (std::size_t i = from; i < points.size(); ++i) {
        run = points[i].clarity >= clearInGlide && std::abs(points[i].cents) <= cents ? run + 1 : 0;
        if (run == held) return i + 1 - held;
    }
    return points.size();
}

/// A way to the written pitch without leaps, in the order of the points (which may run backwards).
struct Glide {
    /// Where it begins; 0 where there is none.
    double cents = 0;
    Seconds begin;
    Seconds end;
};

/// To where the written pitch is first held.
Glide firstGlideTo(const Points& points) {
    constexpr double arrived = 30, leap = 70, slack = 10;
    const std::size_t arrival = firstHeld(points, 0, arrived);
    if (arrival == points.size()) return {};
    std::size_t start = arrival;
    while (start > 0 && points[start - 1].clarity >= clearInGlide) {
        const double further = std::abs(points[start - 1].cents) - std::abs(points[start].cents);
        if (further < -slack || std::abs(points[start - 1].cents - points[start].cents) > leap) break;
        --start;
    }
    return {points[start].cents, points[start].time, points[arrival].time};
}

} // namespace

std::vector<ContourPoint> contourOf(const PitchTrace& trace, int writtenMidi) {
    Points contour;
    for (const PitchPoint& point : trace.points())
        contour.push_back({point.time, (point.midi - writtenMidi) * 100, point.clarity});
    return contour;
}

WayToNext wayToNext(const std::vector<ContourPoint>& contour, int semitones) {
    constexpr double margin = 0.2;
    constexpr double leap = 0.45;
    const auto part = [&](const ContourPoint& point) { return point.cents / (100.0 * semitones); };
    WayToNext way{semitones, Seconds(0), 0, false};
    std::size_t before = 0, after = 0, run = 0, longest = 0;
    double start = 0;
    for (std::size_t i = 0; i < contour.size(); ++i) {
        const double at = part(contour[i]);
        const bool clear = contour[i].clarity >= clearEnough;
        if (clear && std::abs(at) < margin && longest == 0) ++before;
        if (clear && std::abs(at - 1) < margin) ++after;
        const bool onWay = at > margin && at < 1 - margin && contour[i].clarity >= clearInGlide && before > 0;
        const bool goesOn =
            run == 0 || (at - part(contour[i - 1]) > -0.08 && at - part(contour[i - 1]) < leap);
        run = onWay && goesOn ? run + 1 : (onWay ? 1 : 0);
        if (run == 1) start = at;
        if (run <= longest) continue;
        longest = run;
        way.share = at - start;
    }
    way.between = PitchTrace::step * static_cast<double>(longest);
    way.isClear = before >= 3 && after >= 2;
    return way;
}

Verdict bendVerdict(const Bend& written, const std::vector<ContourPoint>& contour, Range<Seconds> note) {
    constexpr double tolerance = 70, startWithin = 60;
    constexpr std::size_t held = 5, first = 10;
    if (written.shape != BendShape::Up && written.shape != BendShape::UpAndDown) return Verdict::Unclear;
    const Points own = ownPart(contour, note);
    if (isPlain(own)) return Verdict::Contradicted;
    const double wanted = 100 * written.semitones();
    const double reached = heldFarthest(own, 1, held);
    const bool starts =
        std::any_of(own.begin(), own.begin() + std::min<std::ptrdiff_t>(first, std::ssize(own)),
                    [&](const ContourPoint& point) {
                        return point.clarity >= clearInGlide && std::abs(point.cents) < startWithin;
                    });
    // A string bends without a leap.
    const auto onTheWay = std::count_if(own.begin(), own.end(), [&](const ContourPoint& point) {
        return point.cents > 0.25 * wanted && point.cents < 0.75 * wanted && point.clarity >= clearInGlide;
    });
    const bool isBent = starts && onTheWay >= 2 && std::abs(reached - wanted) <= tolerance;
    return isBent ? Verdict::Supported : Verdict::Unclear;
}

Verdict scoopVerdict(const std::vector<ContourPoint>& contour, Range<Seconds> note) {
    constexpr double leastCents = 35, farthest = 250;
    constexpr double latest = 0.26;
    constexpr Seconds shortest{0.02};
    const Points head =
        within(contour, note.begin - Seconds(0.05), std::min(note.begin + Seconds(latest), note.end));
    const Glide glide = firstGlideTo(head);
    const bool isScooped = -glide.cents >= leastCents && -glide.cents <= farthest &&
                           glide.end - glide.begin >= shortest && glide.end > note.begin + shortest;
    if (isScooped) return Verdict::Supported;
    const Points start = within(contour, note.begin + Seconds(0.01), note.begin + Seconds(0.12));
    constexpr double still = 25;
    return plainOrUnclear(glide.cents > -still && isPlain(start, still));
}

Verdict fallVerdict(const std::vector<ContourPoint>& contour, Range<Seconds> note, bool isFollowed) {
    constexpr double leastCents = 80;
    const Seconds last = isFollowed ? note.end - Seconds(0.03) : note.end + Seconds(0.05);
    Points end = within(contour, note.begin + note.length() * 0.35, last);
    std::reverse(end.begin(), end.end());
    for (std::size_t i = 0; i < end.size(); ++i) {
        const Points before(end.begin() + static_cast<std::ptrdiff_t>(i), end.end());
        if (-firstGlideTo(before).cents >= leastCents) return Verdict::Supported;
        if (std::abs(end[i].cents) < plainCents && end[i].clarity >= clearEnough) break;
    }
    return plainOrUnclear(isPlain(
        within(contour, note.begin + note.length() * 0.45, note.end - Seconds(isFollowed ? 0.03 : 0.01)),
        35));
}

Verdict turnVerdict(Turn written, const std::vector<ContourPoint>& contour, Range<Seconds> note) {
    const int side = written == Turn::FromAbove ? 1 : -1;
    // It often begins on its neighbour, before the written pitch is heard to begin.
    const Points whole = within(contour, note.begin - Seconds(0.1), note.end - Seconds(0.02));
    // Of a short one no more is left for the way back than the end of the note.
    const Points toItsEnd = within(contour, note.begin - Seconds(0.1), note.end);
    const std::vector<Excursion> away = excursionsIn(whole);
    for (std::size_t i = 0; i + 1 < away.size(); ++i) {
        const Excursion& last = away[i + 1];
        const bool isWithin = whole[last.first].time > note.begin;
        const bool comesBack = firstHeld(toItsEnd, last.first + last.length, plainCents) < toItsEnd.size();
        if (isWithin && comesBack && away[i].side == side && last.side == -side) return Verdict::Supported;
    }
    return plainOrUnclear(isPlain(ownPart(contour, note)));
}

Verdict mordentVerdict(Mordent written, const std::vector<ContourPoint>& contour, Range<Seconds> note) {
    constexpr std::size_t latest = 50, longest = 30;
    const Points own = ownPart(contour, note);
    const int side = written == Mordent::Upper ? 1 : -1;
    const std::vector<Excursion> away = excursionsIn(own);
    const bool isTouched = away.size() == 1 && away[0].side == side && away[0].first > 0 &&
                           away[0].first <= latest && away[0].length <= longest &&
                           away[0].first + away[0].length + 2 < own.size();
    return isTouched ? Verdict::Supported : plainOrUnclear(isPlain(own));
}

Verdict slideToNextVerdict(const std::optional<WayToNext>& way) {
    constexpr Seconds slides{0.025}, leaps{0.0101};
    constexpr double leastShare = 0.25;
    if (!way || !way->isClear) return Verdict::Unclear;
    if (way->between >= slides && way->share >= leastShare) return Verdict::Supported;
    // What lies between two neighbouring semitones is soon crossed.
    return plainOrUnclear(way->between <= leaps && std::abs(way->semitones) >= 2);
}

bool surelySlides(const std::optional<WayToNext>& way) {
    constexpr Seconds surely{0.035};
    constexpr double mostOfIt = 0.35;
    return way && way->isClear && std::abs(way->semitones) >= 2 && way->between >= surely &&
           way->share >= mostOfIt;
}

bool standsStill(const std::vector<ContourPoint>& contour, Range<Seconds> note) {
    constexpr double least = 12;
    std::vector<double> cents;
    for (const ContourPoint& point : within(contour, note.begin + Seconds(0.04), note.end - Seconds(0.03)))
        if (point.clarity >= clearEnough) cents.push_back(point.cents);
    if (cents.empty()) return false;
    std::sort(cents.begin(), cents.end());
    const auto at = [&](double share) {
        return cents[static_cast<std::size_t>(share * static_cast<double>(cents.size() - 1))];
    };
    return at(0.9) - at(0.1) <= 2 * least;
}

} // namespace earwright
