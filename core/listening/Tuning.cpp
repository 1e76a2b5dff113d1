#include "core/listening/Tuning.h"

#include "core/listening/SpectralPeaks.h"
#include "core/listening/TuningDrift.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <iterator>
#include <limits>
#include <numbers>
#include <vector>

namespace earwright {

namespace {

constexpr double lowestHertz = 180;
constexpr double highestHertz = 2500;

/// One partial's place within its semitone, and the stretch it was found in.
struct Place {
    double cents;
    double magnitude;
    /// 0 to 1.
    double steadiness;
    std::size_t stretch;

    /// The root, since a few loud notes are no better in tune than the many others.
    double weight() const { return std::sqrt(magnitude) * steadiness; }
};

constexpr std::size_t hop = PeakFinder::stretch / 4;

/// Whether a peak is an odd partial of a lower one that is there as well.
bool isOddPartial(const SpectralPeak& peak, const std::vector<SpectralPeak>& all) {
    constexpr std::array<int, 7> partials{3, 5, 6, 7, 9, 10, 11};
    /// 25 cents either way.
    constexpr double tolerance = 0.0145;
    constexpr double leastShare = 0.1;
    return std::any_of(partials.begin(), partials.end(), [&](int partial) {
        return std::any_of(all.begin(), all.end(), [&](const SpectralPeak& lower) {
            return lower.magnitude > leastShare * peak.magnitude &&
                   std::abs(lower.hertz * partial / peak.hertz - 1) < tolerance;
        });
    });
}

using Peaks = std::vector<SpectralPeak>;

double centsOf(const SpectralPeak& peak) {
    return 1200 * std::log2(peak.hertz / 440);
}

/// How well a peak holds its pitch until the stretch beside it, 0 to 1: a scoop, a slide or a bend under way
/// tells no tuning. Requires: the peaks beside in order of frequency.
double steadiness(const SpectralPeak& peak, const Peaks& beside) {
    constexpr double agreement = 5;
    const auto above =
        std::lower_bound(beside.begin(), beside.end(), peak.hertz,
                         [](const SpectralPeak& other, double hertz) { return other.hertz < hertz; });
    double nearest = std::numeric_limits<double>::infinity();
    if (above != beside.end()) nearest = std::log2(above->hertz / peak.hertz);
    if (above != beside.begin()) nearest = std::min(nearest, std::log2(peak.hertz / std::prev(above)->hertz));
    const double off = 1200 * nearest / agreement;
    return std::exp(-0.5 * off * off);
}

/// The peaks of stretches a quarter of their length apart.
Result<std::vector<Peaks>> peaksIn(std::span<const float> sound, const std::stop_token& stop) {
    constexpr double lowestFundamental = 70;
    PeakFinder finder;
    std::vector<Peaks> stretches;
    for (std::size_t at = 0; at == 0 || at + PeakFinder::stretch < sound.size(); at += hop) {
        if (stop.stop_requested()) return Error{ErrorKind::Cancelled, "Listening was stopped.", ""};
        const auto piece = sound.subspan(at, std::min(PeakFinder::stretch, sound.size() - at));
        stretches.push_back(finder.peaks(piece, lowestFundamental, highestHertz));
    }
    return stretches;
}

std::vector<Place> placesOf(const std::vector<Peaks>& stretches) {
    std::vector<Place> places;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        for (const SpectralPeak& peak : stretches[i]) {
            if (peak.hertz <= lowestHertz || isOddPartial(peak, stretches[i])) continue;
            double steady = 1;
            if (i > 0) steady *= steadiness(peak, stretches[i - 1]);
            if (i + 1 < stretches.size()) steady *= steadiness(peak, stretches[i + 1]);
            places.push_back({centsOf(peak), peak.magnitude, steady, i});
        }
    }
    return places;
}

/// Mean of the places near a first guess, each weighted by a bell of 16 cents around it.
double refined(double guess, const std::vector<Place>& places) {
    constexpr double width = 16;
    constexpr int rounds = 5;
    for (int round = 0; round < rounds; ++round) {
        double sum = 0;
        double weights = 0;
        for (const Place& place : places) {
            const double off = withinSemitone(place.cents - guess);
            const double weight = place.weight() * std::exp(-0.5 * off * off / (width * width));
            sum += weight * off;
            weights += weight;
        }
        if (weights > 0) guess += sum / weights;
    }
    return withinSemitone(guess);
}

Tuning tuningFrom(const std::vector<Place>& places) {
    std::complex<double> sum = 0;
    double weights = 0;
    for (const Place& place : places) {
        sum += std::polar(place.weight(), 2 * std::numbers::pi * place.cents / 100);
        weights += place.weight();
    }
    if (weights <= 0) return Tuning{};
    const double guess = std::arg(sum) / (2 * std::numbers::pi) * 100;
    return Tuning{refined(guess, places), std::abs(sum) / weights};
}

} // namespace

double Tuning::referenceHertz() const {
    return 440 * std::exp2(cents / 1200);
}

Result<HeardTuning> HeardTuning::of(std::span<const float> sound,
                                    const std::function<Seconds(std::size_t sample)>& timeOf,
                                    Seconds duration, std::stop_token stop) {
    const auto stretches = peaksIn(sound, stop);
    if (!stretches) return stretches.error();
    const std::vector<Place> places = placesOf(*stretches);
    const Tuning tuning = tuningFrom(places);
    std::vector<TunedPartial> partials;
    for (const Place& place : places)
        // By its full level: the drift must not follow what is faint.
        partials.push_back({timeOf(place.stretch * hop + PeakFinder::stretch / 2), place.cents,
                            place.magnitude * place.steadiness});
    return HeardTuning{tuning, followTuning(partials, tuning.cents, duration)};
}

} // namespace earwright
