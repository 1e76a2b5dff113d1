#include "core/engine/HeldInstant.h"

#include "core/sound/RealTransform.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>

namespace earwright {

namespace {

using Lines = std::vector<std::complex<float>>;
using Spectra = std::vector<Lines>;

constexpr double shortSeconds = 0.093;
constexpr double searchSeconds = 0.06;
constexpr double searchStep = 0.01;
/// Change of the spectrum (see changeOf) of a note that rings on.
constexpr double steadyChange = 0.05;
constexpr double alikeChange = 0.1;
constexpr double lowestHertz = 20;

std::size_t lengthFor(SampleRate rate, double seconds) {
    const auto frames = static_cast<std::size_t>(seconds * rate.hertz);
    const std::size_t above = std::bit_ceil(frames);
    return above - frames < frames - above / 2 ? above : above / 2;
}

/// Looks at a recording through Hann windows of one length.
class Glass {
public:
    Glass(Recording& seen, std::size_t size)
        : recording(seen),
          transform(size),
          window(size),
          samples(size * static_cast<std::size_t>(seen.channels())) {
        for (std::size_t i = 0; i < size; ++i)
            window[i] =
                static_cast<float>(0.5 - 0.5 * std::cos(2 * std::numbers::pi * static_cast<double>(i) /
                                                        static_cast<double>(size)));
    }
    std::size_t length() const { return window.size(); }
    Spectra at(Frames middle) {
        const auto wide = static_cast<std::size_t>(recording.channels());
        recording.read(middle - Frames(static_cast<std::int64_t>(length() / 2)), samples);
        Spectra spectra;
        for (std::size_t channel = 0; channel < wide; ++channel) {
            const auto time = transform.time();
            for (std::size_t i = 0; i < length(); ++i)
                time[i] = window[i] * samples[i * wide + channel];
            transform.forward();
            spectra.emplace_back(transform.spectrum().begin(), transform.spectrum().end());
        }
        return spectra;
    }

private:
    Recording& recording;
    RealTransform transform;
    std::vector<float> window;
    std::vector<float> samples;
};

/// How much the magnitudes of two spectra differ: 0 for the same, 1 for sound out of silence.
double changeOf(const Spectra& a, const Spectra& b) {
    double difference = 0;
    double both = 1e-12;
    for (std::size_t channel = 0; channel < a.size(); ++channel)
        for (std::size_t i = 0; i < a[channel].size(); ++i) {
            const double one = std::abs(a[channel][i]);
            const double other = std::abs(b[channel][i]);
            difference += (one - other) * (one - other);
            both += one * one + other * other;
        }
    return difference / both;
}

double changeAround(Glass& glass, Frames middle, std::size_t distance) {
    const Frames half(static_cast<std::int64_t>(distance / 2));
    return changeOf(glass.at(middle - half), glass.at(middle + half));
}

Frames steadiestFrom(Glass& glass, Frames place, SampleRate rate) {
    Frames best = place;
    double least = 2;
    for (double later = 0; later <= searchSeconds + 1e-9; later += searchStep) {
        const Frames middle = place + rate.frames(Seconds(later));
        const double change = changeAround(glass, middle, glass.length() / 4);
        if (change < steadyChange) return middle;
        if (change < least) {
            least = change;
            best = middle;
        }
    }
    return best;
}

std::vector<double> energiesOf(const Spectra& spectra) {
    std::vector<double> energies(spectra.front().size());
    for (const Lines& lines : spectra)
        for (std::size_t i = 0; i < lines.size(); ++i)
            energies[i] += static_cast<double>(std::norm(lines[i]));
    return energies;
}

/// Phase that line `line` gains from one to the other, both channels in proportion to their energy.
double phaseBetween(const Spectra& from, const Spectra& to, std::size_t line) {
    std::complex<double> sum = 0;
    for (std::size_t channel = 0; channel < from.size(); ++channel)
        sum += std::complex<double>(to[channel][line]) * std::conj(std::complex<double>(from[channel][line]));
    return std::arg(sum);
}

/// The phase nearest to `expected` of those that differ from `measured` by whole turns.
double nearest(double measured, double expected) {
    constexpr double turn = 2 * std::numbers::pi;
    return measured + turn * std::round((expected - measured) / turn);
}

/// Frames by which the spectra for the frequencies lie apart: a short way, over which no phase is in doubt,
/// and a long one, over which it tells the frequency finely.
struct Moments {
    std::size_t nearBy;
    std::size_t far;
    Spectra before, beforeNear, afterNear, after;
};

double advanceOf(const Moments& moments, std::size_t line, std::size_t length) {
    const auto shortWay = static_cast<double>(moments.nearBy);
    const auto longWay = static_cast<double>(moments.far);
    const double middle = 2 * std::numbers::pi * static_cast<double>(line) / static_cast<double>(length);
    const double coarse =
        nearest(phaseBetween(moments.beforeNear, moments.afterNear, line), middle * shortWay) / shortWay;
    return nearest(phaseBetween(moments.before, moments.after, line), coarse * longWay) / longWay;
}

Moments momentsAround(Glass& glass, Frames middle) {
    const auto at = [&](std::size_t distance, int side) {
        return glass.at(middle + Frames(side * static_cast<std::int64_t>(distance / 2)));
    };
    const std::size_t nearBy = glass.length() / 64;
    const std::size_t far = glass.length() / 8;
    return {nearBy, far, at(far, -1), at(nearBy, -1), at(nearBy, 1), at(far, 1)};
}

std::vector<HeldInstant::Peak> peaksOf(const std::vector<double>& energies, std::size_t first,
                                       const Moments& moments, std::size_t length) {
    std::vector<HeldInstant::Peak> peaks;
    std::size_t begin = first;
    while (begin < energies.size()) {
        std::size_t top = begin;
        while (top + 1 < energies.size() && energies[top + 1] >= energies[top])
            ++top;
        std::size_t end = top + 1;
        while (end < energies.size() && energies[end] < energies[end - 1])
            ++end;
        peaks.push_back({begin, end, advanceOf(moments, top, length)});
        begin = end;
    }
    return peaks;
}

} // namespace

HeldInstant HeldInstant::of(Recording& recording, Frames place) {
    const SampleRate rate = recording.rate();
    Glass brief(recording, lengthFor(rate, shortSeconds));
    HeldInstant held;
    held.middle = steadiestFrom(brief, place, rate);
    Glass longer(recording, 2 * brief.length());
    const bool soundsOn = changeAround(brief, held.middle, brief.length()) < alikeChange;
    Glass& glass = soundsOn ? longer : brief;
    held.length = glass.length();
    held.channels = glass.at(held.middle);
    const double perHertz = static_cast<double>(held.length) / rate.hertz;
    const auto first = static_cast<std::size_t>(std::ceil(lowestHertz * perHertz));
    for (Lines& lines : held.channels)
        std::fill_n(lines.begin(), first, 0.0f);
    held.peaks = peaksOf(energiesOf(held.channels), first, momentsAround(glass, held.middle), held.length);
    return held;
}

} // namespace earwright
