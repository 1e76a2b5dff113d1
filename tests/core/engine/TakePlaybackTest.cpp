// A take heard as "yours": where it was played, at any speed, round the loop.
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/RenderedEngine.h"

#include <cmath>
#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

constexpr int rate = 44100;

/// Silent: what is heard is the take alone.
std::shared_ptr<Recording> silentRecord() {
    return tests::held(std::vector<float>(20 * rate, 0.0f), rate);
}

/// Played at half speed along with the recording from second 4 on, for 6 s of it: a click with every half
/// second of the recording, one second apart in the file, the first 0.25 s after the part begins.
TakePlayback halfSpeedTake(int fileRate = rate) {
    std::vector<float> clicks(static_cast<std::size_t>(15 * fileRate));
    for (int i = 0; i < 12; ++i)
        clicks[static_cast<std::size_t>(std::lround((1.25 + i) * fileRate))] = 0.7f;
    const auto second = [&](double seconds) { return Frames(std::lround(seconds * fileRate)); };
    return {tests::held(std::move(clicks), fileRate), {second(1), second(13)}, Frames(4 * rate), 0.5, 0};
}

/// Places of the recording at which the clicks were played: 4.125 s, 4.625 s, …
bool isAClicksPlace(double frame, double within) {
    const double halves = (frame / rate - 4.125) * 2;
    return std::abs(halves - std::round(halves)) / 2 < within;
}

/// The take is brought to the record's loudness, so clicks stand out against each other only.
std::vector<std::int64_t> clicksIn(const std::vector<float>& heard) {
    const auto size = static_cast<long>(heard.size());
    const float most = std::abs(heard[static_cast<std::size_t>(tests::loudestIn(heard, 0, size))]);
    std::vector<std::int64_t> found;
    for (std::size_t i = 0; i < heard.size(); ++i) {
        if (std::abs(heard[i]) < 0.2f * most) continue;
        const long loudest = tests::loudestIn(heard, static_cast<long>(i), static_cast<long>(i) + rate / 50);
        found.push_back(loudest);
        i += rate / 10;
    }
    return found;
}

TEST(TakePlayback, IsHeardWithThePlaceItWasPlayedAtWhateverTheSpeed) {
    for (const int fileRate : {44100, 48000})
        for (const double speed : {0.5, 1.0}) {
            tests::RenderedEngine engine(silentRecord(), SampleRate{rate});
            engine.mixer->setHearing(Hearing::Yours);
            engine.wish([&](Wanted& wanted) {
                wanted.take = std::make_shared<const TakePlayback>(halfSpeedTake(fileRate));
                wanted.speeds.set(speed);
                wanted.jump = Frames(5 * rate + 7);
            });
            engine.play();
            engine.render(static_cast<std::int64_t>(3 * rate / speed));
            const auto clicks = clicksIn(engine.left());
            EXPECT_GE(clicks.size(), 5u);
            // Untouched at its own speed; otherwise within the stretcher's jitter of an attack.
            for (const std::int64_t click : clicks)
                EXPECT_TRUE(isAClicksPlace(engine.placeAt(click), speed == 0.5 ? 0.0001 : 0.003))
                    << "at " << engine.placeAt(click) / rate << " s, speed " << speed << ", file "
                    << fileRate;
        }
}

TEST(TakePlayback, StaysWithTheLoopOverManyPasses) {
    tests::RenderedEngine engine(silentRecord(), SampleRate{rate});
    engine.mixer->setHearing(Hearing::Yours);
    engine.wish([](Wanted& wanted) { wanted.take = std::make_shared<const TakePlayback>(halfSpeedTake()); });
    // One click a pass, which lasts a little over half a second.
    engine.loopFromStart({Frames(4 * rate + 11), Frames(4 * rate + 11 + 12347)}, 0.5);
    engine.play();
    engine.render(20 * rate);
    const auto clicks = clicksIn(engine.left());
    EXPECT_GE(clicks.size(), 30u);
    for (const std::int64_t click : clicks)
        EXPECT_TRUE(isAClicksPlace(engine.placeAt(click), 0.0001)) << engine.placeAt(click) / rate;
}

TEST(TakePlayback, WaitsThroughTheGapAsTheRecordDoes) {
    tests::RenderedEngine engine(silentRecord(), SampleRate{rate});
    engine.mixer->setHearing(Hearing::Yours);
    engine.replan([](Wanted& wanted) {
        LoopManner manner;
        manner.gapBeats = 2;
        wanted.speeds.setManner(manner);
    });
    engine.wish([](Wanted& wanted) { wanted.take = std::make_shared<const TakePlayback>(halfSpeedTake()); });
    engine.loopFromStart({Frames(4 * rate), Frames(4 * rate + 12000)}, 0.5);
    engine.play();
    engine.render(12 * rate);
    const auto clicks = clicksIn(engine.left());
    EXPECT_GE(clicks.size(), 4u);
    for (const std::int64_t click : clicks)
        EXPECT_TRUE(isAClicksPlace(engine.placeAt(click), 0.0001)) << engine.placeAt(click) / rate;
}

TEST(TakePlayback, IsSilentWhereNothingWasPlayedAndGivesTheNotesBack) {
    tests::RenderedEngine engine(silentRecord(), SampleRate{rate});
    engine.mixer->setHearing(Hearing::Yours);
    TimedNote note;
    note.onset = Frames(12 * rate);
    note.end = Frames(13 * rate);
    engine.wish([&](Wanted& wanted) {
        wanted.take = std::make_shared<const TakePlayback>(halfSpeedTake());
        wanted.notes = noteListOf({note});
        wanted.jump = Frames(11 * rate);
    });
    engine.play();
    engine.render(3 * rate);
    EXPECT_LT(tests::rootMeanSquare(engine.left()), 1e-6);
    engine.wish([](Wanted& wanted) {
        wanted.take.reset();
        wanted.jump = Frames(11 * rate);
    });
    const auto before = static_cast<std::ptrdiff_t>(engine.rendered());
    engine.render(3 * rate);
    EXPECT_GT(tests::rootMeanSquare(std::span(engine.left()).subspan(static_cast<std::size_t>(before))),
              0.005);
}

} // namespace
} // namespace earwright
