#include "core/engine/StringGesture.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

// Lengths in seconds at full speed, as guitarists and horn players take them at medium tempo (common
// practice).
constexpr double slideOutSeconds = 0.12;
constexpr double trillSeconds = 0.07;
constexpr double fallSeconds = 0.35;
/// A finger takes about this long to pull a string up or to let it down.
constexpr double bendSeconds = 0.18;
/// Vibrato of guitarists and saxophonists is between 4 and 7 turns a second and about a quarter tone wide
/// (values from memory); it sets in once the note stands.
constexpr double vibratoHertz = 5.5;
constexpr double vibratoSemitones = 0.3;
constexpr double vibratoDelaySeconds = 0.12;
/// Ornaments never take more than this share of a note.
constexpr double graceShare = 0.5;
constexpr double slideShare = 0.4;
constexpr double figureShare = 0.6;

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
    double sounding = pitch + figureAt(inMain, length);
    if (trill != 0 && std::fmod(inMain, 2 * trillSeconds * stretch) >= trillSeconds * stretch)
        sounding += trill;
    return sounding + slidesAt(inMain, length) + bendAt(inMain, length) + vibratoAt(inMain, length);
}

std::size_t StringGesture::touchAt(double time) const {
    const double start = mainStart();
    const double at = std::max(time, 0.0);
    if (at < start)
        return std::min(static_cast<std::size_t>(at * static_cast<double>(graceCount) / start),
                        graceCount - 1);
    std::size_t touches = graceCount;
    if (figureCount > 0)
        touches +=
            std::min(static_cast<std::size_t>((at - start) / eachOfFigure(seconds - start)), figureCount);
    if (trill != 0) touches += static_cast<std::size_t>((at - start) / (trillSeconds * stretch));
    return touches;
}

double StringGesture::eachOfFigure(double length) const {
    return std::min(trillSeconds * stretch, figureShare * length / static_cast<double>(figureCount));
}

double StringGesture::figureAt(double inMain, double length) const {
    if (figureCount == 0) return 0;
    const auto index = static_cast<std::size_t>(std::max(inMain, 0.0) / eachOfFigure(length));
    return index < figureCount ? figure[index] : 0;
}

double StringGesture::slidesAt(double inMain, double length) const {
    double away = 0;
    if (slideIn != 0) {
        const double glide = std::min((scoop ? scoopSeconds : slideInSeconds) * stretch, slideShare * length);
        away += slideIn * (1.0 - smooth(inMain / glide));
    }
    if (slideOut != 0) {
        const double glide =
            std::min((fall ? fallSeconds : slideOutSeconds) * stretch, (fall ? 0.6 : slideShare) * length);
        away += slideOut * smooth((inMain - length + glide) / glide);
    }
    return away;
}

double StringGesture::bendAt(double inMain, double length) const {
    const double glide = std::min(bendSeconds * stretch, slideShare * length);
    // The second pull or letting down ends with the note.
    return bend[0] + (bend[1] - bend[0]) * smooth(inMain / glide) +
           (bend[2] - bend[1]) * smooth((inMain - length + glide) / glide);
}

double StringGesture::vibratoAt(double inMain, double length) const {
    const double delay = std::min(vibratoDelaySeconds * stretch, length / 4);
    if (!vibrato || inMain < delay) return 0;
    const double turns = (inMain - delay) * vibratoHertz / stretch;
    // Around the written pitch, so that the note as a whole stays in tune.
    return vibratoSemitones / 2 * std::sin(2 * M_PI * turns);
}

} // namespace earwright
