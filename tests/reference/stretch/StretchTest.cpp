// The stretch against a tone from fluidsynth, against bare arithmetic for lengths, and against clicks for
// time.
#include "core/engine/Excerpt.h"
#include "core/engine/Lane.h"
#include "core/engine/RecordPart.h"
#include "core/engine/TimeTags.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/sound/WrittenFile.h"
#include "tests/reference/stretch/RenderedTone.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using tests::cents;
using tests::hertzNear;

constexpr int rate = 44100;

std::vector<float> mono(const std::vector<float>& interleaved, std::size_t channels) {
    std::vector<float> one;
    for (std::size_t i = 0; i < interleaved.size(); i += channels)
        one.push_back(interleaved[i]);
    return one;
}

std::vector<float> excerpt(const std::shared_ptr<Recording>& recording, double from, double to,
                           const Playing& playing) {
    std::vector<float> all;
    const auto frames = std::llround((to - from) / playing.speed * recording->rate().hertz);
    const auto done = renderExcerpt(recording, recording->rate().frames(Seconds(from)), frames, playing,
                                    [&](std::span<const float> block) {
                                        all.insert(all.end(), block.begin(), block.end());
                                        return Done{};
                                    });
    EXPECT_TRUE(done.ok());
    return mono(all, static_cast<std::size_t>(recording->channels()));
}

class RenderedToneTest : public testing::Test {
protected:
    static void SetUpTestSuite() {
        static const tests::ScratchFolder folder;
        // Square lead: steady, with harmonics up to the top.
        low() = tests::renderedTone(folder / "low.wav", 80, 57, 2.5);
        high() = tests::renderedTone(folder / "high.wav", 80, 76, 2.5);
    }
    static std::shared_ptr<Recording>& low() {
        static std::shared_ptr<Recording> tone;
        return tone;
    }
    static std::shared_ptr<Recording>& high() {
        static std::shared_ptr<Recording> tone;
        return tone;
    }
    void SetUp() override { ASSERT_TRUE(low() && high()) << "fluidsynth or its sound font is missing"; }
    /// Cents by which a stretch moved the tone, beyond what was asked for.
    static double shift(const std::shared_ptr<Recording>& tone, int midi, const Playing& playing) {
        const auto original = excerpt(tone, 0.5, 2.0, {});
        const auto stretched = excerpt(tone, 0.5, 2.0, playing);
        const double asked = playing.semitones * 100.0 + playing.cents;
        const double about = tests::hertzOfMidi(midi);
        const double before = hertzNear(original, about, rate);
        const double after = hertzNear(stretched, about * std::exp2(asked / 1200), rate);
        return cents(after, before) - asked;
    }
};

TEST_F(RenderedToneTest, KeepsItsPitchWithinThreeCentsAtEverySpeed) {
    for (const double speed : {0.25, 0.5, 0.75, 0.9, 1.0, 1.5, 2.0})
        EXPECT_LT(std::abs(shift(low(), 57, {speed, 0, 0})), 3.0) << speed;
    for (const double speed : {0.25, 0.75, 2.0})
        EXPECT_LT(std::abs(shift(high(), 76, {speed, 0, 0})), 3.0) << speed;
}

TEST_F(RenderedToneTest, IsTransposedAsAskedWithinThreeCents) {
    for (const Playing& playing :
         {Playing{1, 12, 0}, Playing{1, -12, 0}, Playing{1, 0, 100}, Playing{1, 0, -37}, Playing{0.5, 7, 50},
          Playing{0.5, -5, -100}, Playing{2, 3, 0}})
        EXPECT_LT(std::abs(shift(low(), 57, playing)), 3.0)
            << playing.speed << ' ' << playing.semitones << ' ' << playing.cents;
}

TEST_F(RenderedToneTest, PassesUntouchedAtFullSpeedAndPitch) {
    const auto out = excerpt(low(), 0.5, 1.5, {});
    std::vector<float> original(out.size() * static_cast<std::size_t>(low()->channels()));
    low()->read(Frames(rate / 2), original);
    EXPECT_EQ(out, mono(original, static_cast<std::size_t>(low()->channels())));
}

TEST_F(RenderedToneTest, KeepsItsLevelWithinADecibel) {
    const double before = tests::rootMeanSquare(excerpt(low(), 0.5, 2.0, {}));
    for (const double speed : {0.5, 0.75, 2.0}) {
        const double after = tests::rootMeanSquare(excerpt(low(), 0.5, 2.0, {speed, 0, 0}));
        EXPECT_LT(std::abs(20 * std::log10(after / before)), 1.0) << speed;
    }
}

TEST_F(RenderedToneTest, IsBouncedAtTheLengthThatTheArithmeticGives) {
    const tests::ScratchFolder folder;
    for (const auto& [speed, from, to] : {std::tuple{0.25, 0.5, 0.823}, std::tuple{0.5, 0.0, 1.0},
                                          std::tuple{0.77, 1.0, 1.5}, std::tuple{2.0, 0.25, 2.25}})
        for (const char* name : {"out.wav", "out.flac"}) {
            const auto out = folder / name;
            const std::string command = std::string(EARWRIGHT_BATCH) + " bounce '" + low()->path().string() +
                                        "' '" + out.string() + "' --speed " + std::to_string(speed) +
                                        " --from " + std::to_string(from) + " --to " + std::to_string(to);
            ASSERT_EQ(std::system(command.c_str()), 0) << command;
            const auto bounced = Recording::open(out);
            ASSERT_TRUE(bounced.ok());
            EXPECT_NEAR(static_cast<double>((*bounced)->length().value), (to - from) / speed * rate, 1.0);
            EXPECT_EQ((*bounced)->rate().hertz, rate);
            EXPECT_EQ((*bounced)->channels(), low()->channels());
        }
}

/// Clicks at uneven distances, far enough apart to be told from each other at that speed.
std::vector<long> clickPlaces(double speed, int count) {
    std::vector<long> places;
    unsigned random = 11;
    double at = 0.4;
    for (int i = 0; i < count; ++i) {
        places.push_back(std::lround(at * rate));
        random = random * 1664525u + 1013904223u;
        at += std::max(0.16, 0.26 * speed) * (1 + 0.4 * static_cast<double>(random >> 8) / 16777216.0);
    }
    return places;
}

enum class Attack { Click, Pluck, Drum };

/// The same attack at each place; a click over two quiet tones, the others over nothing.
std::vector<float> attacksAt(Attack attack, const std::vector<long>& places, std::size_t length) {
    if (attack == Attack::Click) return tests::clicksAt(places, length);
    std::vector<float> samples(length);
    unsigned random = 5;
    for (const long place : places)
        for (std::size_t i = 0; i < 12000; ++i) {
            const auto since = static_cast<double>(i);
            double value = 0;
            if (attack == Attack::Pluck)
                for (int partial = 1; partial <= 20; ++partial)
                    value += 0.3 * std::sin(2 * M_PI * 220 * partial * since / rate + partial) / partial *
                             std::exp(-since * partial / 3000.0);
            random = random * 1664525u + 1013904223u;
            if (attack == Attack::Drum)
                value = 0.7 * (static_cast<double>(random >> 8) / 8388608.0 - 1) * std::exp(-since / 600.0);
            const std::size_t at = static_cast<std::size_t>(place) + i;
            if (at < length) samples[at] += static_cast<float>(value);
        }
    return samples;
}

/// The first sample in [from, to) that reaches half of the largest there: where an attack begins.
long onsetIn(std::span<const float> samples, long from, long to) {
    const long loudest = tests::loudestIn(samples, from, to);
    const float half = 0.5f * std::abs(samples[static_cast<std::size_t>(loudest)]);
    long at = std::max(0L, from);
    while (at < loudest && std::abs(samples[static_cast<std::size_t>(at)]) < half)
        ++at;
    return at;
}

/// Where the attacks are heard against where the tags say, in milliseconds of the recording, sorted by size.
std::vector<double> tagErrors(Attack attack, double speed, double semitones, int outputRate, int count) {
    const auto places = clickPlaces(speed, count);
    const auto length = static_cast<std::size_t>(places.back()) + rate;
    const std::vector<float> samples = attacksAt(attack, places, length);
    RecordStart start;
    start.recording = tests::held(samples, rate);
    start.from = Frames(rate / 10);
    start.speed = speed;
    start.semitones = semitones;
    start.outputRate = SampleRate{outputRate};
    RecordPart part;
    part.start(start);
    const TimeTags tags(rate / 10, speed * rate / outputRate, std::nullopt, 0);
    std::vector<float> out(static_cast<std::size_t>(tags.laneFrameOf(static_cast<double>(places.back()))));
    part.produce(out);
    std::vector<double> errors;
    for (const long place : places) {
        const long told = static_cast<long>(tags.laneFrameOf(static_cast<double>(place) - rate / 10));
        // Not further on than the attack itself lasts: what a note swells to later is no attack.
        const long heard = onsetIn(out, told - outputRate / 9, told + outputRate / 100);
        const long played = onsetIn(samples, place - rate / 20, place + rate / 100);
        errors.push_back(std::abs(tags.placeAt(heard) - static_cast<double>(played)) / rate * 1000);
    }
    std::sort(errors.begin(), errors.end());
    return errors;
}

struct Bound {
    double speed;
    double semitones;
    double nearlyAll;
};

class TagsAtSpeed : public testing::TestWithParam<Bound> {};

TEST_P(TagsAtSpeed, SayWhereAnAttackIsHeard) {
    const Bound& bound = GetParam();
    for (const auto& [attack, outputRate, name] :
         {std::tuple{Attack::Click, 44100, "click"}, std::tuple{Attack::Click, 48000, "click"},
          std::tuple{Attack::Pluck, 44100, "pluck"}, std::tuple{Attack::Drum, 48000, "drum"}}) {
        const auto errors = tagErrors(attack, bound.speed, bound.semitones, outputRate, 12);
        EXPECT_LE(errors[errors.size() / 2], 1.0) << name << ": median in ms at " << outputRate << " Hz";
        EXPECT_LE(errors[errors.size() * 95 / 100], bound.nearlyAll)
            << name << ": 95 % in ms at " << outputRate << " Hz";
    }
}

INSTANTIATE_TEST_SUITE_P(Stretch, TagsAtSpeed,
                         testing::Values(Bound{0.1, 0, 6}, Bound{0.15, 0, 6}, Bound{0.35, 0, 6},
                                         Bound{0.5, 0, 3}, Bound{0.5, -5, 3}, Bound{0.5, 4, 3},
                                         Bound{0.75, 0, 3}, Bound{1.0, 0, 0.1}, Bound{0.9, -12, 3},
                                         Bound{1.25, 0, 3}, Bound{1.5, -5, 3}, Bound{2.0, 0, 3},
                                         Bound{2.0, -5, 3}),
                         [](const testing::TestParamInfo<Bound>& bound) {
                             std::string name =
                                 "Speed" + std::to_string(std::lround(bound.param.speed * 100));
                             if (bound.param.semitones < 0) name += "Lower";
                             if (bound.param.semitones > 0) name += "Higher";
                             return name;
                         });

TEST(Stretch, DoesNotDriftInALoopOverHalfAMinute) {
    // 1.1 s of recording at 70 %, resampled as well: 19 passes, of which each has the click at the same
    // place.
    const Range<Frames> loop{Frames(rate / 2), Frames(rate / 2 + 48510)};
    const long click = rate;
    RecordStart start;
    start.recording = tests::held(tests::clicksAt({click}, 3 * rate), rate);
    start.from = loop.begin;
    start.loop = loop;
    start.speed = 0.7;
    start.outputRate = SampleRate{48000};
    RecordPart part;
    part.start(start);
    const TimeTags tags(rate / 2, 0.7 * rate / 48000, loop, 0);
    std::vector<float> out(30 * 48000);
    part.produce(out);
    std::vector<double> errors;
    for (std::int64_t pass = 0;; ++pass) {
        const double start0 = pass == 0 ? 0 : tags.passEnd(pass - 1);
        const auto told = static_cast<long>(tags.laneFrameOf(start0 + static_cast<double>(click - rate / 2)));
        if (told + 5000 > static_cast<long>(out.size())) break;
        const long heard = tests::loudestIn(out, told - 4800, told + 4800);
        errors.push_back((tags.placeAt(heard) - static_cast<double>(click)) / rate * 1000);
    }
    ASSERT_GE(errors.size(), 18u);
    const auto mean = [&](std::size_t from) {
        double sum = 0;
        for (std::size_t i = from; i < from + 6; ++i)
            sum += errors[i] / 6;
        return sum;
    };
    EXPECT_LT(std::abs(mean(0)), 1.0);
    EXPECT_LT(std::abs(mean(errors.size() - 6) - mean(0)), 0.5) << "ms between the first and last six";
}

TEST(Stretch, LeavesNoBurstAtTheSeamOfALoop) {
    // A sustained tone of 441 Hz and a loop of 200 whole periods: what is heard has to be a sustained tone.
    std::vector<float> tone(3 * rate);
    for (std::size_t i = 0; i < tone.size(); ++i)
        tone[i] = static_cast<float>(0.5 * std::sin(2 * M_PI * static_cast<double>(i) / 100));
    RecordStart start;
    start.recording = tests::held(tone, rate);
    start.from = Frames(rate);
    start.loop = Range{Frames(rate), Frames(rate + 20000)};
    start.speed = 0.5;
    start.outputRate = SampleRate{rate};
    RecordPart part;
    part.start(start);
    std::vector<float> out(8 * rate);
    part.produce(out);
    const auto steady = std::span(out).subspan(rate);
    float largest = 0;
    for (std::size_t i = 1; i < steady.size(); ++i)
        largest = std::max(largest, std::abs(steady[i] - steady[i - 1]));
    EXPECT_LE(largest, 1.25 * 2 * M_PI / 100 * 0.5);
    const double hertz = hertzNear(steady.first(2 * rate), 441, rate);
    EXPECT_LT(std::abs(cents(hertz, 441)), 1.0);
}

TEST(Lane, BringsTheWrittenNoteWithTheRecordAtEverySpeed) {
    for (const double speed : {0.25, 0.5, 0.75, 1.0, 1.5, 2.0}) {
        const auto places = clickPlaces(speed, 10);
        Lane::Start start;
        start.record.recording =
            tests::held(tests::clicksAt(places, static_cast<std::size_t>(places.back()) + rate), rate);
        start.record.speed = speed;
        start.record.outputRate = SampleRate{48000};
        std::vector<TimedNote> notes;
        for (const long place : places) {
            TimedNote note;
            note.onset = Frames(place);
            note.end = Frames(place + 2000);
            note.midi = 76;
            notes.push_back(note);
        }
        start.notes = noteListOf(notes);
        Lane lane;
        lane.start(start);
        std::vector<float> record;
        std::vector<float> yours;
        std::vector<SoundFrame> block(256);
        const auto frames = lane.tags().laneFrameOf(static_cast<double>(places.back()) + rate / 4);
        while (static_cast<std::int64_t>(record.size()) < frames) {
            lane.fill(256, false);
            lane.ring().read(block);
            for (const SoundFrame& frame : block) {
                record.push_back(frame.left);
                yours.push_back(frame.yours);
            }
        }
        std::vector<double> apart;
        for (const long place : places) {
            const auto told = static_cast<long>(lane.tags().laneFrameOf(static_cast<double>(place)));
            const long click = tests::loudestIn(record, told - 5300, told + 5300);
            long onset = told - 300;
            while (onset < told + 600 && std::abs(yours[static_cast<std::size_t>(onset)]) < 0.02f)
                ++onset;
            apart.push_back(std::abs(static_cast<double>(onset - click)) / 48.0 * speed);
        }
        std::sort(apart.begin(), apart.end());
        EXPECT_LE(apart[apart.size() / 2], 1.0) << "ms of recording at speed " << speed;
        EXPECT_LE(apart.back(), speed < 0.5 ? 6.0 : 3.0) << "ms of recording at speed " << speed;
    }
}

} // namespace
} // namespace earwright
