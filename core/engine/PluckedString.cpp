#include "core/engine/PluckedString.h"

#include "core/music/Pitch.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace earwright {

namespace {

/// Longest period: MIDI 12 (16 Hz) at 192 kHz.
constexpr std::size_t lineFrames = 16384;
constexpr std::size_t blockFrames = 32;
/// Pick position as a share of the string.
constexpr double pickPosition = 0.19;
constexpr double noiseShare = 0.25;
/// A damped string is 60 dB down after this.
constexpr double releaseSeconds = 0.07;
/// A held string loses the most in its first moments and then rings on: within these bounds one passes into
/// the other.
constexpr double ringsFromSeconds = 0.2;
constexpr double ringsBySeconds = 0.5;
/// How much longer the later decay takes than the first.
constexpr float ringsLonger = 3;
/// Time constant by which a finger reaches the next pitch.
constexpr double fingerSeconds = 0.003;
/// Peak over mean of a pluck.
constexpr double highestCrest = 4.5;
constexpr float silentPeak = 3e-5f;
/// A touch comes in over this time, so that it doesn't click, and lasts so many times its time constant.
constexpr double touchRampSeconds = 0.002;
constexpr double touchLasts = 4;

/// Seconds in which a held string would fall by 60 dB at the rate of its first moments: about 4.5 on the
/// lowest string of a guitar, one high up. As it rings on longer, G4 is 60 dB down after about four (a
/// guitar's takes three to five; value from memory).
double decaySeconds(double hertz) {
    return std::clamp(3.9 * std::sqrt(110.0 / hertz), 0.6, 5.0);
}

float gainPerPeriod(double seconds, double hertz) {
    return static_cast<float>(std::pow(10.0, -3.0 / (seconds * hertz)));
}

/// What a finger does that sets a string going without a pick.
struct Touch {
    /// Of the level of a picked note.
    double share;
    /// Taken from the loudness that its brightness is chosen by.
    double darker;
    /// Time constant by which the string takes it up.
    double seconds;
};

/// A hammer-on and a pull-off speak sooner and brighter than a slur does, which has no attack of its own but
/// keeps the level of a line, as on a horn (common practice).
constexpr Touch hammer{0.80, 0.08, 0.003};
constexpr Touch slur{0.72, 0.14, 0.008};

/// One-pole low pass over one period as if it had always gone on.
void lowPassCyclic(std::span<float> period, double cutoffPerRate) {
    const auto keep = static_cast<float>(std::exp(-2.0 * M_PI * std::min(cutoffPerRate, 0.45)));
    float state = 0;
    for (int turn = 0; turn < 2; ++turn)
        for (float& sample : period) {
            state = (1.0f - keep) * sample + keep * state;
            if (turn == 1) sample = state;
        }
}

} // namespace

PluckedString::PluckedString()
    : line(lineFrames, 0.0f),
      mask(lineFrames - 1),
      excitation(lineFrames, 0.0f),
      comeBack(lineFrames, 0.0f) {}

void PluckedString::setRate(SampleRate newRate) {
    rate = newRate;
    silence();
}

void PluckedString::silence() {
    sounding = false;
    released = false;
    releasedFor = 0;
    touchLeft = 0;
    peak = 0;
}

void PluckedString::pluck(const StringGesture& next) {
    std::fill(line.begin(), line.end(), 0.0f);
    before1 = before2 = 0;
    begin(next);
    semitones = gesture.pitchAt(0);
    delay = delayFor(semitones);
    shape(hertzOf(semitones), gesture.loudness, 1);
    excited = 0;
    touchLeft = 0;
    sounding = true;
    peak = 1;
}

void PluckedString::slurTo(const StringGesture& next) {
    begin(next);
    touch(gesture.pitchAt(0), gesture.stroke == Stroke::Hammered);
}

void PluckedString::begin(const StringGesture& next) {
    gesture = next;
    age = 0;
    touched = 0;
    sinceTouch = 0;
    released = false;
    releasedFor = 0;
    setLoop(hertzOf(next.pitch));
}

void PluckedString::release() {
    released = true;
}

void PluckedString::touch(double midi, bool hammered) {
    const Touch& how = hammered ? hammer : slur;
    const double hertz = hertzOf(midi);
    shape(hertz, gesture.loudness - how.darker, how.share);
    excited = excitationLength;
    touchPhase = 0;
    touchRise = 0;
    // Each period takes this share from the touch and keeps the rest of what was, so that the string comes to
    // the touch's level whatever it sounded before, and without a jump.
    touchShare = static_cast<float>(1.0 - std::exp(-1.0 / (how.seconds * hertz)));
    touchLeft = std::llround(std::max(touchLasts * how.seconds, 2.0 / hertz) * rate.hertz);
    sinceTouch = 0;
}

void PluckedString::setLoop(double hertz) {
    heldGain = gainPerPeriod(decaySeconds(hertz), hertz);
    ringingGain = gainPerPeriod(ringsLonger * decaySeconds(hertz), hertz);
    releasedGain = gainPerPeriod(releaseSeconds, hertz);
    // The loop filter side·z + (1 − 2·side) + side/z has no phase; side is chosen so that partials around
    // 3 kHz are 60 dB down after half a second, whatever the pitch.
    const double loss = 1.0 - gainPerPeriod(0.5, hertz);
    const double curve = 2.0 * (1.0 - std::cos(2.0 * M_PI * 3000.0 / rate.hertz));
    side = static_cast<float>(std::clamp(loss / curve, 0.0, 0.25));
}

PluckedString::Loop PluckedString::loopNow() const {
    if (released) return {releasedGain, side};
    const double seconds = static_cast<double>(sinceTouch) / rate.hertz;
    const auto rings = static_cast<float>(
        std::clamp((seconds - ringsFromSeconds) / (ringsBySeconds - ringsFromSeconds), 0.0, 1.0));
    return {std::lerp(heldGain, ringingGain, rings), std::lerp(side, side / ringsLonger, rings)};
}

double PluckedString::delayFor(double midi) const {
    // The loop filter takes one sample of the period.
    const double period = static_cast<double>(rate.hertz) / hertzOf(midi);
    return std::clamp(period - 1.0, 3.0, static_cast<double>(lineFrames - 8));
}

void PluckedString::shape(double hertz, double brightness, double share) {
    const double exact = static_cast<double>(rate.hertz) / hertz;
    const auto count = std::clamp<std::size_t>(static_cast<std::size_t>(std::lround(exact)), 4, lineFrames);
    const auto picked = static_cast<std::size_t>(pickPosition * static_cast<double>(count));
    const std::span<float> period = std::span(excitation).first(count);
    for (float& sample : period) {
        random = random * 1664525u + 1013904223u;
        sample = static_cast<float>(noiseShare * (static_cast<double>(random >> 8) / 8388608.0 - 1.0));
    }
    // The pick's wave leaves both ways and comes back inverted from the near end (Jaffe and Smith's comb).
    period[0] += static_cast<float>(std::sqrt(static_cast<double>(count)));
    std::rotate_copy(period.begin(), period.end() - static_cast<std::ptrdiff_t>(picked), period.end(),
                     comeBack.begin());
    for (std::size_t i = 0; i < count; ++i)
        period[i] -= comeBack[i];

    lowPassCyclic(period, (600.0 + 2.0 * hertz) / rate.hertz);
    lowPassCyclic(period, 400.0 * std::exp2(5.2 * brightness) / rate.hertz);
    float squares = 0;
    float highest = 0;
    for (const float sample : period) {
        squares += sample * sample;
        highest = std::max(highest, std::abs(sample));
    }
    // Low strings start as a sharp pulse: there the peak, not the mean, sets the level.
    const double mean = std::sqrt(static_cast<double>(squares) / static_cast<double>(count) + 1e-12);
    const double level = share * 0.24 * std::pow(std::clamp(gesture.loudness, 0.0, 1.0), 1.7);
    const auto scale =
        static_cast<float>(level / std::max(mean, static_cast<double>(highest) / highestCrest));
    for (float& sample : period)
        sample *= scale;
    excitationLength = count;
}

float PluckedString::interpolated(double at) const {
    const auto whole = static_cast<std::size_t>(at);
    const auto f = static_cast<float>(at - static_cast<double>(whole));
    const float x0 = line[(write - whole + 1) & mask];
    const float x1 = line[(write - whole) & mask];
    const float x2 = line[(write - whole - 1) & mask];
    const float x3 = line[(write - whole - 2) & mask];
    const float h0 = -f * (f - 1) * (f - 2) / 6;
    const float h1 = (f + 1) * (f - 1) * (f - 2) / 2;
    const float h2 = -(f + 1) * f * (f - 2) / 2;
    const float h3 = (f + 1) * f * (f - 1) / 6;
    return h0 * x0 + h1 * x1 + h2 * x2 + h3 * x3;
}

void PluckedString::render(std::span<float> out) {
    while (!out.empty() && sounding) {
        const std::size_t count = std::min(out.size(), blockFrames);
        renderBlock(out.first(count));
        out = out.subspan(count);
    }
}

void PluckedString::renderBlock(std::span<float> out) {
    const auto frames = static_cast<std::int64_t>(out.size());
    const double seconds = static_cast<double>(age + frames) / rate.hertz;
    const double within = std::min(seconds, gesture.seconds);
    const double aim = gesture.pitchAt(within);
    if (const std::size_t now = gesture.touchAt(within); now != touched && !released) {
        touched = now;
        touch(aim, true);
    }
    const double reach = 1.0 - std::exp(-static_cast<double>(frames) / (fingerSeconds * rate.hertz));
    semitones = std::abs(aim - semitones) < 1e-4 ? aim : semitones + reach * (aim - semitones);
    const double nextDelay = delayFor(semitones);
    const double step = (nextDelay - delay) / static_cast<double>(frames);
    if (touchLeft > 0)
        renderTouched(out, step);
    else
        renderRinging(out, step);
    delay = nextDelay;
    age += frames;
    sinceTouch += frames;
    if (released) releasedFor += frames;
    if (!released && static_cast<double>(age) >= gesture.seconds * rate.hertz) release();
    if (peak < silentPeak && touchLeft <= 0) silence();
}

float PluckedString::loopedOnce(const Loop& loop) {
    const float now = interpolated(delay);
    const float looped = loop.gain * (loop.side * (now + before2) + (1.0f - 2.0f * loop.side) * before1);
    before2 = before1;
    before1 = now;
    return looped;
}

void PluckedString::put(float value, float& sample) {
    line[write] = value;
    write = (write + 1) & mask;
    sample += value;
    peak = std::max(peak * 0.9997f, std::abs(value));
}

void PluckedString::renderRinging(std::span<float> out, double step) {
    const Loop loop = loopNow();
    for (float& sample : out) {
        delay += step;
        const float input = excited < excitationLength ? excitation[excited++] : 0.0f;
        put(loopedOnce(loop) + input, sample);
    }
}

void PluckedString::renderTouched(std::span<float> out, double step) {
    const Loop loop = loopNow();
    const auto length = static_cast<double>(excitationLength);
    const auto rise = static_cast<float>(1.0 / (touchRampSeconds * rate.hertz));
    // In tune with the string while it moves: the touch goes round once each period.
    const double forward = length / (delay + step * static_cast<double>(out.size()) / 2 + 1.0);
    for (float& sample : out) {
        delay += step;
        const auto at = static_cast<std::size_t>(touchPhase);
        const auto part = static_cast<float>(touchPhase - static_cast<double>(at));
        const float after = excitation[at + 1 < excitationLength ? at + 1 : 0];
        const float input = excitation[at] + part * (after - excitation[at]);
        // What is let go of fades out as it came in.
        touchRise = std::clamp(touchRise + (released ? -rise : rise), 0.0f, 1.0f);
        const float share = touchShare * touchRise;
        put((1.0f - share) * loopedOnce(loop) + share * input, sample);
        touchPhase += forward;
        if (touchPhase >= length) touchPhase -= length;
    }
    touchLeft -= static_cast<std::int64_t>(out.size());
}

} // namespace earwright
