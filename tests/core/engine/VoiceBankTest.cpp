#include "core/engine/VoiceBank.h"

#include "tests/core/engine/StringSound.h"

#include <array>
#include <cmath>
#include <complex>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

/// The sound of each note of a line.
struct SlurredLine {
    std::vector<std::vector<float>> notes;
};
constexpr std::array<double, 8> linePitches{67, 69, 70, 72, 74, 75, 77, 79};

/// Eighths at 120 a minute, the first of them picked.
SlurredLine lineOf(Stroke stroke, double stretch) {
    VoiceBank bank;
    bank.setRate(SampleRate{rate});
    SlurredLine line;
    for (const double pitch : linePitches) {
        StringGesture gesture = plain(pitch, 0.6, 0.25 * stretch);
        gesture.stretch = stretch;
        gesture.stroke = line.notes.empty() ? Stroke::Picked : stroke;
        bank.play(gesture);
        line.notes.emplace_back(static_cast<std::size_t>(0.25 * stretch * rate), 0.0f);
        bank.render(line.notes.back());
    }
    return line;
}

TEST(VoiceBank, KeepsUpTheLevelOfASlurredLine) {
    for (const double stretch : {1.0, 2.0})
        for (const Stroke stroke : {Stroke::Slurred, Stroke::Hammered}) {
            const SlurredLine line = lineOf(stroke, stretch);
            const double first = decibels(line.notes.front());
            double least = first;
            double most = first;
            for (const auto& note : line.notes) {
                least = std::min(least, decibels(note));
                most = std::max(most, decibels(note));
            }
            EXPECT_LT(most - least, 6) << "played " << stretch << " times as slowly";
            EXPECT_EQ(most, first) << "none stands out from the picked one";
        }
}

TEST(VoiceBank, SlursMoreSoftlyThanItHammersAndHammersMoreSoftlyThanItPicks) {
    const SlurredLine picked = lineOf(Stroke::Picked, 1);
    const SlurredLine hammered = lineOf(Stroke::Hammered, 1);
    const SlurredLine slurred = lineOf(Stroke::Slurred, 1);
    for (std::size_t i = 1; i < linePitches.size(); ++i) {
        const auto attack = [&](const SlurredLine& line) { return between(line.notes[i], 0, 0.02); };
        EXPECT_LT(decibels(attack(hammered)), decibels(attack(picked)) - 2) << i;
        EXPECT_LT(decibels(attack(slurred)), decibels(attack(hammered)) - 2) << i;
    }
}

TEST(VoiceBank, SlursWithoutAClick) {
    const auto steepest = [](std::span<const float> samples) {
        float most = 0;
        for (std::size_t i = 1; i < samples.size(); ++i)
            most = std::max(most, std::abs(samples[i] - samples[i - 1]));
        return most;
    };
    for (const Stroke stroke : {Stroke::Slurred, Stroke::Hammered}) {
        const SlurredLine line = lineOf(stroke, 1);
        for (std::size_t i = 1; i < line.notes.size(); ++i) {
            const std::vector<float>& before = line.notes[i - 1];
            std::vector<float> seam(before.end() - 2, before.end());
            seam.insert(seam.end(), line.notes[i].begin(), line.notes[i].begin() + rate / 500);
            // No step at the seam that isn't in the note itself, or in the one before.
            EXPECT_LT(steepest(seam), 1.1f * std::max(steepest(between(line.notes[i], 0.002, 0.04)),
                                                      steepest(between(before, 0.2, 0.25))))
                << i;
        }
    }
}

TEST(VoiceBank, SlursInTune) {
    for (const Stroke stroke : {Stroke::Slurred, Stroke::Hammered}) {
        const SlurredLine line = lineOf(stroke, 2);
        for (std::size_t i = 1; i < linePitches.size(); ++i) {
            const double hertz = hertzOfMidi(linePitches[i]);
            EXPECT_NEAR(cents(hertzNear(between(line.notes[i], 0.04, 0.45), hertz, rate), hertz), 0, 3) << i;
        }
    }
}

/// Of a partial, in dB.
double levelAt(std::span<const float> samples, double midi) {
    const double turn = 2 * M_PI * hertzOfMidi(midi) / rate;
    std::complex<double> sum = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const auto at = static_cast<double>(i);
        const double window = 1 - std::cos(2 * M_PI * at / static_cast<double>(samples.size()));
        sum += window * static_cast<double>(samples[i]) * std::polar(1.0, -turn * at);
    }
    return 20 * std::log10(2 * std::abs(sum) / static_cast<double>(samples.size()) + 1e-9);
}

TEST(VoiceBank, SlursBothNotesOfADoubleStop) {
    VoiceBank bank;
    bank.setRate(SampleRate{rate});
    std::vector<float> out;
    for (const auto& [low, high] : {std::pair{60.0, 64.0}, std::pair{62.0, 67.0}}) {
        for (const std::size_t voice : {std::size_t{0}, std::size_t{1}}) {
            StringGesture gesture = plain(voice == 0 ? low : high, 0.6, 1.0);
            gesture.voice = voice;
            gesture.stroke = out.empty() ? Stroke::Picked : Stroke::Slurred;
            bank.play(gesture);
        }
        out.assign(rate, 0.0f);
        bank.render(out);
    }
    const auto heard = between(out, 0.1, 0.5);
    EXPECT_NEAR(levelAt(heard, 62), levelAt(heard, 67), 8);
    EXPECT_GT(levelAt(heard, 62), -40);
    EXPECT_LT(levelAt(heard, 60), levelAt(heard, 62) - 30) << "neither goes on beside its goal";
    EXPECT_LT(levelAt(heard, 64), levelAt(heard, 67) - 30);
}

TEST(VoiceBank, PlucksASlurSoftlyThatComesFromNowhere) {
    for (const Stroke stroke : {Stroke::Slurred, Stroke::Soft}) {
        VoiceBank bank;
        bank.setRate(SampleRate{rate});
        StringGesture gesture = plain(67, 0.6, 0.5);
        gesture.stroke = stroke;
        bank.play(gesture);
        std::vector<float> out(rate / 4, 0.0f);
        bank.render(out);
        const double picked = decibels(between(sounded(plain(67), 0.1), 0.0, 0.1));
        EXPECT_GT(decibels(between(out, 0.0, 0.1)), picked - 8);
        EXPECT_LT(decibels(between(out, 0.0, 0.1)), picked - 3);
    }
}

TEST(VoiceBank, LeavesANoteItsStringWhenAnotherOfItsVoiceBeginsSoftly) {
    VoiceBank bank;
    bank.setRate(SampleRate{rate});
    bank.play(plain(60, 0.6, 2.0));
    std::vector<float> out(rate / 4, 0.0f);
    bank.render(out);
    StringGesture gesture = plain(67, 0.6, 1.0);
    gesture.stroke = Stroke::Soft;
    bank.play(gesture);
    std::fill(out.begin(), out.end(), 0.0f);
    bank.render(out);
    EXPECT_GT(levelAt(out, 60), -50);
    EXPECT_GT(levelAt(out, 67), -50);
}

TEST(VoiceBank, PlaysMoreNotesThanItHasStrings) {
    VoiceBank bank;
    bank.setRate(SampleRate{rate});
    for (int i = 0; i < 40; ++i) {
        bank.play(plain(50 + i));
        std::vector<float> out(500, 0.0f);
        bank.render(out);
        for (const float sample : out)
            ASSERT_LT(std::abs(sample), 8.0f);
    }
    bank.releaseAll();
    std::vector<float> tail(rate, 0.0f);
    bank.render(tail);
    EXPECT_FALSE(bank.isSounding());
}

} // namespace
} // namespace earwright
