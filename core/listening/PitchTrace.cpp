#include "core/listening/PitchTrace.h"

#include "core/listening/SoundAround.h"
#include "core/sound/RealTransform.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr std::size_t transformLength = 4096;
constexpr double stepCents = 10;
constexpr int stepsEachWay = static_cast<int>(PitchTrace::reach * 100 / stepCents);
constexpr std::size_t states = 2 * stepsEachWay + 1;
constexpr int partials = 10;
/// Below this the bass and its partials are stronger than the line's (common in a mix).
constexpr double quietBelowHertz = 400;
constexpr double highestHertz = 6500;

using Spectrum = std::vector<float>;

/// Square roots of magnitudes: one loud partial does not stand for all.
class Spectra {
public:
    explicit Spectra(std::size_t window) : stretch(window), transform(transformLength) {}

    Spectrum around(std::span<const float> sound, std::ptrdiff_t centre) {
        const auto time = transform.time();
        std::fill(time.begin(), time.end(), 0.0f);
        stretch.cut(sound, centre, time.first(stretch.length()));
        transform.forward();
        Spectrum result(transformLength / 2 + 1);
        const auto lines = transform.spectrum();
        for (std::size_t i = 0; i < result.size(); ++i)
            result[i] = std::sqrt(std::abs(lines[i]));
        return result;
    }

private:
    SoundAround stretch;
    RealTransform transform;
};

double at(const Spectrum& spectrum, double hertz) {
    const double line = hertz * transformLength / analysisRate.hertz;
    const auto below = static_cast<std::size_t>(line);
    if (below + 1 >= spectrum.size()) return 0;
    const double part = line - static_cast<double>(below);
    return (1 - part) * spectrum[below] + part * spectrum[below + 1];
}

struct Comb {
    double on = 0;
    double between = 0;
    double contrast() const { return on - between; }
};

Comb combAt(const Spectrum& spectrum, double hertz) {
    Comb comb;
    double weights = 0;
    for (int h = 1; h <= partials && h * hertz < highestHertz; ++h) {
        const double weight = h * hertz < quietBelowHertz ? 0.4 : 1.0;
        comb.on += weight * at(spectrum, h * hertz);
        comb.between += weight * 0.5 * (at(spectrum, (h - 0.5) * hertz) + at(spectrum, (h + 0.5) * hertz));
        weights += weight;
    }
    if (weights > 0) {
        comb.on /= weights;
        comb.between /= weights;
    }
    return comb;
}

double hertzOf(double midi, double tuningCents) {
    return 440 * std::exp2((midi - 69 + tuningCents / 100) / 12);
}

double offsetOf(std::size_t state) {
    return (static_cast<double>(state) - stepsEachWay) * stepCents / 100;
}

/// What a place says to each pitch within reach.
struct Place {
    Seconds time;
    std::vector<Comb> combs;
    double best = 0;
};

/// The path that is heard best without needless leaps, as a state a place.
std::vector<std::size_t> pathThrough(const std::vector<Place>& places) {
    constexpr double lossPerStep = 0.03;
    constexpr int dearestSteps = 20;
    double usual = 1e-12;
    for (const Place& place : places)
        usual += place.best / static_cast<double>(places.size());
    std::vector<double> score(states, 0.0);
    std::vector<std::vector<std::size_t>> from(places.size(), std::vector<std::size_t>(states));
    for (std::size_t t = 0; t < places.size(); ++t) {
        const std::vector<double> before = score;
        const auto leap =
            static_cast<std::size_t>(std::max_element(before.begin(), before.end()) - before.begin());
        const double norm = 0.5 * (usual + places[t].best) + 1e-12;
        for (std::size_t s = 0; s < states; ++s) {
            double best = before[leap] - lossPerStep * dearestSteps;
            from[t][s] = leap;
            for (int d = -dearestSteps; d <= dearestSteps; ++d) {
                const int other = static_cast<int>(s) + d;
                if (other < 0 || other >= static_cast<int>(states)) continue;
                const double value = before[static_cast<std::size_t>(other)] - lossPerStep * std::abs(d);
                if (value <= best) continue;
                best = value;
                from[t][s] = static_cast<std::size_t>(other);
            }
            score[s] = best + places[t].combs[s].contrast() / norm;
        }
    }
    std::vector<std::size_t> path(places.size());
    std::size_t state =
        static_cast<std::size_t>(std::max_element(score.begin(), score.end()) - score.begin());
    for (std::size_t t = places.size(); t-- > 0;) {
        path[t] = state;
        state = from[t][state];
    }
    return path;
}

/// Between the steps: the top of the parabola through three of them.
double refined(const Place& place, std::size_t state) {
    if (state == 0 || state + 1 >= states) return offsetOf(state);
    const double left = place.combs[state - 1].contrast();
    const double middle = place.combs[state].contrast();
    const double right = place.combs[state + 1].contrast();
    const double curve = left - 2 * middle + right;
    const double shift = curve < 0 ? std::clamp(0.5 * (left - right) / curve, -1.0, 1.0) : 0.0;
    return offsetOf(state) + shift * stepCents / 100;
}

} // namespace

PitchTrace PitchTrace::of(const StereoViews& views, std::size_t view, double tuningCents, Range<Seconds> span,
                          double expectedMidi) {
    const double expected = hertzOf(expectedMidi, tuningCents);
    if (span.isEmpty() || expected < 30 || 2 * expected > highestHertz) return {};
    Spectra spectra(expected < 150 ? 2048 : 1024);
    std::vector<Place> places;
    for (Seconds time = span.begin; time < span.end; time += step) {
        const Spectrum spectrum = spectra.around(views.sound(view), views.sampleAt(time));
        Place place{time, {}, 0};
        place.combs.reserve(states);
        for (std::size_t s = 0; s < states; ++s) {
            place.combs.push_back(combAt(spectrum, hertzOf(expectedMidi + offsetOf(s), tuningCents)));
            place.best = std::max(place.best, place.combs.back().contrast());
        }
        places.push_back(std::move(place));
    }
    const std::vector<std::size_t> path = pathThrough(places);
    std::vector<PitchPoint> points;
    for (std::size_t t = 0; t < places.size(); ++t) {
        const Comb& comb = places[t].combs[path[t]];
        const double all = comb.on + comb.between;
        const double clarity = all > 1e-6 ? std::clamp(comb.contrast() / all, 0.0, 1.0) : 0.0;
        points.push_back(
            {places[t].time, expectedMidi + refined(places[t], path[t]), clarity, comb.on * comb.on});
    }
    return PitchTrace(std::move(points));
}

std::vector<PitchPoint> PitchTrace::within(Range<Seconds> time) const {
    std::vector<PitchPoint> chosen;
    std::copy_if(list.begin(), list.end(), std::back_inserter(chosen),
                 [&](const PitchPoint& point) { return time.contains(point.time); });
    return chosen;
}

} // namespace earwright
