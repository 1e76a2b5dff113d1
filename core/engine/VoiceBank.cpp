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
    last = {};
}

void VoiceBank::silence() {
    for (PluckedString& string : strings)
        string.silence();
    last = {};
}

PluckedString& VoiceBank::freeString() {
    return *std::min_element(
        strings.begin(), strings.end(),
        [](const PluckedString& a, const PluckedString& b) { return a.loudnessNow() < b.loudnessNow(); });
}

bool VoiceBank::goesOn(const StringGesture& gesture) const {
    if (gesture.stroke != Stroke::Slurred && gesture.stroke != Stroke::Hammered) return false;
    const PluckedString* string = last[gesture.voice % last.size()];
    return string && string->isSounding() &&
           static_cast<double>(string->framesSinceRelease()) <= slurGapSeconds * rate.hertz;
}

void VoiceBank::play(const StringGesture& gesture) {
    PluckedString*& mine = last[gesture.voice % last.size()];
    if (goesOn(gesture)) return mine->slurTo(gesture);
    StringGesture played = gesture;
    if (gesture.stroke != Stroke::Picked) played.loudness *= softPluck;
    PluckedString& string = freeString();
    // Whoever had it before has lost it.
    std::replace(last.begin(), last.end(), &string, static_cast<PluckedString*>(nullptr));
    string.pluck(played);
    mine = &string;
}

void VoiceBank::releaseAll() {
    for (PluckedString& string : strings)
        string.release();
    last = {};
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
