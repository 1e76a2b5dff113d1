#include "core/engine/AttackGraft.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace earwright {

namespace {

constexpr float riseOverBefore = 10.0f;
/// Mean square of the differenced source below which nothing counts as an attack, about −70 dB.
constexpr float quiet = 1e-7f;
/// Ahead of an attack, treble and bass may be so much stronger than the source was there.
constexpr float louderThanBefore = 2.0f;
constexpr double trebleHertz = 800.0;
/// A gain that rises faster would follow the single swings of a bass.
constexpr float gainRiseABlock = 0.1f;
/// Over which a gain moves: shorter than the copies it has to hush.
constexpr std::int64_t gainFrames = 8;

/// Middles of the octaves in which the sustained sound is looked for.
constexpr std::array<double, 7> octaves{55, 110, 220, 440, 880, 1760, 3520};
/// Mean square below which nothing is heard to sound on, −80 dB.
constexpr float inaudible = 1e-8f;

/// Lets an octave through (Bristow-Johnson's band-pass of 0 dB, Q 1.41), twice for steeper sides.
class Octave {
public:
    Octave(double hertz, SampleRate rate) {
        const double turn = 2.0 * M_PI * hertz / rate.hertz;
        const double alpha = std::sin(turn) / (2.0 * M_SQRT2);
        ahead = static_cast<float>(alpha / (1.0 + alpha));
        back1 = static_cast<float>(-2.0 * std::cos(turn) / (1.0 + alpha));
        back2 = static_cast<float>((1.0 - alpha) / (1.0 + alpha));
    }
    float next(float sample) {
        for (auto& [kept1, kept2] : kept) {
            const float out = ahead * sample + kept1;
            kept1 = kept2 - back1 * out;
            kept2 = -ahead * sample - back2 * out;
            sample = out;
        }
        return sample;
    }

private:
    float ahead;
    float back1;
    float back2;
    std::array<std::array<float, 2>, 2> kept{};
};

std::int64_t framesOf(double milliseconds, SampleRate rate) {
    return std::llround(milliseconds * rate.hertz / 1000.0);
}

} // namespace

AttackGraft::AttackGraft(SampleRate sampleRate, int channels)
    : rate(sampleRate),
      channelCount(static_cast<std::size_t>(channels)),
      copiesFrom(framesOf(-65.0, rate)),
      settleFrom(framesOf(-20.0, rate)),
      fadeInFrom(framesOf(-3.0, rate)),
      fadeInTo(framesOf(-0.5, rate)),
      fadeOutFrom(framesOf(6.0, rate)),
      fadeOutTo(framesOf(14.0, rate)),
      history(historyFrames * channelCount),
      lowPass(static_cast<float>(1.0 - std::exp(-2.0 * M_PI * trebleHertz / rate.hertz))) {
    assert(channels == 1 || channels == 2);
}

void AttackGraft::start(double speed, double semitones, int lead) {
    speedPlayed = speed;
    pitchScale = std::exp2(semitones / 12.0);
    leadFrames = lead;
    fed = 0;
    given = 0;
    source = {};
    block = {};
    energies = {};
    waitingCount = 0;
    lastHeardAt = fadeInFrom - fadeOutTo;
    output = {};
    gain = {1, 1};
}

void AttackGraft::Energy::add(const Energy& other) {
    high += other.high;
    low += other.low;
}

AttackGraft::Energy AttackGraft::Splitter::take(float sample, float lowPass) {
    const float step = sample - last;
    last = sample;
    low += lowPass * (sample - low);
    return {step * step, low * low};
}

void AttackGraft::feed(std::span<const float> interleaved) {
    for (std::size_t i = 0; i < interleaved.size(); i += channelCount) {
        const std::size_t at = static_cast<std::size_t>(fed) % historyFrames * channelCount;
        for (std::size_t channel = 0; channel < channelCount; ++channel) {
            const float sample = interleaved[i + channel];
            history[at + channel] = sample;
            block.add(source[channel].take(sample, lowPass));
        }
        ++fed;
        if (static_cast<std::size_t>(fed) % blockFrames == 0) endBlock();
    }
}

void AttackGraft::endBlock() {
    std::shift_left(energies.begin(), energies.end(), 1);
    energies.back() = block;
    block = {};
    Energy before = Energy{quiet, quiet}.times(static_cast<float>(blockFrames));
    for (std::size_t i = 0; i < blocksBefore; ++i) {
        before.high = std::max(before.high, energies[i].high);
        before.low = std::max(before.low, energies[i].low);
    }
    if (energies.back().high < riseOverBefore * before.high) return;
    addAttack(firstStrongStep(fed - static_cast<std::int64_t>(blockFrames * blocksOfRise)),
              before.times(1.0f / static_cast<float>(blockFrames)));
}

/// The attack begins where the signal first moves a third as much as it does at its steepest.
std::int64_t AttackGraft::firstStrongStep(std::int64_t from) const {
    const auto stepAt = [&](std::int64_t frame) {
        float largest = 0;
        for (std::size_t channel = 0; channel < channelCount; ++channel)
            largest = std::max(largest, std::abs(historyAt(frame, channel) - historyAt(frame - 1, channel)));
        return largest;
    };
    float steepest = 0;
    for (std::int64_t frame = from; frame < fed; ++frame)
        steepest = std::max(steepest, stepAt(frame));
    std::int64_t first = from;
    while (first + 1 < fed && stepAt(first) < steepest / 3.0f)
        ++first;
    return first;
}

void AttackGraft::addAttack(std::int64_t place, const Energy& before) {
    const std::int64_t heardAt = std::llround(static_cast<double>(place - leadFrames) / speedPlayed);
    // One after the other: an attack within the sound of the one before is heard in that.
    if (heardAt + fadeInFrom < lastHeardAt + fadeOutTo || waitingCount == mostWaiting) return;
    waiting[waitingCount++] = {place, heardAt, before, false, {}};
    lastHeardAt = heardAt;
}

float AttackGraft::weightAt(std::int64_t fromAttack) const {
    const auto share = [](std::int64_t at, std::int64_t from, std::int64_t to) {
        const double through = static_cast<double>(at - from) / static_cast<double>(to - from);
        return static_cast<float>(0.5 - 0.5 * std::cos(M_PI * std::clamp(through, 0.0, 1.0)));
    };
    return share(fromAttack, fadeInFrom, fadeInTo) - share(fromAttack, fadeOutFrom, fadeOutTo);
}

float AttackGraft::historyAt(std::int64_t frame, std::size_t channel) const {
    if (frame < 0 || frame >= fed) return 0.0f;
    return history[static_cast<std::size_t>(frame) % historyFrames * channelCount + channel];
}

float AttackGraft::sourceAt(double place, std::size_t channel) const {
    const double whole = std::floor(place);
    const auto share = static_cast<float>(place - whole);
    const auto sample = [&](std::int64_t offset) {
        return historyAt(static_cast<std::int64_t>(whole) + offset, channel);
    };
    if (share == 0.0f) return sample(0);
    // Cubic Hermite (Catmull-Rom) through the four frames around.
    const float a = sample(-1);
    const float b = sample(0);
    const float c = sample(1);
    const float d = sample(2);
    const float slope = 0.5f * (c - a);
    const float curve = a - 2.5f * b + 2.0f * c - 0.5f * d;
    const float bend = 0.5f * (d - a) + 1.5f * (b - c);
    return ((bend * share + curve) * share + slope) * share + b;
}

/// The middle of the highest octave that sounds through the attack hardly less loud than the attack itself; 0
/// where none does.
double AttackGraft::sustainedUpTo(std::int64_t place) const {
    const std::int64_t from = place - framesOf(70.0, rate);
    const std::int64_t settled = place - framesOf(30.0, rate);
    const std::int64_t until = place - framesOf(1.0, rate);
    const std::int64_t end = std::min(fed, place + framesOf(8.0, rate));
    double highest = 0;
    for (const double middle : octaves)
        for (std::size_t channel = 0; channel < channelCount; ++channel) {
            Octave octave(middle, rate);
            float before = 0;
            float after = 0;
            for (std::int64_t frame = from; frame < end; ++frame) {
                const float sample = octave.next(historyAt(frame, channel));
                if (frame >= settled && frame < until) before += sample * sample;
                if (frame >= place) after += sample * sample;
            }
            before /= static_cast<float>(until - settled);
            after /= static_cast<float>(std::max<std::int64_t>(1, end - place));
            if (before > inaudible && after < riseOverBefore * before) highest = middle;
        }
    return highest;
}

void AttackGraft::judge(Attack& attack) const {
    attack.judged = true;
    const double sustained = sustainedUpTo(attack.place) * pitchScale;
    if (sustained > 0) attack.grafted.fill(HighPass(2.0 * M_SQRT2 * sustained, rate));
}

void AttackGraft::graft(Attack& attack, std::span<float> interleaved) const {
    const auto frames = static_cast<std::int64_t>(interleaved.size() / channelCount);
    const std::int64_t from = std::max<std::int64_t>(0, attack.heardAt + settleFrom - given);
    const std::int64_t to = std::min(frames, attack.heardAt + fadeOutTo - given);
    if (from < to && !attack.judged) judge(attack);
    for (std::int64_t i = from; i < to; ++i) {
        const std::int64_t fromAttack = given + i - attack.heardAt;
        const float weight = weightAt(fromAttack);
        const double place = static_cast<double>(attack.place) + static_cast<double>(fromAttack) * pitchScale;
        for (std::size_t channel = 0; channel < channelCount; ++channel) {
            float& sample = interleaved[static_cast<std::size_t>(i) * channelCount + channel];
            sample += weight * attack.grafted[channel].next(sourceAt(place, channel) - sample);
        }
    }
}

/// What these frames may hold, each, so that no attack to come is heard in them.
AttackGraft::Energy AttackGraft::allowedNow(std::int64_t frames) const {
    constexpr float anything = std::numeric_limits<float>::infinity();
    Energy allowed{anything, anything};
    for (std::size_t i = 0; i < waitingCount; ++i) {
        const std::int64_t fromAttack = given - waiting[i].heardAt;
        if (fromAttack + frames <= copiesFrom || fromAttack >= fadeInTo) continue;
        allowed.high = std::min(allowed.high, louderThanBefore * waiting[i].before.high);
        allowed.low = std::min(allowed.low, louderThanBefore * waiting[i].before.low);
    }
    return allowed;
}

void AttackGraft::hushCopies(std::span<float> interleaved) {
    const auto frames = static_cast<std::int64_t>(interleaved.size() / channelCount);
    const Energy allowed = allowedNow(frames).times(static_cast<float>(frames));
    Energy there;
    std::array<Splitter, 2> ahead = output;
    for (std::size_t i = 0; i < interleaved.size(); ++i)
        there.add(ahead[i % channelCount].take(interleaved[i], lowPass));
    const auto gainFor = [](float before, float is, float may) {
        const float wanted = is <= may ? 1.0f : std::sqrt(may / is);
        return std::min(wanted, before + gainRiseABlock);
    };
    const Energy aim{gainFor(gain.high, there.high, allowed.high), gainFor(gain.low, there.low, allowed.low)};
    const std::int64_t moving = std::min(frames, gainFrames);
    const Energy step =
        Energy{aim.high - gain.high, aim.low - gain.low}.times(1.0f / static_cast<float>(moving));
    for (std::size_t i = 0; i < interleaved.size(); ++i) {
        if (i % channelCount == 0 && static_cast<std::int64_t>(i / channelCount) < moving) gain.add(step);
        Splitter& part = output[i % channelCount];
        part.take(interleaved[i], lowPass);
        interleaved[i] = gain.low * part.low + gain.high * (interleaved[i] - part.low);
    }
    gain = aim;
}

void AttackGraft::apply(std::span<float> interleaved) {
    while (!interleaved.empty()) {
        const auto part = interleaved.first(std::min(interleaved.size(), blockFrames * channelCount));
        hushCopies(part);
        for (std::size_t i = 0; i < waitingCount; ++i)
            graft(waiting[i], part);
        given += static_cast<std::int64_t>(part.size() / channelCount);
        interleaved = interleaved.subspan(part.size());
    }
    forgetPast();
}

void AttackGraft::forgetPast() {
    const auto end = waiting.begin() + static_cast<std::ptrdiff_t>(waitingCount);
    const auto past = std::find_if(waiting.begin(), end,
                                   [&](const Attack& attack) { return attack.heardAt + fadeOutTo > given; });
    waitingCount = static_cast<std::size_t>(std::shift_left(waiting.begin(), end, past - waiting.begin()) -
                                            waiting.begin());
}

} // namespace earwright
