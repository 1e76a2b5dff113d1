#include "core/engine/VoiceBank.h"

#include <algorithm>

namespace earwright {

namespace {

/// A slur bridges a gap this long between the written notes.
constexpr double slurGapSeconds = 0.04;
/// Loudness of a slurred note with nothing to be slurred from.
constexpr double softPluck = 0.7;

} // namespace

void VoiceBank::setRate(SampleRate newRate) {
    rate = newRate;
    for (PluckedString& string : strings)
        string.setRate(newRate);
    last = nullptr;
}

void VoiceBank::silence() {
    for (PluckedString& string : strings)
        string.silence();
    last = nullptr;
}

PluckedString& VoiceBank::freeString() {
    return *std::min_element(
        strings.begin(), strings.end(),
        [](const PluckedString& a, const PluckedString& b) { return a.loudnessNow() < b.loudnessNow(); });
}

void VoiceBank::play(const StringGesture& gesture, bool slurred) {
    if (slurred) {
        const bool stillRings =
            last && last->isSounding() &&
            static_cast<double>(last->framesSinceRelease()) <= slurGapSeconds * rate.hertz;
        if (stillRings) {
            last->slurTo(gesture);
            return;
        }
    }
    PluckedString& string = freeString();
    StringGesture played = gesture;
    if (slurred) played.loudness *= softPluck;
    string.pluck(played);
    last = &string;
}

void VoiceBank::releaseAll() {
    for (PluckedString& string : strings)
        string.release();
    last = nullptr;
}

bool VoiceBank::isSounding() const {
    return std::any_of(strings.begin(), strings.end(),
                       [](const PluckedString& string) { return string.isSounding(); });
}

void VoiceBank::render(std::span<float> out) {
    for (PluckedString& string : strings)
        string.render(out);
}

} // namespace earwright
