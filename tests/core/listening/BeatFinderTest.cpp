#include "core/listening/BeatFinder.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace earwright {
namespace {

constexpr double seconds = 30;

/// Beats whose tempo swells and sinks by three per cent.
std::vector<double> driftingBeats(double bpm) {
    std::vector<double> beats;
    for (double time = 0.5; time < seconds - 0.5;) {
        beats.push_back(time);
        time += 60 / (bpm * (1 + 0.03 * std::sin(2 * M_PI * time / 20)));
    }
    return beats;
}

/// The strokes of a small band, each drawn into the sound.
class Band {
public:
    Band() : samples(static_cast<std::size_t>(seconds * analysisRate.hertz)) {}

    /// A cymbal: noise without its lows.
    void cymbal(double time, double level) {
        float before = 0;
        strike(time, 0.12, [&](double t) {
            const float now = noise(random);
            const float edge = now - before;
            before = now;
            return level * static_cast<double>(edge) * std::exp(-t / 0.03);
        });
    }
    void bass(double time, double hertz) {
        strike(time, 0.25, [&](double t) {
            return 0.3 * std::sin(2 * M_PI * hertz * t) * std::exp(-t / 0.15) * std::min(1.0, t / 0.004);
        });
    }
    AnalysisSound sound() const {
        AnalysisSound heard;
        heard.left = samples;
        return heard;
    }

private:
    template <class Wave>
    void strike(double time, double length, Wave wave) {
        const auto first = static_cast<std::size_t>(time * analysisRate.hertz);
        const auto count = static_cast<std::size_t>(length * analysisRate.hertz);
        for (std::size_t i = 0; i < count && first + i < samples.size(); ++i)
            samples[first + i] += static_cast<float>(wave(static_cast<double>(i) / analysisRate.hertz));
    }

    std::vector<float> samples;
    std::mt19937 random{7};
    std::uniform_real_distribution<float> noise{-0.5F, 0.5F};
};

/// The ride's "ding, ding-a-ding" over a walking bass, the second eighth where Friberg and Sundstroem (2002,
/// "Swing ratios and ensemble timing in jazz performance") found it: a short eighth of about 100 ms, never
/// before the middle.
AnalysisSound swing(const std::vector<double>& beats) {
    Band band;
    std::mt19937 random(3);
    std::normal_distribution<double> human(0, 0.008);
    for (std::size_t i = 0; i + 1 < beats.size(); ++i) {
        const double length = beats[i + 1] - beats[i];
        band.cymbal(beats[i] + human(random), 0.25);
        band.bass(beats[i] + human(random), 55 * std::exp2(static_cast<double>((i * 5) % 12) / 12));
        if (i % 2 == 1) band.cymbal(beats[i] + std::max(0.5 * length, length - 0.1) + human(random), 0.2);
    }
    return band.sound();
}

/// As mir_eval's beat.f_measure: each beat and each find counts once, within 70 ms.
double fMeasure(const std::vector<double>& beats, const std::vector<FoundBeat>& found) {
    std::size_t hits = 0;
    std::size_t next = 0;
    for (const double beat : beats) {
        while (next < found.size() && found[next].time.value < beat - 0.07)
            ++next;
        if (next == found.size() || found[next].time.value > beat + 0.07) continue;
        ++hits;
        ++next;
    }
    return 2 * static_cast<double>(hits) / static_cast<double>(beats.size() + found.size());
}

std::vector<FoundBeat> foundIn(const AnalysisSound& sound, std::vector<Seconds> taps = {}) {
    return *findBeats(*BeatActivation::listen(sound, {Seconds(0), sound.duration()}), {std::move(taps)});
}

double meanConfidence(const std::vector<FoundBeat>& beats) {
    double sum = 0;
    for (const FoundBeat& beat : beats)
        sum += beat.confidence / static_cast<double>(beats.size());
    return sum;
}

TEST(BeatFinder, FollowsSwingFromTwoTapsThroughADriftOfThreePerCent) {
    for (const double bpm : {100, 140, 180, 220, 260}) {
        const auto beats = driftingBeats(bpm);
        const std::size_t middle = beats.size() / 2;
        // Somebody taps 15 ms late and then 10 ms early.
        const auto found =
            foundIn(swing(beats), {Seconds(beats[middle] + 0.015), Seconds(beats[middle + 1] - 0.01)});
        EXPECT_GE(fMeasure(beats, found), 0.95) << bpm << " bpm";
    }
}

TEST(BeatFinder, GoesByTheTapsWhereTheSoundCouldBeCountedTwiceAsFast) {
    const auto beats = driftingBeats(200);
    std::vector<double> halves;
    for (std::size_t i = 0; i < beats.size(); i += 2)
        halves.push_back(beats[i]);
    const std::size_t middle = halves.size() / 2;
    const auto found = foundIn(swing(beats), {Seconds(halves[middle]), Seconds(halves[middle + 1])});
    EXPECT_GE(fMeasure(halves, found), 0.95);
}

TEST(BeatFinder, FindsAPlainPulseWithoutTaps) {
    const auto beats = driftingBeats(120);
    const auto found = foundIn(swing(beats));
    EXPECT_GE(fMeasure(beats, found), 0.95);
    EXPECT_GT(meanConfidence(found), 0.8);
}

TEST(BeatFinder, IsLessSureWhereNothingIsSteady) {
    std::mt19937 random(11);
    std::exponential_distribution<double> wait(3.5);
    Band band;
    for (double time = 0.5; time < seconds - 0.5; time += wait(random))
        band.cymbal(time, 0.25);
    const double unsteady = meanConfidence(foundIn(band.sound()));
    EXPECT_LT(unsteady, meanConfidence(foundIn(swing(driftingBeats(120)))) - 0.15);
}

TEST(BeatFinder, IsLessSureOfALineAloneThatLeavesBeatsOut) {
    std::mt19937 random(5);
    std::bernoulli_distribution isPlayed(0.5);
    Band band;
    const auto beats = driftingBeats(160);
    for (std::size_t i = 0; i + 1 < beats.size(); ++i)
        for (const double part : {0.0, 0.62})
            if (isPlayed(random)) band.bass(beats[i] + part * (beats[i + 1] - beats[i]), 330);
    const std::size_t middle = beats.size() / 2;
    const std::vector<Seconds> taps{Seconds(beats[middle]), Seconds(beats[middle + 1])};
    EXPECT_LT(meanConfidence(foundIn(band.sound())), 0.8);
    EXPECT_LT(meanConfidence(foundIn(band.sound(), taps)),
              meanConfidence(foundIn(swing(beats), taps)) - 0.05);
}

TEST(BeatFinder, NamesNoBarsWhereNothingTellsThemApart) {
    const auto beats = driftingBeats(120);
    Band band;
    for (const double beat : beats)
        band.cymbal(beat, 0.25);
    for (const FoundBeat& beat : foundIn(band.sound()))
        EXPECT_EQ(beat.barPosition, 0);
}

TEST(BeatFinder, TellsBarsByWhereTheChordsChange) {
    const auto beats = driftingBeats(200);
    Band band;
    // The first bar line is the third beat; a chord a bar, roots a fourth apart.
    for (std::size_t i = 0; i < beats.size(); ++i) {
        band.cymbal(beats[i], 0.25);
        const auto bar = static_cast<double>((i + 2) / 4);
        const double root = 220 * std::exp2(std::fmod(5 * bar, 12) / 12);
        for (const double ratio : {1.0, 1.26, 1.5})
            band.bass(beats[i], root * ratio);
    }
    std::size_t right = 0;
    const auto found = foundIn(band.sound());
    for (const FoundBeat& beat : found) {
        const auto nearest = std::min_element(beats.begin(), beats.end(), [&](double a, double b) {
            return std::abs(a - beat.time.value) < std::abs(b - beat.time.value);
        });
        right += static_cast<std::size_t>(beat.barPosition == (nearest - beats.begin() + 2) % 4 + 1);
    }
    EXPECT_GE(right, found.size() * 95 / 100);
}

TEST(BeatFinder, ProposesNothingAfterTheLastStroke) {
    auto beats = driftingBeats(120);
    beats.resize(beats.size() / 2);
    const auto found = foundIn(swing(beats));
    ASSERT_FALSE(found.empty());
    EXPECT_LT(found.back().time.value, beats.back() + 0.25);
}

TEST(BeatFinder, FindsNothingInAMoment) {
    AnalysisSound sound;
    EXPECT_TRUE(foundIn(sound).empty());
    sound.left.resize(2000);
    EXPECT_TRUE(foundIn(sound).empty());
}

TEST(BeatActivation, StopsWhenAsked) {
    std::stop_source stop;
    stop.request_stop();
    const auto sound = swing(driftingBeats(120));
    const auto heard = BeatActivation::listen(sound, {Seconds(0), Seconds(20)}, stop.get_token());
    ASSERT_FALSE(heard);
    EXPECT_EQ(heard.error().kind, ErrorKind::Cancelled);
}

TEST(BeatFinder, StopsWhenAsked) {
    BeatActivation heard;
    heard.all.assign(3000, 0.5F);
    heard.low = heard.middle = heard.high = heard.all;
    heard.chroma.resize(heard.all.size());
    std::stop_source stop;
    stop.request_stop();
    const auto beats = findBeats(heard, {}, stop.get_token());
    ASSERT_FALSE(beats);
    EXPECT_EQ(beats.error().kind, ErrorKind::Cancelled);
}

} // namespace
} // namespace earwright
