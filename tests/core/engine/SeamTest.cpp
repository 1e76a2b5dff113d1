// What is heard where a loop goes round: no click, no dip longer than the fade, nothing from behind the loop.
#include "core/engine/RecordPart.h"
#include "tests/core/engine/ClicksOfPasses.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/RenderedEngine.h"
#include "tests/core/engine/SteadyTone.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <ostream>
#include <span>
#include <vector>

namespace earwright {
namespace {

using namespace tests::steady_tone;

RecordStart loopOf(std::vector<float> samples, const Range<Frames>& loop, double speed) {
    RecordStart start;
    start.recording = tests::held(std::move(samples), rate);
    start.from = loop.begin;
    start.loop = loop;
    start.speed = speed;
    start.outputRate = SampleRate{rate};
    return start;
}

std::vector<float> played(const RecordStart& start, double seconds) {
    RecordPart part;
    part.start(start);
    std::vector<float> out(static_cast<std::size_t>(seconds * rate));
    // Pieces of an odd size, so that passes begin anywhere in them.
    for (std::size_t at = 0; at < out.size(); at += 617)
        part.produce(std::span(out).subspan(at, std::min<std::size_t>(617, out.size() - at)));
    return out;
}

/// So much output without a loop, from 10 ms before its start on, by when the stretch is steady.
std::vector<float> steady(RecordStart start, double seconds) {
    start.loop.reset();
    start.from -= Frames(std::llround(0.21 * start.speed * rate));
    auto out = played(start, seconds + 0.2);
    out.erase(out.begin(), out.begin() + rate / 5);
    return out;
}

struct Tried {
    double hertz;
    double speed;
};

std::ostream& operator<<(std::ostream& out, const Tried& tried) {
    return out << tried.hertz << " Hz at " << 100 * tried.speed << " %";
}

class ToneAtSpeed : public testing::TestWithParam<Tried> {};

// The low E and A of a bass and of a guitar, an A, and tones with 100 and 44.1 frames a period.
TEST_P(ToneAtSpeed, GoesRoundAnyLoopWithoutAClickOrALongDip) {
    const auto [hertz, speed] = GetParam();
    const auto samples = tone({hertz}, 3);
    for (const double part : {0.25, 0.5, 0.7}) {
        const std::int64_t length = std::llround((std::floor(0.5 * hertz) + part) / hertz * rate);
        const auto start = loopOf(samples, {Frames(rate), Frames(rate + length)}, speed);
        const auto out = played(start, 4.4 * static_cast<double>(length) / rate / speed);
        const auto natural = steady(start, 0.5);
        EXPECT_LE(largestStep(out), 1.25f * level * 2 * std::sin(M_PI * hertz / rate)) << part;
        // Some of the stretches waver a little by themselves.
        const double weak = 0.9 * lowestAmplitude(natural, hertz);
        for (int pass = 1; pass <= 4; ++pass) {
            const auto seam = static_cast<std::size_t>(std::ceil(pass * static_cast<double>(length) / speed));
            const auto around = std::span(out).subspan(seam - 4410, 6615);
            EXPECT_LE(weakMilliseconds(around, hertz, weak), 1000 * RecordPart::fadeSeconds)
                << "after pass " << pass << " of " << part;
        }
    }
}

std::vector<Tried> allTones() {
    std::vector<Tried> all;
    for (const double hertz : {41.2, 55.0, 82.4, 110.0, 220.0, 441.0, 1000.0})
        for (const double speed : {0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0})
            all.push_back({hertz, speed});
    return all;
}

INSTANTIATE_TEST_SUITE_P(Seam, ToneAtSpeed, testing::ValuesIn(allTones()));

// 50 ms, which last 25 ms at double speed.
TEST(Seam, OfTheShortestLoopStepsNoFurtherThanTheTone) {
    for (const double hertz : {41.2, 55.0, 82.4, 220.0, 441.0})
        for (const double speed : {0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0}) {
            const auto start = loopOf(tone({hertz}, 3), {Frames(rate), Frames(rate + 2205)}, speed);
            EXPECT_LE(largestStep(played(start, 0.5 / speed)), 1.25f * stepOf(hertz))
                << hertz << " Hz at speed " << speed;
        }
}

TEST(Seam, IsFreeOfClicksInAChordAndInAStringThatDiesAway) {
    auto string = tone({146.8, 293.6, 440.4, 587.2}, 3);
    for (std::size_t i = 0; i < string.size(); ++i)
        string[i] *= static_cast<float>(std::exp(-static_cast<double>(i % 22050) / 9000));
    for (const auto& samples : {tone({196, 247, 293.7}, 3), string})
        for (const double speed : {0.25, 0.5, 0.75, 1.0, 1.5})
            for (const std::int64_t length : {14700, 20011, 25990}) {
                const Range<Frames> loop{Frames(rate + 3000), Frames(rate + 3000 + length)};
                const auto start = loopOf(samples, loop, speed);
                const auto out = played(start, 3.4 * static_cast<double>(length) / rate / speed);
                const auto natural = steady(start, static_cast<double>(length) / rate / speed);
                EXPECT_LE(largestStep(out), 1.25f * largestStep(natural)) << length << " at " << speed;
            }
}

TEST(Seam, KeepsTheAttackOfANoteAtTheLoopsStart) {
    auto samples = tone({330, 660, 990}, 3);
    for (std::size_t i = 0; i < samples.size(); ++i) // plucked every half second, at A and at B
        samples[i] *= static_cast<float>(std::exp(-static_cast<double>(i % 22050) / 5000));
    for (const double speed : {0.3, 0.5, 0.75, 1.5}) {
        const auto start = loopOf(samples, {Frames(rate), Frames(rate + 22050)}, speed);
        const auto out = played(start, 1.8 / speed);
        RecordStart straight = start;
        straight.from = Frames(rate / 2);
        straight.loop.reset();
        const auto natural = played(straight, 0.9 / speed);
        const auto seam = static_cast<std::size_t>(std::ceil(22050 / speed));
        for (const std::size_t pass : {seam, static_cast<std::size_t>(std::ceil(44100 / speed))}) {
            const auto loudest = [](std::span<const float> sound) {
                return *std::ranges::max_element(sound, {}, [](float sample) { return std::abs(sample); });
            };
            const float attack = std::abs(loudest(std::span(out).subspan(pass, 441)));
            const float usual = std::abs(loudest(std::span(natural).subspan(seam, 441)));
            EXPECT_NEAR(attack / usual, 1, 0.1) << "at speed " << speed;
        }
    }
}

/// A quiet tone and a string plucked once, at a place.
std::vector<float> pluckedOnce(std::int64_t place) {
    auto samples = tone({441}, 3);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i] *= 0.04f;
        const std::int64_t since = static_cast<std::int64_t>(i) - place;
        if (since < 0) continue;
        const double t = static_cast<double>(since) / rate;
        for (const double hertz : {330.0, 990.0, 2310.0})
            samples[i] += static_cast<float>(0.25 * std::cos(2 * M_PI * hertz * t) * std::exp(-t * 6));
    }
    return samples;
}

float loudestOf(std::span<const float> sound) {
    float most = 0;
    for (const float sample : sound)
        most = std::max(most, std::abs(sample));
    return most;
}

TEST(Seam, LetsNothingBeHeardOfAStringPluckedJustBehindTheLoop) {
    const Range<Frames> loop{Frames(rate), Frames(rate + 22050)};
    for (const double speed : {0.25, 0.5, 0.75, 1.0})
        for (const std::int64_t behind : {0, 50, 300}) {
            const auto start = loopOf(pluckedOnce(loop.end.value + behind), loop, speed);
            const auto out = played(start, 2.2 * 22050 / rate / speed);
            // Twice the quiet tone, 20 dB below the string.
            EXPECT_LE(loudestOf(std::span(out).subspan(rate / 100)), 2 * 0.04f * level)
                << behind << " frames behind B at speed " << speed;
        }
}

TEST(Seam, LetsAStringPluckedJustBeforeItsEndBeHeardWhole) {
    const Range<Frames> loop{Frames(rate), Frames(rate + 22050)};
    for (const double speed : {0.25, 0.5, 0.75, 1.0}) {
        // Its first 5 ms are over when the fade begins, listener's time.
        const auto before = static_cast<std::int64_t>((RecordPart::fadeSeconds + 0.005) * rate * speed) + 1;
        const auto start = loopOf(pluckedOnce(loop.end.value - before), loop, speed);
        const auto out = played(start, 2.2 * 22050 / rate / speed);
        RecordStart straight = start;
        straight.loop.reset();
        const auto usual = played(straight, 0.51 / speed);
        for (const int pass : {1, 2}) {
            const auto seam = static_cast<std::size_t>(std::ceil(pass * 22050 / speed));
            const auto once = static_cast<std::size_t>(std::ceil(22050 / speed));
            const std::size_t early = 3 * rate / 100;
            EXPECT_GE(loudestOf(std::span(out).subspan(seam - early, early)),
                      0.9f * loudestOf(std::span(usual).subspan(once - early, early)))
                << "pass " << pass << " at speed " << speed;
        }
    }
}

// A click 17 ms into the shortest loop: 10,000 passes, each at the frame that the arithmetic gives.
TEST(Seam, BringsAClickInTheSameFrameAfterTenThousandPasses) {
    const Range<Frames> loop{Frames(rate), Frames(rate + 2205)};
    const std::int64_t click = 750;
    for (const double speed : {0.5, 0.73, 1.0, 2.0}) {
        const auto start = loopOf(tests::clicksAt({static_cast<long>(rate + click)}, 2 * rate), loop, speed);
        RecordPart part;
        part.start(start);
        // A frame of output for the pass, one of the recording for the attack.
        EXPECT_LE(tests::worstOverTenThousandPasses(part, loop.length(), Frames(click), speed),
                  std::lround(1 + 1 / speed))
            << "frames, at speed " << speed;
    }
}

TEST(Seam, StretchesPassesTooLongToKeepEachForItself) {
    // 12.5 s a pass.
    const Range<Frames> loop{Frames(rate), Frames(rate + rate * 5 / 4)};
    ASSERT_GT(loop.length().value * 10, RecordPart::mostKept);
    const long click = rate + 30000;
    const auto start = loopOf(tests::clicksAt({click}, 3 * rate), loop, 0.1);
    const auto out = played(start, 34);
    for (const long told : {300000L, 300000L + 551250L, 300000L + 2 * 551250L}) {
        const long heard = tests::loudestIn(out, told - 4000, told + 4000);
        EXPECT_NEAR(static_cast<double>(heard), static_cast<double>(told), 15) << "1.5 frames of recording";
    }
}

/// Largest value of a sound of which a tone is taken out: x[i] − 2 cos w x[i − 1] + x[i − 2] is naught for
/// it, and twice as much as what comes suddenly, or less.
double besidesTone(std::span<const float> samples, double hertz) {
    const double turn = 2 * std::cos(2 * M_PI * hertz / rate);
    double largest = 0;
    for (std::size_t i = 2; i < samples.size(); ++i)
        largest = std::max(largest, std::abs(static_cast<double>(samples[i]) -
                                             turn * static_cast<double>(samples[i - 1]) +
                                             static_cast<double>(samples[i - 2])));
    return largest;
}

TEST(Seam, LeavesNothingAboveMinusNinetyDecibelsInAToneOfWholePeriods) {
    for (const double speed : {0.25, 0.5, 0.75, 1.0, 1.5}) {
        const auto start = loopOf(tone({441}, 3), {Frames(rate), Frames(rate + 22000)}, speed);
        const auto out = played(start, 2.2 * 22000 / rate / speed);
        const auto natural = besidesTone(steady(start, 0.5), 441);
        for (const int pass : {1, 2}) {
            const auto seam = static_cast<std::size_t>(std::ceil(pass * 22000 / speed));
            const double burst = besidesTone(std::span(out).subspan(seam - 2205, 4410), 441);
            EXPECT_LE(burst, natural + level * std::pow(10, -90.0 / 20)) << "at speed " << speed;
        }
    }
}

/// The loop of a tone, which ends in mid-period, gone round as the manner says, at a speed to start from.
std::vector<float> goneRound(double hertz, double speed, const LoopManner& manner, bool isTrade) {
    const std::int64_t length = std::llround((std::floor(0.4 * hertz) + 0.5) / hertz * rate);
    tests::RenderedEngine engine(tests::held(tone({hertz}, 3), rate), SampleRate{rate});
    if (isTrade) engine.mixer->setHearing(Hearing::Trade);
    engine.replan([&](Wanted& wanted) {
        wanted.speeds.setManner(manner);
        if (isTrade) wanted.speeds.setTrade(0);
    });
    engine.loopFromStart({Frames(rate), Frames(rate + length)}, speed);
    engine.render(std::llround(3.3 * static_cast<double>(length) / speed));
    EXPECT_GE(engine.passStarts().size(), 2u);
    auto out = engine.left();
    out.erase(out.begin(), out.begin() + rate / 10);
    return out;
}

TEST(Seam, OfAClimbStepsNoFurtherThanTheTone) {
    for (const double hertz : {41.2, 55.0, 82.4, 220.0, 441.0})
        for (const double speed : {0.5, 0.7, 0.9}) {
            const auto out = goneRound(hertz, speed, {0, Climb{5, 1, 200}, {}, {}}, false);
            EXPECT_LE(largestStep(out), 1.25f * level * 2 * std::sin(M_PI * hertz / rate))
                << hertz << " Hz from speed " << speed;
        }
}

// No note is written, so every second turn is silent: the record falls silent and comes back.
TEST(Seam, OfATurnInTradeStepsNoFurtherThanTheTone) {
    for (const double hertz : {41.2, 82.4, 220.0, 441.0})
        for (const auto& yours : {std::optional<double>(), std::optional(0.6)})
            for (const double speed : {0.5, 1.0}) {
                const auto out = goneRound(hertz, speed, {0, {}, {}, yours}, true);
                EXPECT_LE(largestStep(out), 1.25f * level * 2 * std::sin(M_PI * hertz / rate))
                    << hertz << " Hz at speed " << speed << (yours ? ", the notes at their own" : "");
            }
}

/// A quiet tone up to B and loud noise from there on.
std::shared_ptr<Recording> loudBehind(const Range<Frames>& loop) {
    std::vector<float> samples = tone({441}, 5);
    unsigned random = 5;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        random = random * 1664525u + 1013904223u;
        const float noise = static_cast<float>(random >> 8) / 8388608.0f - 1;
        samples[i] = static_cast<std::int64_t>(i) < loop.end.value ? 0.1f * samples[i] : 0.9f * noise;
    }
    return tests::held(samples, rate);
}

// The worker stops at every moment around a change of speed, until the sound runs dry.
TEST(Seam, NeverPlaysWhatIsBehindTheLoopHoweverLateTheWorkerIs) {
    const Range<Frames> loop{Frames(rate), Frames(rate + 22025)};
    const auto recording = loudBehind(loop);
    for (const double speed : {1.0, 0.5})
        for (int stop = 0; stop < 24; ++stop) {
            tests::RenderedEngine engine(recording, SampleRate{rate});
            engine.replan([](Wanted& wanted) { wanted.speeds.setManner({0, Climb{10, 1, 200}, {}, {}}); });
            engine.loopFromStart(loop, speed);
            engine.render(std::max(512L, std::lround(22025 / speed) - 24000 + 1000 * stop));
            std::vector<float> starved;
            std::vector<float> stereo(128);
            while (engine.mixer->lanes().lane()->ring().readable() > 0) {
                stereo.assign(128, 0.0f);
                engine.mixer->render(stereo, SampleRate{rate}, 0, false);
                starved.insert(starved.end(), stereo.begin(), stereo.end());
            }
            const auto loudest = [](const std::vector<float>& sound) {
                float most = 0;
                for (const float sample : sound)
                    most = std::max(most, std::abs(sample));
                return most;
            };
            EXPECT_LE(loudest(starved), 0.1f) << "stopped at " << stop << ", speed " << speed;
            engine.render(rate);
            EXPECT_LE(loudest(engine.left()), 0.1f) << "and when it goes on";
        }
}

} // namespace
} // namespace earwright
