// What is heard of a take where the loop goes round, at whatever speed it was played and is heard.
#include "core/engine/TakePart.h"
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

/// The whole of a sound as one take: its frame 0 was played with recording frame 0.
TakePlayback takeOf(std::vector<float> samples, double playedAt) {
    const Range<Frames> all{Frames(0), Frames(static_cast<std::int64_t>(samples.size()))};
    return {tests::held(std::move(samples), rate), all, Frames(0), playedAt, 0};
}

std::vector<float> played(const TakePlayback& take, const TimeTags& tags, double speed, double seconds) {
    TakePart part;
    TakePart::Start start;
    start.tags = tags;
    start.speed = speed;
    start.recordingRate = start.outputRate = SampleRate{rate};
    part.start(start, take);
    std::vector<float> out(static_cast<std::size_t>(seconds * rate));
    // Pieces of an odd size, so that passes begin anywhere in them.
    for (std::size_t at = 0; at < out.size(); at += 617)
        part.produce(std::span(out).subspan(at, std::min<std::size_t>(617, out.size() - at)));
    return out;
}

struct Tried {
    double hertz;
    /// The speed the take was played at, and is heard at.
    double playedAt;
    double heardAt;
};

std::ostream& operator<<(std::ostream& out, const Tried& tried) {
    return out << tried.hertz << " Hz played at " << 100 * tried.playedAt << " %, heard at "
               << 100 * tried.heardAt << " %";
}

class TakenToneAtSpeed : public testing::TestWithParam<Tried> {};

TEST_P(TakenToneAtSpeed, GoesRoundAnyLoopWithoutAClickOrALongDip) {
    const auto [hertz, playedAt, heardAt] = GetParam();
    const auto take = takeOf(tone({hertz}, 8), playedAt);
    for (const double part : {0.25, 0.5, 0.7}) {
        // Half a second of the take and a part of a period: hardly ever whole frames of it.
        const std::int64_t length = std::llround((std::floor(0.5 * hertz) + part) / hertz * rate * playedAt);
        const Range<Frames> loop{Frames(rate), Frames(rate + length)};
        const double pass = static_cast<double>(length) / heardAt;
        const auto out = played(take, TimeTags(rate, heardAt, loop, 0), heardAt, 4.4 * pass / rate);
        EXPECT_LE(largestStep(out), 1.25f * stepOf(hertz)) << part;
        auto natural = played(take, TimeTags(rate / 2, heardAt, std::nullopt, 0), heardAt, 0.7);
        natural.erase(natural.begin(), natural.begin() + rate / 5);
        const double weak = 0.9 * lowestAmplitude(natural, hertz);
        for (int passes = 1; passes <= 4; ++passes) {
            const auto seam = static_cast<std::size_t>(std::ceil(passes * pass));
            const std::size_t from = std::max<std::size_t>(seam, 4410) - 4410;
            const auto around = std::span(out).subspan(from, seam + 2205 - from);
            // An amplitude is told from three samples.
            EXPECT_LE(weakMilliseconds(around, hertz, weak), 1000 * (RecordPart::fadeSeconds + 2.0 / rate))
                << "after pass " << passes << " of " << part;
        }
    }
}

std::vector<Tried> allTakes() {
    std::vector<Tried> all;
    for (const double hertz : {41.2, 110.0, 441.0})
        for (const double playedAt : {0.55, 1.0})
            for (const double heardAt : {0.25, 0.5, 0.55, 0.75, 1.0, 1.5})
                all.push_back({hertz, playedAt, heardAt});
    return all;
}

INSTANTIATE_TEST_SUITE_P(TakeSeam, TakenToneAtSpeed, testing::ValuesIn(allTakes()));

// A click 17 ms into the shortest loop, whose pass has 4009.09… frames of the take: 10,000 passes, each at
// the frame that the arithmetic gives.
TEST(TakeSeam, BringsAClickInTheSameFrameAfterTenThousandPasses) {
    const Range<Frames> loop{Frames(rate), Frames(rate + 2205)};
    const std::int64_t click = 750;
    for (const double speed : {0.25, 0.5, 0.55, 0.73, 1.5}) {
        // Frame 2100 of the file, 2000 frames of the take behind its begin, is that place to the frame.
        auto take = takeOf(tests::clicksAt({2100}, 30000), 0.55);
        take.part.begin = Frames(100);
        take.at = loop.begin + Frames(click - 1100);
        TakePart part;
        part.start({TimeTags(rate, speed, loop, 0), speed, 0, SampleRate{rate}, SampleRate{rate}, 0}, take);
        // A frame of output for the pass, one of the take for the attack.
        EXPECT_LE(tests::worstOverTenThousandPasses(part, loop.length(), Frames(click), speed),
                  std::lround(1 + 0.55 / speed))
            << "frames, at speed " << speed;
    }
}

/// Steps within 50 ms of a seam ÷ the largest of what sounds well before or well after it.
double stepsAround(const std::vector<float>& out, std::int64_t seam) {
    const auto steps = [&](std::int64_t from, std::int64_t to) {
        return largestStep(std::span(out).subspan(static_cast<std::size_t>(seam + from),
                                                  static_cast<std::size_t>(to - from)));
    };
    const std::int64_t near = rate / 20;
    return static_cast<double>(steps(-near, near)) /
           static_cast<double>(std::max(steps(-4 * near, -near), steps(near, 3 * near)));
}

// Beside the same tone on the record, whose loudness a take is brought to within the first seconds.
TEST(TakeSeam, OfAClimbStepsNoFurtherThanTheTone) {
    for (const double hertz : {41.2, 110.0, 441.0})
        for (const double speed : {0.4, 0.5, 0.9}) {
            const std::int64_t length = std::llround((std::floor(0.6 * hertz) + 0.5) / hertz * rate * 0.55);
            tests::RenderedEngine engine(tests::held(tone({hertz}, 3), rate), SampleRate{rate});
            engine.mixer->setHearing(Hearing::Yours);
            engine.wish([&, hertz = hertz](Wanted& wanted) {
                wanted.take = std::make_shared<const TakePlayback>(takeOf(tone({hertz}, 6), 0.55));
            });
            engine.replan([](Wanted& wanted) { wanted.speeds.setManner({0, Climb{2, 1, 200}, {}, {}}); });
            engine.loopFromStart({Frames(rate), Frames(rate + length)}, speed);
            engine.render(5 * rate);
            ASSERT_GE(engine.passStarts().size(), 5u);
            for (const std::int64_t seam : engine.passStarts()) {
                if (seam < 2 * rate || seam + rate / 5 > engine.rendered()) continue;
                EXPECT_LE(stepsAround(engine.left(), seam), 1.25)
                    << hertz << " Hz from speed " << speed << " at " << seam;
            }
        }
}

// The same tone in the record's turn and in the take's, which is about as loud.
TEST(TakeSeam, OfATurnInTradeStepsNoFurtherThanTheTone) {
    for (const double hertz : {41.2, 110.0, 441.0})
        for (const auto& yours : {std::optional<double>(), std::optional(0.6)})
            for (const double speed : {0.5, 1.0}) {
                const std::int64_t length =
                    std::llround((std::floor(0.5 * hertz) + 0.5) / hertz * rate * 0.55);
                tests::RenderedEngine engine(tests::held(tone({hertz}, 3), rate), SampleRate{rate});
                engine.mixer->setHearing(Hearing::Trade);
                engine.wish([&, hertz = hertz](Wanted& wanted) {
                    wanted.take = std::make_shared<const TakePlayback>(takeOf(tone({hertz}, 6), 0.55));
                });
                engine.replan([&](Wanted& wanted) {
                    wanted.speeds.setManner({0, {}, {}, yours});
                    wanted.speeds.setTrade(0);
                });
                engine.loopFromStart({Frames(rate), Frames(rate + length)}, speed);
                engine.render(6 * rate);
                ASSERT_GE(engine.passStarts().size(), 6u);
                for (const std::int64_t seam : engine.passStarts()) {
                    if (seam < 2 * rate || seam + rate / 5 > engine.rendered()) continue;
                    EXPECT_LE(stepsAround(engine.left(), seam), 1.25)
                        << hertz << " Hz at speed " << speed << (yours ? ", the take at its own" : "")
                        << ", seam at " << seam;
                }
            }
}

} // namespace
} // namespace earwright
