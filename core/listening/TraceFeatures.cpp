#include "core/listening/TraceFeatures.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace earwright {

namespace {

/// A place of the trace in cents against the written pitch.
struct Bit {
    double time;
    double cents;
    bool clear;
    bool clearGlide;
};
using Bits = std::vector<Bit>;

Bits bitsOf(const PitchTrace& trace, double writtenMidi) {
    Bits bits;
    for (const PitchPoint& point : trace.points())
        bits.push_back({point.time.value, (point.midi - writtenMidi) * 100,
                        point.clarity >= PitchPoint::clearEnough, point.clarity >= PitchPoint::clearInGlide});
    return bits;
}

Bits cut(const Bits& bits, double from, double to) {
    Bits part;
    std::copy_if(bits.begin(), bits.end(), std::back_inserter(part),
                 [&](const Bit& bit) { return bit.time >= from - 1e-9 && bit.time < to; });
    return part;
}

double quantile(std::vector<double> values, double share) {
    if (values.empty()) return 0;
    const auto at = static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1) + 0.5);
    std::nth_element(values.begin(), values.begin() + at, values.end());
    return values[static_cast<std::size_t>(at)];
}

std::vector<double> clearCents(const Bits& bits) {
    std::vector<double> values;
    for (const Bit& bit : bits)
        if (bit.clear) values.push_back(bit.cents);
    return values;
}

/// Where the pitch has reached its target for good, for 25 ms at least; bits.size() where it never does.
std::size_t arrivalAt(const Bits& bits, double target) {
    constexpr double nearCents = 30;
    constexpr std::size_t held = 5;
    std::size_t run = 0;
    for (std::size_t i = 0; i < bits.size(); ++i) {
        run = bits[i].clear && std::abs(bits[i].cents - target) <= nearCents ? run + 1 : 0;
        if (run == held) return i + 1 - held;
    }
    return bits.size();
}

struct Glide {
    HeardSlide slide;
    /// Where the note was reached, and where the glide to it began.
    double arrival;
    double start;
};

/// A glide that ends at the target, told in the order of the bits (which may run backwards in time).
std::optional<Glide> glideInto(const Bits& bits, double target) {
    constexpr double leastCents = 50;
    constexpr double leastSeconds = 0.020;
    constexpr double leapCents = 60;
    constexpr double slackCents = 8;
    const std::size_t arrival = arrivalAt(bits, target);
    if (arrival == bits.size()) return std::nullopt;
    const auto away = [&](std::size_t i) { return bits[i].cents - target; };
    std::size_t start = arrival;
    while (start > 0 && bits[start - 1].clearGlide) {
        const double further = std::abs(away(start - 1)) - std::abs(away(start));
        const bool leaps = std::abs(away(start - 1) - away(start)) > leapCents;
        if (leaps || further < -slackCents) break;
        --start;
    }
    const double depth = away(start);
    if (std::abs(depth) < leastCents) return std::nullopt;
    int middle = 0;
    for (std::size_t i = start; i <= arrival; ++i)
        if (std::abs(away(i)) > 0.2 * std::abs(depth) && std::abs(away(i)) < 0.8 * std::abs(depth)) ++middle;
    const Seconds duration = PitchTrace::step * middle;
    if (duration.value < leastSeconds) return std::nullopt;
    return Glide{{depth, duration}, bits[arrival].time, bits[start].time};
}

std::optional<HeardTrill> trillIn(const Bits& bits) {
    constexpr double leastCents = 80;
    constexpr int leastLeaps = 3;
    constexpr double slowest = 3, fastest = 16;
    const std::vector<double> values = clearCents(bits);
    if (values.size() < 20) return std::nullopt;
    const double low = quantile(values, 0.1), high = quantile(values, 0.9);
    if (high - low < leastCents) return std::nullopt;
    int leaps = 0, side = 0;
    double first = 0, last = 0;
    std::vector<double> above, below;
    for (const Bit& bit : bits) {
        if (!bit.clear) continue;
        const double part = (bit.cents - low) / (high - low);
        (part > 0.5 ? above : below).push_back(bit.cents);
        const int now = part > 0.7 ? 1 : part < 0.3 ? -1 : side;
        if (side != 0 && now != side) {
            if (leaps == 0) first = bit.time;
            last = bit.time;
            ++leaps;
        }
        side = now;
    }
    if (leaps < leastLeaps || last <= first) return std::nullopt;
    const double hertz = (leaps - 1) / (2 * (last - first));
    if (hertz < slowest || hertz > fastest) return std::nullopt;
    // A vibrato of 60 cents either way spends half of each swing within 42 cents of its middle: 85 apart. A
    // trill stays on its two notes.
    constexpr double leastApart = 90;
    const double apart = quantile(above, 0.5) - quantile(below, 0.5);
    if (apart < leastApart) return std::nullopt;
    return HeardTrill{hertz, apart / 100};
}

struct Swing {
    double amplitude = 0;
    double evenness = 0;
};

/// The swing of one rate that fits best, around a straight line (least squares over 1, t, cos, sin).
Swing swingAt(const Bits& bits, double hertz) {
    // Remove the line first; then cosine and sine are nearly orthogonal over 1.5 turns and more.
    double n = 0, st = 0, sv = 0, stt = 0, stv = 0;
    for (const Bit& bit : bits) {
        n += 1, st += bit.time, sv += bit.cents, stt += bit.time * bit.time, stv += bit.time * bit.cents;
    }
    const double slope = (n * stv - st * sv) / std::max(n * stt - st * st, 1e-12);
    const double level = (sv - slope * st) / n;
    double cc = 0, ss = 0, cs = 0, cv = 0, sw = 0, total = 0;
    for (const Bit& bit : bits) {
        const double rest = bit.cents - level - slope * bit.time;
        const double c = std::cos(2 * std::numbers::pi * hertz * bit.time);
        const double s = std::sin(2 * std::numbers::pi * hertz * bit.time);
        cc += c * c, ss += s * s, cs += c * s, cv += c * rest, sw += s * rest, total += rest * rest;
    }
    const double determinant = cc * ss - cs * cs;
    if (determinant < 1e-9 || total < 1e-9) return {};
    const double a = (cv * ss - sw * cs) / determinant, b = (sw * cc - cv * cs) / determinant;
    return {std::hypot(a, b), std::clamp((a * cv + b * sw) / total, 0.0, 1.0)};
}

/// How often the pitch turns round, not counting what moves by less than `least` cents.
int turnsIn(const Bits& bits, double least) {
    int turns = 0, direction = 0;
    double extreme = bits.empty() ? 0 : bits.front().cents;
    for (const Bit& bit : bits) {
        const double moved = bit.cents - extreme;
        if (direction == 0 ? std::abs(moved) >= least : moved * direction <= -least) {
            if (direction != 0) ++turns;
            direction = moved > 0 ? 1 : -1;
            extreme = bit.cents;
        } else if (moved * direction > 0) {
            extreme = bit.cents;
        }
    }
    return turns;
}

std::optional<HeardVibrato> vibratoIn(const Bits& bits) {
    constexpr double leastSeconds = 0.26;
    constexpr double leastCents = 8;
    constexpr double leastEvenness = 0.55;
    constexpr double leastTurns = 1.5;
    if (bits.size() < 2) return std::nullopt;
    HeardVibrato best;
    const double end = bits.back().time;
    const double whole = end - bits.front().time;
    // It often sets in late.
    for (const double share : {1.0, 0.6, 0.4}) {
        const double length = share * whole;
        if (length < leastSeconds) continue;
        const Bits part = cut(bits, end - length, end + 1);
        for (double hertz = std::max(3.5, leastTurns / length); hertz <= 9; hertz += 0.1) {
            const Swing swing = swingAt(part, hertz);
            // A glide that is fitted by a slow swing does not come back.
            if (turnsIn(part, 0.8 * swing.amplitude) < 2) continue;
            if (swing.evenness > best.evenness) best = {hertz, swing.amplitude, swing.evenness};
        }
    }
    if (best.evenness < leastEvenness || best.cents < leastCents) return std::nullopt;
    return best;
}

/// The longest stretch through which the pitch does not leap.
Bits longestUnbroken(const Bits& bits) {
    constexpr double leapCents = 60;
    std::size_t first = 0, longest = 0, start = 0;
    for (std::size_t i = 0; i < bits.size(); ++i) {
        if (i > 0 && std::abs(bits[i].cents - bits[i - 1].cents) > leapCents) start = i;
        if (i + 1 - start <= longest) continue;
        first = start;
        longest = i + 1 - start;
    }
    const auto begin = bits.begin() + static_cast<std::ptrdiff_t>(first);
    return Bits(begin, begin + static_cast<std::ptrdiff_t>(longest));
}

/// Where a pitch starts that may soon be bent: as near to the written one as it is within its first 40 ms.
double startOf(const Bits& bits) {
    const std::vector<double> first =
        clearCents(Bits(bits.begin(), bits.begin() + std::min<std::ptrdiff_t>(8, std::ssize(bits))));
    const auto nearest = std::min_element(
        first.begin(), first.end(), [](double one, double other) { return std::abs(one) < std::abs(other); });
    return nearest == first.end() ? 0 : *nearest;
}

/// The farthest the pitch is held away from where it was reached. A string or a lip bends without a leap; a
/// leap is the trace's own, to a neighbour that still sounds or to other partials.
std::optional<double> bendIn(const Bits& settled, const std::optional<HeardVibrato>& vibrato) {
    const Bits bits = longestUnbroken(settled);
    constexpr std::size_t longestHeld = 11, shortestHeld = 6;
    constexpr double leastCents = 45;
    // Over a whole swing a vibrato stands where its middle is.
    const std::size_t held = vibrato ? static_cast<std::size_t>(1 / (vibrato->hertz * PitchTrace::step.value))
                                     : std::clamp(bits.size() / 4, shortestHeld, longestHeld);
    if (bits.size() < held + 4) return std::nullopt;
    const double start = startOf(bits);
    double farthest = 0;
    for (std::size_t i = 0; i + held <= bits.size(); ++i) {
        const auto first = bits.begin() + static_cast<std::ptrdiff_t>(i);
        const std::vector<double> values = clearCents(Bits(first, first + held));
        if (values.size() < held - 2) continue;
        const double away = quantile(values, 0.5) - start;
        if (std::abs(away) > std::abs(farthest)) farthest = away;
    }
    if (std::abs(farthest) < leastCents) return std::nullopt;
    return farthest;
}

/// What the note is taken to aim at, soon after its start.
double targetOf(const Bits& bits, Range<Seconds> note) {
    const double length = note.length().value;
    const double from = note.begin.value + std::min(0.10, 0.45 * length);
    const double to = std::min(note.begin.value + 0.22, note.end.value - 0.015);
    return quantile(clearCents(cut(bits, from, std::max(to, from + 0.02))), 0.5);
}

std::optional<HeardSlide> slideOutIn(const Bits& bits, Range<Seconds> note) {
    Bits backwards = cut(bits, note.begin.value + 0.4 * note.length().value, note.end.value + 0.02);
    const std::vector<double> before = clearCents(cut(bits, note.begin.value + 0.3 * note.length().value,
                                                      note.begin.value + 0.6 * note.length().value));
    if (before.empty()) return std::nullopt;
    std::reverse(backwards.begin(), backwards.end());
    const auto glide = glideInto(backwards, quantile(before, 0.5));
    // A pitch that is held after the glide is bent.
    constexpr double heldAfter = 0.06;
    if (!glide || note.end.value - glide->start > heldAfter) return std::nullopt;
    return glide->slide;
}

} // namespace

TraceFeatures featuresOf(const PitchTrace& trace, Range<Seconds> note, double writtenMidi) {
    TraceFeatures heard;
    const double begin = note.begin.value, end = note.end.value;
    const Bits all = bitsOf(trace, writtenMidi);
    const Bits own = cut(all, begin, end - 0.01);
    if (own.empty()) return heard;
    const auto clear = std::count_if(own.begin(), own.end(), [](const Bit& bit) { return bit.clear; });
    heard.clearShare = static_cast<double>(clear) / static_cast<double>(own.size());
    heard.centreCents = quantile(clearCents(cut(all, begin + 0.4 * (end - begin), end - 0.015)), 0.5);
    if (heard.clearShare < 0.5) return heard;
    heard.trill = trillIn(own);
    if (heard.trill) return heard;

    constexpr double before = 0.09;
    const Bits head = cut(all, begin - before, end - 0.01);
    const double target = targetOf(all, note);
    const auto glide = glideInto(head, target);
    // A pitch that was held first and left then is bent, not slid into.
    constexpr double heldFirst = 0.09;
    // Nor is one that leaves the written pitch for another.
    constexpr double quarterTone = 50;
    const bool leaves =
        glide && std::abs(target) > quarterTone && std::abs(target + glide->slide.cents) < quarterTone;
    const bool slides =
        glide && !leaves && glide->arrival - begin - 1.7 * glide->slide.duration.value < heldFirst;
    if (slides) heard.slideIn = glide->slide;
    heard.slideOut = slideOutIn(all, note);
    const Bits settled = cut(all, slides ? glide->arrival + 0.01 : begin + 0.015, end - 0.025);
    heard.vibrato = vibratoIn(settled);
    if (!heard.slideOut) heard.bendCents = bendIn(settled, heard.vibrato);
    return heard;
}

} // namespace earwright
