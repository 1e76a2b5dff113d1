#include "core/engine/ClickSound.h"

#include <cmath>

namespace earwright {

namespace {

constexpr double plainPeak = 0.35;
constexpr double accentPeak = 0.7;
constexpr double riseSeconds = 0.0003;
constexpr double decaySeconds = 0.005;
/// The last part fades to nothing, so that nothing is cut off.
constexpr double endSeconds = 0.005;

std::vector<float> stroke(SampleRate rate, double hertz, double peak) {
    const auto count = static_cast<std::size_t>(std::ceil(ClickSound::seconds * rate.hertz));
    std::vector<float> samples(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double at = static_cast<double>(i) / rate.hertz;
        const double rise = std::min(1.0, at / riseSeconds);
        const double end = std::min(1.0, (ClickSound::seconds - at) / endSeconds);
        samples[i] = static_cast<float>(peak * rise * end * std::exp(-at / decaySeconds) *
                                        std::sin(2 * M_PI * hertz * at));
    }
    return samples;
}

} // namespace

void ClickSound::setRate(SampleRate wanted) {
    if (wanted == rate) return;
    rate = wanted;
    plain = stroke(rate, hertz, plainPeak);
    accent = stroke(rate, accentHertz, accentPeak);
}

} // namespace earwright
