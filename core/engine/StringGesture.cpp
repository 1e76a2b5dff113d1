#include "core/engine/StringGesture.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

// Lengths in seconds at full speed, as guitarists and horn players take them at medium tempo (common
// practice).
constexpr double graceSeconds = 0.06;
constexpr double slideInSeconds = 0.09;
constexpr double slideOutSeconds = 0.12;
constexpr double trillSeconds = 0.07;
/// Ornaments never take more than this share of a note.
constexpr double graceShare = 0.5;
constexpr double slideShare = 0.4;

double smooth(double x) {
    const double in = std::clamp(x, 0.0, 1.0);
    return in * in * (3.0 - 2.0 * in);
}

} // namespace

double StringGesture::mainStart() const {
    return std::min(graceSeconds * stretch * static_cast<double>(graceCount),
                    graceCount > 0 ? graceShare * seconds : 0.0);
}

double StringGesture::pitchAt(double time) const {
    const double start = mainStart();
    if (time < start) {
        const double each = start / static_cast<double>(graceCount);
        const auto index = static_cast<std::size_t>(std::max(time, 0.0) / each);
        return grace[std::min(index, graceCount - 1)];
    }
    const double length = seconds - start;
    const double inMain = time - start;
    double sounding = pitch;
    if (trill != 0 && std::fmod(inMain, 2 * trillSeconds * stretch) >= trillSeconds * stretch)
        sounding += trill;
    if (slideIn != 0) {
        const double glide = std::min(slideInSeconds * stretch, slideShare * length);
        sounding += slideIn * (1.0 - smooth(inMain / glide));
    }
    if (slideOut != 0) {
        const double glide = std::min(slideOutSeconds * stretch, slideShare * length);
        sounding += slideOut * smooth((inMain - length + glide) / glide);
    }
    return sounding;
}

} // namespace earwright
