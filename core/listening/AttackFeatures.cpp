#include "core/listening/AttackFeatures.h"

#include "core/listening/Median.h"
#include "core/listening/SoundAround.h"
#include "core/sound/RealTransform.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace earwright {

namespace {

constexpr int from = -100, to = 120;
/// Further from each other nothing is told apart by them.
constexpr double farthest = 40;

/// Spectra around an onset; places are milliseconds from it.
class SpectraAround {
public:
    SpectraAround(const StereoViews& views, std::size_t view, Seconds onset, int stepMs,
                  const SoundAround& around)
        : lines(around.length() / 2 + 1) {
        RealTransform transform(around.length());
        for (int ms = from; ms <= to; ms += stepMs) {
            around.cut(views.sound(view), views.sampleAt(onset + Seconds(0.001 * ms)), transform.time());
            transform.forward();
            for (std::size_t k = 0; k < lines; ++k)
                power.push_back(std::norm(transform.spectrum()[k]));
        }
    }

    std::size_t places() const { return power.size() / lines; }
    std::span<const float> at(std::size_t place) const {
        return std::span(power).subspan(place * lines, lines);
    }
    std::size_t lineAt(double hertz) const {
        return static_cast<std::size_t>(
            std::llround(hertz * 2 * static_cast<double>(lines - 1) / analysisRate.hertz));
    }

private:
    std::size_t lines;
    std::vector<float> power;
};

/// A level in dB at places that many milliseconds apart.
struct Course {
    int step;
    std::vector<double> level;

    /// Both ends belong to it.
    std::vector<double> within(int first, int last) const {
        const auto place = [&](int ms) { return (ms - from) / step; };
        return {level.begin() + place(first), level.begin() + place(last) + 1};
    }
    double at(int ms) const { return level[static_cast<std::size_t>((ms - from) / step)]; }
    double median(int first, int last) const { return medianOf(within(first, last)); }
    double mean(int first, int last) const {
        const auto values = within(first, last);
        return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
    }
    double greatest(int first, int last) const {
        const auto values = within(first, last);
        return *std::max_element(values.begin(), values.end());
    }
    double least(int first, int last) const {
        const auto values = within(first, last);
        return *std::min_element(values.begin(), values.end());
    }
};

/// The levels of frequency bands, 12 ms at a time.
class BandCourses {
public:
    static constexpr std::array<double, 6> edges{150, 600, 1400, 2800, 5200, 9500};
    static constexpr int step = 5;

    BandCourses(const StereoViews& views, std::size_t view, Seconds onset) {
        static const SoundAround around(256);
        const SpectraAround spectra(views, view, onset, step, around);
        for (std::size_t band = 0; band < all.size(); ++band)
            for (std::size_t place = 0; place < spectra.places(); ++place)
                all[band].push_back(energyIn(spectra, place, band));
    }

    Course course(std::size_t band) const {
        // A millionth of the loudest band is silence.
        constexpr double silence = 1e-6;
        double loudest = 0;
        for (const auto& energies : all)
            loudest = std::max(loudest, *std::max_element(energies.begin(), energies.end()));
        Course course{step, {}};
        for (const double energy : all[band])
            course.level.push_back(10 * std::log10(energy + silence * loudest + 1e-12));
        return course;
    }

private:
    static double energyIn(const SpectraAround& spectra, std::size_t place, std::size_t band) {
        const auto power = spectra.at(place);
        double energy = 0;
        for (std::size_t k = spectra.lineAt(edges[band]); k < spectra.lineAt(edges[band + 1]); ++k)
            energy += power[k];
        return energy;
    }

    /// By band and place.
    std::array<std::vector<double>, edges.size() - 1> all;
};

/// The level of a pitch's partials, 46 ms at a time; those another pitch has too count for little.
Course partialsOf(const SpectraAround& spectra, double hertz, double other) {
    constexpr int partials = 12, step = 10;
    constexpr double highest = 9000, near = 55, sharedWeight = 0.15;
    // As loudness adds up (LineLevel).
    constexpr double stevens = 0.6;
    Course course{step, {}};
    for (std::size_t place = 0; place < spectra.places(); ++place) {
        const auto power = spectra.at(place);
        double loudness = 0, weights = 1e-9;
        for (int h = 1; h <= partials && h * hertz < highest; ++h) {
            const double nearest = std::max(1.0, std::round(h * hertz / other)) * other;
            const double weight = std::abs(h * hertz - nearest) > near ? 1 : sharedWeight;
            const std::size_t line = std::max<std::size_t>(spectra.lineAt(h * hertz), 2);
            const double peak = *std::max_element(&power[line - 1], &power[line + 2]);
            loudness += weight * std::pow(peak, stevens / 2);
            weights += weight;
        }
        course.level.push_back(20 / stevens * std::log10(loudness / weights + 1e-6));
    }
    return course;
}

void addBand(const Course& band, std::vector<double>& features) {
    const double before = band.median(-80, -25), after = band.median(35, 80);
    features.push_back(band.greatest(-10, 15) - after);
    features.push_back(band.least(-30, 5) - std::min(before, after));
    features.push_back(after - band.mean(-25, -15));
    features.push_back((band.mean(35, 60) - band.mean(65, 105)) -
                       (band.mean(-95, -60) - band.mean(-50, -20)));
}

void addPartials(const Course& fresh, const Course& old, std::vector<double>& features) {
    features.push_back(fresh.at(40) - fresh.at(-40));
    features.push_back(fresh.at(10) - fresh.at(50));
    features.push_back(fresh.at(50) - fresh.at(100));
    features.push_back(old.at(-30) - old.at(40));
    features.push_back(old.at(0) - old.at(-40));
    features.push_back(old.at(-20) - old.at(-60));
    features.push_back(old.at(-80) - old.at(-40));
    features.push_back(fresh.at(40) - old.at(-40));
    double gap = farthest;
    for (int ms = -20; ms < 20; ms += fresh.step)
        gap = std::min(gap, std::max(fresh.at(ms), old.at(ms)) - std::min(fresh.at(50), old.at(-50)));
    features.push_back(gap);
}

} // namespace

AttackFeatures attackFeatures(const StereoViews& views, std::size_t view, const AttackQuestion& question,
                              const NoteAttack& attack) {
    const double before = *question.hertzBefore;
    std::vector<double> all;
    const BandCourses bands(views, view, attack.onset);
    for (std::size_t band = 0; band + 1 < BandCourses::edges.size(); ++band)
        addBand(bands.course(band), all);
    static const SoundAround around(1024);
    const SpectraAround spectra(views, view, attack.onset, 10, around);
    addPartials(partialsOf(spectra, question.hertz, before), partialsOf(spectra, before, question.hertz),
                all);
    const double interval = 12 * std::log2(question.hertz / before);
    for (const double value : {attack.burst, attack.dip, attack.rise, attack.steepness, std::abs(interval),
                               interval > 0 ? 1.0 : 0.0, std::log2(question.hertz / 220)})
        all.push_back(value);
    AttackFeatures features{};
    for (std::size_t i = 0; i < features.size(); ++i)
        features[i] = static_cast<float>(std::clamp(all[i], -farthest, farthest));
    return features;
}

} // namespace earwright
