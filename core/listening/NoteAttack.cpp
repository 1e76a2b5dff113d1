#include "core/listening/NoteAttack.h"

#include "core/listening/LineLevel.h"
#include "core/listening/Median.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace earwright {

namespace {

constexpr Seconds around{0.13};
/// A rise is told from so long before a place to so long after it.
constexpr Seconds half{0.0125};

double decibels(double ratio) {
    return 20 * std::log10(std::max(ratio, 1e-6));
}

double greatest(const std::vector<double>& values) {
    return values.empty() ? 0 : *std::max_element(values.begin(), values.end());
}

double least(const std::vector<double>& values) {
    return values.empty() ? 0 : *std::min_element(values.begin(), values.end());
}

std::vector<double> between(const LineLevel& level, Seconds onset, double from, double to) {
    return level.within({onset + Seconds(from), onset + Seconds(to)});
}

/// Where the partials rise most, a little in favour of the expected place.
void findOnset(const LineLevel& own, const AttackQuestion& question, NoteAttack& attack) {
    const double loudest = greatest(own.within({question.search.begin, question.search.end + Seconds(0.06)}));
    double best = -1;
    attack.onset = question.expected;
    for (std::size_t i = 0; i < own.values.size(); ++i) {
        const Seconds time = own.timeOf(i);
        if (!question.search.contains(time)) continue;
        const double after = own.at(time + half), before = own.at(time - half);
        const double share = std::max(0.0, after - before) / (loudest + 1e-12);
        const double away = ratio(time - question.expected, question.usualDeviation);
        const double value = share * std::exp(-0.25 * away * away);
        if (value <= best) continue;
        best = value;
        attack.onset = time;
        attack.steepness = std::max(0.0, after - before) / (after + 1e-12);
    }
}

/// Back from the steepest rise to where a third of the way up is made: nearer to what is heard as the onset
/// of a slow attack, and the same for a fast one within the window's smear.
void goToFoot(const LineLevel& own, NoteAttack& attack) {
    constexpr double share = 0.33;
    constexpr Seconds farthestBack{0.03};
    const double top = own.at(attack.onset + half);
    const double bottom = least(own.within({attack.onset - farthestBack, attack.onset + LineLevel::step}));
    const Seconds from = attack.onset;
    while (from - attack.onset < farthestBack && own.at(attack.onset) > bottom + share * (top - bottom))
        attack.onset -= LineLevel::step;
}

/// Both notes' partials together.
LineLevel together(const LineLevel& own, const std::optional<LineLevel>& other) {
    LineLevel sum = own;
    if (other)
        for (std::size_t i = 0; i < sum.values.size(); ++i)
            sum.values[i] = std::max(sum.values[i], other->values[i]);
    return sum;
}

} // namespace

double steepestRise(const StereoViews& views, std::size_t view, const Range<Seconds>& search, double hertz) {
    if (search.end <= search.begin) return 0;
    const LineLevel own = levelOfPitch(
        views, view, {search.begin - half - LineLevel::step, search.end + half + LineLevel::step}, hertz);
    double steepest = 0;
    for (std::size_t i = 0; i < own.values.size(); ++i) {
        const Seconds time = own.timeOf(i);
        if (!search.contains(time)) continue;
        const double after = own.at(time + half), before = own.at(time - half);
        steepest = std::max(steepest, (after - before) / (after + 1e-12));
    }
    return steepest;
}

double sagAbout(const StereoViews& views, std::size_t view, Seconds time, const Range<Seconds>& within,
                double hertz) {
    const auto part = [&](double from, double to) {
        return Range<Seconds>{std::max(within.begin, time + Seconds(from)),
                              std::min(within.end, time + Seconds(to))};
    };
    const Range<Seconds> whole = part(-0.25, 0.2);
    if (whole.end <= whole.begin) return 0;
    const LineLevel own = levelOfPitch(views, view, whole, hertz);
    const double before = greatest(own.within(part(-0.25, -0.04)));
    const double after = greatest(own.within(part(0.02, 0.2)));
    const double lowest = least(own.within(part(-0.09, 0.05)));
    return std::min(0.0, decibels((lowest + 1e-9) / (std::min(before, after) + 1e-9)));
}

NoteAttack attackOf(const StereoViews& views, std::size_t view, const AttackQuestion& question) {
    const Range<Seconds> time{question.search.begin - around, question.search.end + around};
    const LineLevel own = levelOfPitch(views, view, time, question.hertz);
    std::optional<LineLevel> other;
    if (question.hertzBefore) other = levelOfPitch(views, view, time, *question.hertzBefore);
    const LineLevel both = together(own, other);
    const LineLevel noise = levelOfNoise(views, view, time);

    NoteAttack attack;
    findOnset(own, question, attack);
    goToFoot(own, attack);
    const Seconds onset = attack.onset;
    const double noiseAround = std::max(medianOf(between(noise, onset, 0.035, 0.080)),
                                        medianOf(between(noise, onset, -0.070, -0.020)));
    attack.burst = decibels(greatest(between(noise, onset, -0.010, 0.016)) / (noiseAround + 1e-9));
    const double before = medianOf(between(both, onset, -0.080, -0.035));
    const double after = medianOf(between(both, onset, 0.020, 0.060));
    const double lowest = least(between(both, onset, -0.035, 0.012));
    attack.dip = std::min(0.0, decibels(lowest / (std::min(before, after) + 1e-9)));
    attack.rise = decibels(after / (medianOf(between(both, onset, -0.040, -0.012)) + 1e-9));
    attack.loudness = decibels(greatest(between(own, onset, 0.0, 0.120)));
    return attack;
}

} // namespace earwright
