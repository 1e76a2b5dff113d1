#include "core/listening/SlurChance.h"

#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <random>

namespace earwright {
namespace {

using namespace tests;

constexpr Seconds first{1.0}, second{1.25}, end{1.5};

/// Two notes whose partials go on from one to the other, or begin anew: sums of sines that are made here and
/// by no program the weights were learned with.
struct TwoNotes {
    AnalysisSound sound{silence(Seconds(2.5)), {}};
    int midi, interval;

    TwoNotes(int lower, int semitones) : midi(lower), interval(semitones) {}

    AttackQuestion question() const {
        return {second,
                {second - Seconds(0.09), second + Seconds(0.09)},
                tests::hertzOf(midi + interval),
                tests::hertzOf(midi)};
    }
    double chance(LineCharacter character) const {
        const StereoViews views(sound, {Seconds(0.5), Seconds(2)});
        const NoteAttack attack = attackOf(views, 0, question());
        return slurChance(attackFeatures(views, 0, question(), attack), character);
    }

    /// Adds partials that fall off as 1/h and die away by `fall` nepers a second and partial, with `rise`
    /// seconds of attack; where they are to go on, their pitch jumps at `second` within 6 ms.
    void add(Range<Seconds> range, double from, double to, double fall, double rise, double level) {
        const auto at = static_cast<std::size_t>(analysisRate.frames(range.begin).value);
        const auto count = static_cast<std::size_t>(analysisRate.frames(range.length()).value);
        const double jump = (second - range.begin).value, release = 0.012;
        double phase = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const double t = static_cast<double>(i) / analysisRate.hertz;
            phase += tests::hertzOf(from + (to - from) * std::clamp((t - jump) / 0.006, 0.0, 1.0)) /
                     analysisRate.hertz;
            const double shape = std::min({1.0, t / rise, (range.length().value - t) / release});
            for (int h = 1; h <= 12; ++h)
                sound.left[at + i] += static_cast<float>(level * shape / h * std::exp(-t * fall * h) *
                                                         std::sin(2 * std::numbers::pi * h * phase));
        }
    }

    /// Bright noise of 4 ms, as a pick's or a tongue's.
    void addClick(Seconds time, double level) {
        std::mt19937 random(3);
        std::normal_distribution<double> normal(0, level);
        const auto at = static_cast<std::size_t>(analysisRate.frames(time).value);
        for (std::size_t i = 0; i < 90; ++i)
            sound.left[at + i] += static_cast<float>(normal(random) * (1 - static_cast<double>(i) / 90));
    }
};

TwoNotes hammered(int midi, int interval) {
    TwoNotes notes(midi, interval);
    notes.add({first, end}, midi, midi + interval, 0.8, 0.002, 0.2);
    notes.addClick(first, 0.05);
    return notes;
}

TwoNotes picked(int midi, int interval) {
    TwoNotes notes(midi, interval);
    notes.add({first, second - Seconds(0.006)}, midi, midi, 0.8, 0.002, 0.2);
    notes.add({second, end}, midi + interval, midi + interval, 0.8, 0.002, 0.2);
    notes.addClick(first, 0.05);
    notes.addClick(second, 0.05);
    return notes;
}

TwoNotes boundByBreath(int midi, int interval) {
    TwoNotes notes(midi, interval);
    notes.add({first, end}, midi, midi + interval, 0, 0.03, 0.2);
    return notes;
}

TwoNotes tongued(int midi, int interval) {
    TwoNotes notes(midi, interval);
    notes.add({first, second - Seconds(0.03)}, midi, midi, 0, 0.03, 0.2);
    notes.add({second, end}, midi + interval, midi + interval, 0, 0.03, 0.2);
    notes.addClick(second, 0.02);
    return notes;
}

TEST(SlurChance, TellsAHammeredNoteFromAPickedOne) {
    for (const LineCharacter character : {LineCharacter::Plucked, LineCharacter::Unknown})
        for (const int midi : {45, 52, 60, 67, 74})
            for (const int interval : {-3, -2, -1, 1, 2, 4}) {
                EXPECT_GT(hammered(midi, interval).chance(character), 0.5) << midi << " by " << interval;
                EXPECT_LT(picked(midi, interval).chance(character), 0.5) << midi << " by " << interval;
            }
}

TEST(SlurChance, TellsASlurFromATongue) {
    // At A2, where 46 ms hold few periods, two of eighteen slurs fall short of a half.
    for (const LineCharacter character : {LineCharacter::Blown, LineCharacter::Held, LineCharacter::Unknown})
        for (const int midi : {50, 55, 60, 67, 74})
            for (const int interval : {-4, -2, -1, 1, 2, 5}) {
                EXPECT_GT(boundByBreath(midi, interval).chance(character), 0.5) << midi << " by " << interval;
                EXPECT_LT(tongued(midi, interval).chance(character), 0.5) << midi << " by " << interval;
            }
}

TEST(SlurChance, IsTheSameHoweverLoudTheRecordingIs) {
    for (const bool isPicked : {false, true}) {
        TwoNotes notes = isPicked ? picked(60, 2) : hammered(60, 2);
        addNoise(notes.sound.left, 0.002f);
        const double before = notes.chance(LineCharacter::Plucked);
        for (float& sample : notes.sound.left)
            sample *= 0.05f;
        EXPECT_NEAR(notes.chance(LineCharacter::Plucked), before, 0.02);
    }
}

TEST(SlurChance, IsAChanceInSilenceToo) {
    const TwoNotes nothing(60, 2);
    for (const LineCharacter character :
         {LineCharacter::Unknown, LineCharacter::Plucked, LineCharacter::Blown, LineCharacter::Held}) {
        const double chance = nothing.chance(character);
        EXPECT_GE(chance, 0);
        EXPECT_LE(chance, 1);
    }
}

} // namespace
} // namespace earwright
