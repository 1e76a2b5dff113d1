#include "core/engine/Mixdown.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr double clickStartSeconds = 0.0005;
constexpr double startStopSeconds = 0.005;
/// 7 dB: the written notes are as loud as the record nearly; LoudnessGuard would take back what is more.
constexpr float mostBalance = 2.24f;

using Gains = GainFade<4>::Gains;

Gains gainsOf(Hearing hearing, bool yoursTurn) {
    constexpr Gains record{1, 0, 0, 0};
    constexpr Gains yours{0, 0, 1, 1};
    switch (hearing) {
    case Hearing::Record:
        return record;
    case Hearing::Yours:
        return yours;
    case Hearing::Together:
        return {1, 0, 1, 1};
    // One ear each: the record's two channels are summed on the left.
    case Hearing::Split:
        return {0, 1, 0, 1};
    case Hearing::Trade:
        return yoursTurn ? yours : record;
    }
    return record;
}

} // namespace

void Mixdown::setRate(SampleRate rate) {
    limiter.setRate(rate);
    guard.setRate(rate);
    picture.setRate(rate);
    bandHeard.setRate(rate);
    moving.setFrames(static_cast<float>(startStopSeconds * rate.hertz));
    clicking.setFrames(static_cast<float>(clickStartSeconds * rate.hertz));
    heard.setFrames(rate.outputFrames(hearingSeconds).value);
    for (Slew* gain : {&yoursLevel, &clickLevel, &countedLevel, &outLevel})
        gain->setFrames(static_cast<float>(gainSeconds * rate.hertz));
    // Whatever comes in is bent at once.
    mixed.setFrames(static_cast<float>(gainSeconds * rate.hertz), 1);
}

void Mixdown::aim(Hearing hearing, bool yoursTurn, float yoursGain, float level) {
    const Gains gains = gainsOf(hearing, yoursTurn);
    heard.aimAt(gains);
    yoursLevel.aimAt(std::min(yoursGain, mostBalance));
    guard.aim(hearing, yoursTurn);
    outLevel.aimAt(level);
}

float Mixdown::mix(std::span<const SoundFrame> frames, std::span<const float> auditioned,
                   std::span<float> out) {
    float peak = 0;
    float before = 0;
    for (std::size_t i = 0; i < frames.size(); ++i) {
        SoundFrame frame = frames[i];
        picture.apply(frame.left, frame.right);
        bandHeard.apply(frame.left, frame.right);
        const float audible = moving.next();
        const float gain = yoursLevel.next();
        frame.yours *= gain;
        guard.hear(frame);
        const float recordGain = audible * guard.recordGain();
        const auto& [asItIs, folded, yoursLeft, yoursRight] = heard.next();
        const float straight = recordGain * asItIs;
        const float summed = recordGain * folded * 0.5f * (frame.left + frame.right);
        const float yours = audible * guard.yoursGain() * frame.yours;
        // Clicks stay in the middle, whatever is heard of the record and the notes.
        const float beats = clickLevel.next() * frame.clicks + countedLevel.next() * frame.counted;
        const float plain = gain * auditioned[i] + clicking.next() * beats;
        const float level = outLevel.next();
        float left = level * (straight * frame.left + summed + yoursLeft * yours + plain);
        float right = level * (straight * frame.right + yoursRight * yours + plain);
        before = std::max({before, std::abs(left), std::abs(right)});
        // The record alone passes untouched, but not before the rest has died away.
        const bool isMixed = plain != 0 || yoursLeft + yoursRight + clickLevel.value() > 0;
        mixed.aimAt(isMixed ? 1.0f : 0.0f);
        limiter.apply(left, right, mixed.next());
        out[2 * i] = left;
        out[2 * i + 1] = right;
        peak = std::max({peak, std::abs(left), std::abs(right)});
    }
    bandHeard.settle();
    guard.settle();
    wasTooLoud = before > 1 || limiter.isActive() || (guard.isActive() && !isSilent());
    return peak;
}

} // namespace earwright
