// Sustained tones keep their pitch, partial by partial, at every speed and transposition.
#include "core/engine/RecordPart.h"
#include "core/engine/Stretcher.h"
#include "tests/core/engine/HeldRecording.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <ostream>
#include <span>
#include <string>
#include <vector>

namespace earwright {
namespace {

using tests::cents;
using tests::hertzNear;

constexpr int rate = 44100;
/// What is measured begins so long after the start and lasts so long, in seconds of output. A second is long
/// enough to tell 0.1 cents at 82 Hz and to average what beats more often than once a second; what beats
/// more slowly shows in one of the two halves.
constexpr double settled = 0.3;
constexpr double measured = 1.0;
/// Weaker partials, against the strongest, do not carry the pitch.
constexpr double audible = -30;
constexpr int highestPartial = 11;

enum class Tone { Pure, ManyPartials, Sawtooth, Pluck };

/// Level of a partial at its start and how fast it dies away, in nepers a second.
struct Partial {
    double level;
    double decay;
    double phase;
};

Partial partialOf(Tone tone, int number) {
    switch (tone) {
    case Tone::Pure:
        return {number == 1 ? 0.5 : 0, 0, 0};
    // Phases of h², which keep them from adding up to a click; nothing at all above the eleventh.
    case Tone::ManyPartials:
        return {number <= 11 ? 0.1 / number : 0, 0, double(number * number)};
    case Tone::Sawtooth:
        return {0.3 / number, 0, 0};
    // Plucked near a fifth of the string, where every fifth partial is missing.
    case Tone::Pluck:
        return {0.3 / number * std::abs(std::sin(M_PI * number / 5)), 0.3 + 0.1 * number, 0.7 * number};
    }
    return {};
}

std::vector<float> soundOf(Tone tone, double hertz, double seconds) {
    std::vector<double> sum(static_cast<std::size_t>(seconds * rate));
    for (int number = 1; number <= 40 && hertz * number < 16000; ++number) {
        const Partial partial = partialOf(tone, number);
        if (partial.level == 0) continue;
        for (std::size_t i = 0; i < sum.size(); ++i) {
            const double t = static_cast<double>(i) / rate;
            sum[i] += partial.level * std::exp(-partial.decay * t) *
                      std::sin(2 * M_PI * hertz * number * t + partial.phase);
        }
    }
    return {sum.begin(), sum.end()};
}

struct Played {
    double speed;
    double semitones;
};

std::ostream& operator<<(std::ostream& out, const Played& played) {
    return out << 100 * played.speed << " %, " << played.semitones << " semitones";
}

std::vector<float> heard(const std::vector<float>& sound, const Played& played) {
    RecordStart start;
    start.recording = tests::held(sound, rate);
    start.speed = played.speed;
    start.semitones = played.semitones;
    start.outputRate = SampleRate{rate};
    RecordPart part;
    part.start(start);
    std::vector<float> out(static_cast<std::size_t>((settled + measured) * rate));
    part.produce(out);
    out.erase(out.begin(), out.begin() + std::lround(settled * rate));
    return out;
}

/// The partial's largest error in the whole and in its two halves, in cents.
double worstOff(std::span<const float> sound, double asked) {
    const std::size_t half = sound.size() / 2;
    double worst = 0;
    for (const auto part : {sound, sound.first(half), sound.subspan(half)})
        worst = std::max(worst, std::abs(cents(hertzNear(part, asked, rate), asked)));
    return worst;
}

void expectInTune(Tone tone, double hertz, const Played& played) {
    const auto sound = soundOf(tone, hertz, (settled + measured + 0.3) * played.speed + 0.2);
    const auto out = heard(sound, played);
    const double late = (settled + measured) * played.speed;
    double strongest = 0;
    const auto lateLevel = [&](int number) {
        const Partial partial = partialOf(tone, number);
        return partial.level * std::exp(-partial.decay * late);
    };
    for (int number = 1; number <= highestPartial; ++number)
        strongest = std::max(strongest, lateLevel(number));
    for (int number = 1; number <= highestPartial; ++number) {
        const double asked = hertz * number * std::exp2(played.semitones / 12);
        if (asked > 8000 || 20 * std::log10(lateLevel(number) / strongest) < audible) continue;
        EXPECT_LE(worstOff(out, asked), 3.0)
            << "partial " << number << " of " << hertz << " Hz at " << played;
    }
}

constexpr double lowE = 82.41;
constexpr double lowA = 110;
constexpr double highE = 1318.5;

/// The estimator alone, on sound that nothing was done to.
TEST(Pitch, IsMeasuredWithinATenthOfACent) {
    for (const Tone tone : {Tone::Pure, Tone::ManyPartials, Tone::Sawtooth, Tone::Pluck})
        for (const double hertz : {lowE, lowA, highE}) {
            const auto sound = soundOf(tone, hertz, measured);
            EXPECT_LE(worstOff(sound, hertz), 0.1) << hertz;
        }
}

class PitchWhen : public testing::TestWithParam<Played> {};

TEST_P(PitchWhen, EachOfManyPartialsIsWithinThreeCents) {
    for (const double hertz : {lowE, lowA, 146.83, 220.0, 440.0, highE})
        expectInTune(Tone::ManyPartials, hertz, GetParam());
}

TEST_P(PitchWhen, PureTonesSawtoothsAndPlucksAreWithinThreeCents) {
    expectInTune(Tone::Pure, lowE, GetParam());
    expectInTune(Tone::Pure, highE, GetParam());
    expectInTune(Tone::Sawtooth, lowA, GetParam());
    expectInTune(Tone::Pluck, lowA, GetParam());
    expectInTune(Tone::Pluck, 329.63, GetParam());
}

INSTANTIATE_TEST_SUITE_P(Stretch, PitchWhen,
                         testing::Values(Played{0.1, 0}, Played{0.25, 0}, Played{0.5, 0}, Played{0.6, 0},
                                         Played{0.75, 0}, Played{0.9, 0}, Played{1.25, 0}, Played{1.5, 0},
                                         Played{2, 0}, Played{1, 5}, Played{1, -5}, Played{1, 12},
                                         Played{1, -12}, Played{1, 0.37}, Played{0.5, 7.5}, Played{0.75, -12},
                                         Played{1.5, -0.63}, Played{2, 12}),
                         [](const testing::TestParamInfo<Played>& at) {
                             return "Speed" + std::to_string(std::lround(100 * at.param.speed)) +
                                    (at.param.semitones < 0 ? "Lower" : "Higher") +
                                    std::to_string(std::lround(100 * std::abs(at.param.semitones))) + "Cents";
                         });

/// What the stretcher adds for its own sake is not to be heard where the recording is silent, nor is it to
/// set the two sides of a mono recording apart.
TEST(Pitch, IsHeldByNothingThatIsHeard) {
    Stretcher stretcher(SampleRate{rate}, 2);
    stretcher.start(0.75, 0);
    const auto tone = soundOf(Tone::ManyPartials, lowA, 2);
    std::vector<float> block(2 * static_cast<std::size_t>(stretcher.chunk()));
    std::vector<float> ready(65536);
    double apart = 0;
    double silent = 0;
    for (const bool isSounding : {false, true}) {
        stretcher.start(0.75, 0);
        for (std::size_t at = 0; at + block.size() / 2 < tone.size(); at += block.size() / 2) {
            for (std::size_t i = 0; i < block.size(); ++i)
                block[i] = isSounding ? tone[at + i / 2] : 0.0f;
            stretcher.process(block);
            const std::size_t frames = stretcher.retrieve(ready);
            for (std::size_t i = 0; i < frames; ++i) {
                const auto left = static_cast<double>(ready[2 * i]);
                const auto right = static_cast<double>(ready[2 * i + 1]);
                apart = std::max(apart, std::abs(left - right));
                if (!isSounding) silent = std::max(silent, std::abs(left));
            }
        }
    }
    EXPECT_EQ(silent, 0);
    EXPECT_LE(apart, 1e-6);
}

} // namespace
} // namespace earwright
