#include "core/engine/TakeSound.h"

#include "core/engine/CrossFade.h"
#include "core/engine/LoopedSource.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Outside its part a take is faded out over this.
constexpr double edgeSeconds = 0.01;
constexpr std::int64_t farAway = std::int64_t{1} << 52;

} // namespace

TakeSound::TakeSound(const TakePlayback& played, const TimeTags& lane, SampleRate recordingRate)
    : take(played), tags(lane) {
    const double rate = take.sound->rate().hertz;
    perFrame = take.speed * recordingRate.hertz / rate;
    if (!tags.isLooped()) return;
    const double length = (tags.passEnd(1) - tags.passEnd(0)) / perFrame;
    fade = std::llround(std::min(LoopedSource::crossfadeSeconds * rate, length / 4));
}

TakeSound::Stretch TakeSound::stretchAt(std::int64_t frame) const {
    if (!tags.isLooped()) return pass(0);
    const double unrolled = static_cast<double>(frame) * perFrame;
    const double length = tags.passEnd(1) - tags.passEnd(0);
    const double ended = std::floor((unrolled - tags.passEnd(0)) / length) + 1;
    const auto guess = static_cast<std::int64_t>(std::max(0.0, ended));
    // Rounding may leave the frame just outside.
    for (const std::int64_t passesOn : {guess, guess + 1, std::max<std::int64_t>(guess - 1, 0)}) {
        const Stretch found = pass(passesOn);
        if (frame >= found.begin && frame < found.end) return found;
    }
    return pass(guess);
}

TakeSound::Stretch TakeSound::pass(std::int64_t passesOn) const {
    Stretch found;
    double place = tags.start();
    if (passesOn > 0) {
        const double seam = tags.passEnd(passesOn - 1);
        found.begin = static_cast<std::int64_t>(std::ceil(seam / perFrame));
        place = tags.loopBegin() + static_cast<double>(found.begin) * perFrame - seam;
    }
    found.end =
        tags.isLooped() ? static_cast<std::int64_t>(std::ceil(tags.passEnd(passesOn) / perFrame)) : farAway;
    found.file =
        take.part.begin.value + std::llround((place - static_cast<double>(take.at.value)) / perFrame);
    if (passesOn > 0) return found;
    // What comes before the start is the sound before it, not the end of the loop.
    found.file -= farAway + found.begin;
    found.begin = -farAway;
    return found;
}

Frames TakeSound::read(Frames from, std::span<float> interleaved) {
    const auto wide = static_cast<std::size_t>(channels());
    const Frames asked(static_cast<std::int64_t>(interleaved.size() / wide));
    std::int64_t at = from.value;
    while (!interleaved.empty()) {
        const Stretch now = stretchAt(at);
        const auto wanted = static_cast<std::int64_t>(interleaved.size() / wide);
        const std::int64_t count = std::clamp<std::int64_t>(now.end - at, 1, wanted);
        const auto part = interleaved.first(static_cast<std::size_t>(count) * wide);
        readFile(now.file + (at - now.begin), part);
        if (now.end < farAway) fadeIntoNext(now, at, part);
        at += count;
        interleaved = interleaved.subspan(part.size());
    }
    return asked;
}

void TakeSound::readFile(std::int64_t file, std::span<float> interleaved) const {
    const auto wide = static_cast<std::size_t>(take.sound->channels());
    const auto count = static_cast<std::int64_t>(interleaved.size() / wide);
    const auto edge = static_cast<std::int64_t>(edgeSeconds * take.sound->rate().hertz);
    const bool isOutside = file + count <= take.part.begin.value - edge || file >= take.part.end.value + edge;
    if (isOutside) {
        std::fill(interleaved.begin(), interleaved.end(), 0.0f);
        return;
    }
    take.sound->read(Frames(file), interleaved);
    if (file >= take.part.begin.value && file + count <= take.part.end.value) return;
    for (std::int64_t i = 0; i < count; ++i)
        for (std::size_t channel = 0; channel < wide; ++channel)
            interleaved[static_cast<std::size_t>(i) * wide + channel] *= audibility(file + i);
}

float TakeSound::audibility(std::int64_t file) const {
    const double edge = edgeSeconds * take.sound->rate().hertz;
    const std::int64_t outside = std::max(take.part.begin.value - file, file - take.part.end.value + 1);
    if (outside <= 0) return 1;
    const double share = std::clamp(1 - static_cast<double>(outside) / edge, 0.0, 1.0);
    return static_cast<float>(0.5 - 0.5 * std::cos(M_PI * share));
}

void TakeSound::fadeIntoNext(const Stretch& now, std::int64_t from, std::span<float> interleaved) {
    const auto wide = static_cast<std::size_t>(channels());
    const auto count = static_cast<std::int64_t>(interleaved.size() / wide);
    const std::int64_t first = std::max(from, now.end - fade);
    if (first >= from + count) return;
    const Stretch next = stretchAt(now.end);
    const auto fading = static_cast<std::size_t>(from + count - first);
    comingIn.resize(fading * wide);
    readFile(next.file - (now.end - first), comingIn);
    for (std::size_t i = 0; i < fading; ++i) {
        const auto inFade = static_cast<double>(first + static_cast<std::int64_t>(i) - (now.end - fade));
        const double share = (inFade + 1) / (static_cast<double>(fade) + 1);
        const auto in = static_cast<float>(fadeIn(share));
        for (std::size_t channel = 0; channel < wide; ++channel) {
            float& sample = interleaved[(static_cast<std::size_t>(first - from) + i) * wide + channel];
            sample += in * (comingIn[i * wide + channel] - sample);
        }
    }
}

} // namespace earwright
