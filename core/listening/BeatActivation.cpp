#include "core/listening/BeatActivation.h"

#include "core/listening/SoundAround.h"
#include "core/sound/RealTransform.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace earwright {

namespace {

constexpr std::size_t window = 1024;
constexpr std::size_t hop = 220;
/// For pitch classes: long enough to tell semitones apart from 130 Hz on.
constexpr std::size_t tonalWindow = 8192;
constexpr std::size_t tonalEvery = 4;
constexpr double lowestHertz = 40;
constexpr double highestHertz = 10500;
constexpr std::size_t bands = 36;
constexpr double lowUntilHertz = 250;
constexpr double highFromHertz = 4000;
/// Frames between a spectrum and the one it is compared with.
constexpr std::size_t lag = 2;
/// Seconds over which strength is measured against the strongest.
constexpr double surroundings = 6;
/// Of a register that is all but silent.
constexpr float leastStrength = 0.12F;

using Bands = std::array<float, bands>;

double edgeOf(std::size_t band) {
    return lowestHertz *
           std::pow(highestHertz / lowestHertz, static_cast<double>(band) / static_cast<double>(bands));
}

/// Windows of a sound around any of its places; silence outside.
class Spectra {
public:
    Spectra(const std::vector<float>& heard, std::size_t length)
        : sound(heard), stretch(length), transform(length) {}

    /// Magnitudes, centred on a sample.
    const std::vector<float>& at(std::int64_t centre) {
        stretch.cut(sound, centre, transform.time());
        transform.forward();
        const auto lines = transform.spectrum();
        magnitudes.resize(lines.size());
        for (std::size_t i = 0; i < lines.size(); ++i)
            magnitudes[i] = std::abs(lines[i]);
        return magnitudes;
    }

private:
    const std::vector<float>& sound;
    SoundAround stretch;
    RealTransform transform;
    std::vector<float> magnitudes;
};

Bands bandsOf(const std::vector<float>& magnitudes) {
    Bands sums{};
    const double perLine = static_cast<double>(analysisRate.hertz) / static_cast<double>(window);
    for (std::size_t band = 0; band < bands; ++band) {
        const auto from = static_cast<std::size_t>(edgeOf(band) / perLine);
        const auto to = std::max(from + 1, static_cast<std::size_t>(edgeOf(band + 1) / perLine));
        for (std::size_t line = from; line < std::min(to, magnitudes.size()); ++line)
            sums[band] = std::max(sums[band], magnitudes[line]);
        sums[band] = std::log1p(sums[band]);
    }
    return sums;
}

/// What a band has more than the loudest of its neighbours had.
float risen(const Bands& now, const Bands& before, std::size_t band) {
    float loudest = before[band];
    if (band > 0) loudest = std::max(loudest, before[band - 1]);
    if (band + 1 < bands) loudest = std::max(loudest, before[band + 1]);
    return std::max(0.0F, now[band] - loudest);
}

/// Each value by the strongest within the seconds around it.
void measureAgainstStrongest(std::vector<float>& values) {
    const auto reach = static_cast<std::size_t>(surroundings / 2 / BeatActivation::step.value);
    const std::vector<float> raw = values;
    constexpr std::size_t every = 50;
    std::vector<float> strongest;
    for (std::size_t at = 0; at < raw.size(); at += every) {
        const std::size_t from = at > reach ? at - reach : 0;
        const std::size_t to = std::min(raw.size(), at + reach);
        std::vector<float> near(raw.begin() + static_cast<std::ptrdiff_t>(from),
                                raw.begin() + static_cast<std::ptrdiff_t>(to));
        // One stroke in fifty frames is one every half second: their usual strength.
        const auto top = near.begin() + static_cast<std::ptrdiff_t>(near.size() * 49 / 50);
        std::nth_element(near.begin(), top, near.end());
        strongest.push_back(std::max(*top, leastStrength));
    }
    for (std::size_t i = 0; i < values.size(); ++i)
        values[i] = std::min(1.0F, raw[i] / strongest[i / every]);
}

BeatActivation::Chroma chromaOf(const std::vector<float>& magnitudes) {
    BeatActivation::Chroma chroma{};
    const double perLine = static_cast<double>(analysisRate.hertz) / static_cast<double>(tonalWindow);
    const auto last = std::min(magnitudes.size(), static_cast<std::size_t>(700 / perLine));
    for (auto line = static_cast<std::size_t>(110 / perLine); line < last; ++line) {
        const double midi = 69 + 12 * std::log2(static_cast<double>(line) * perLine / 440);
        chroma[static_cast<std::size_t>(std::lround(midi)) % 12] += magnitudes[line];
    }
    const float length = std::sqrt(std::inner_product(chroma.begin(), chroma.end(), chroma.begin(), 0.0F));
    for (float& value : chroma)
        value = length > 1e-3F ? value / length : 0.0F;
    return chroma;
}

} // namespace

Result<BeatActivation> BeatActivation::listen(const AnalysisSound& sound, const Range<Seconds>& range,
                                              std::stop_token stop) {
    BeatActivation heard;
    heard.begin = range.begin;
    std::vector<float> mid = sound.mid();
    Spectra strokes(mid, window);
    Spectra tones(mid, tonalWindow);
    const auto frames = static_cast<std::size_t>(std::max(0.0, range.length().value / step.value));
    const auto first = std::llround(range.begin.value * analysisRate.hertz) - sound.firstSample;
    std::vector<Bands> spectra;
    for (std::size_t frame = 0; frame < frames; ++frame) {
        if (frame % 256 == 0 && stop.stop_requested()) return Error{ErrorKind::Cancelled, "Called off.", ""};
        const auto centre = first + static_cast<std::int64_t>(frame * hop);
        spectra.push_back(bandsOf(strokes.at(centre)));
        heard.chroma.push_back(frame % tonalEvery == 0 ? chromaOf(tones.at(centre)) : heard.chroma.back());
    }
    heard.low.resize(frames);
    heard.middle.resize(frames);
    heard.high.resize(frames);
    for (std::size_t frame = lag; frame < frames; ++frame)
        for (std::size_t band = 0; band < bands; ++band) {
            const float more = risen(spectra[frame], spectra[frame - lag], band);
            const double hertz = edgeOf(band);
            auto& group = hertz < lowUntilHertz   ? heard.low
                          : hertz < highFromHertz ? heard.middle
                                                  : heard.high;
            group[frame] += more;
        }
    heard.all.resize(frames);
    for (std::vector<float>* group : {&heard.low, &heard.middle, &heard.high})
        measureAgainstStrongest(*group);
    for (std::size_t frame = 0; frame < frames; ++frame)
        heard.all[frame] = 0.4F * heard.low[frame] + 0.25F * heard.middle[frame] + 0.35F * heard.high[frame];
    return heard;
}

} // namespace earwright
