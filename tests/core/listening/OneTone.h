// A tone of known pitch and timbre at any rate, alone.
#pragma once

#include "core/music/Pitch.h"
#include "core/time/SampleRate.h"

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <vector>

namespace earwright::tests {

struct Timbre {
    const char* name;
    /// Amplitudes of the partials from the first.
    std::vector<double> partials;
    /// A stiff string's: partial h lies at h · f · √(1 + B·h²) (H. Fletcher, "Normal vibration frequencies of
    /// a stiff piano string", JASA 36, 1964).
    double stiffness = 0;
    /// White noise beside the tone, of this amplitude.
    double noise = 0;
};

/// What the tones of instruments and voices are like (after the figures in handbooks of acoustics, from
/// memory).
inline std::vector<Timbre> timbres() {
    std::vector<double> saw;
    std::vector<double> odd;
    for (int h = 1; h <= 12; ++h) {
        saw.push_back(1.0 / h);
        odd.push_back(h % 2 == 1 ? 1.0 / h : 0.02);
    }
    return {{"sine", {1}},
            {"bowed or sung", saw},
            {"clarinet", odd},
            {"weak first partial", {0.1, 1, 0.8, 0.6, 0.4, 0.3, 0.2}},
            {"strong second partial", {0.5, 1, 0.3, 0.2, 0.1}},
            {"stiff string", saw, 1e-4},
            {"breath", {1, 0.4, 0.2, 0.1}, 0, 0.05}};
}

/// 4 ms of attack, then steady at a peak of about a quarter of full scale. `vibrato`: semitones either way,
/// 5.5 a second.
inline std::vector<float> toneOf(const Timbre& timbre, double midi, double seconds, SampleRate rate,
                                 double vibrato = 0) {
    std::mt19937 random(7);
    std::normal_distribution<double> noise;
    double sum = 0;
    for (const double amplitude : timbre.partials)
        sum += amplitude;
    std::vector<double> phases(timbre.partials.size());
    std::vector<float> sound(static_cast<std::size_t>(seconds * rate.hertz));
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double time = static_cast<double>(i) / rate.hertz;
        const double swing = vibrato * std::sin(2 * std::numbers::pi * 5.5 * time);
        const double hertz = hertzOf(midi + swing);
        double value = timbre.noise * noise(random);
        for (std::size_t p = 0; p < phases.size(); ++p) {
            const double h = static_cast<double>(p + 1);
            const double own = h * hertz * std::sqrt(1 + timbre.stiffness * h * h);
            phases[p] += 2 * std::numbers::pi * own / rate.hertz;
            if (own < rate.hertz * 0.45) value += timbre.partials[p] * std::sin(phases[p]);
        }
        const double attack = std::min(1.0, time / 0.004);
        sound[i] = static_cast<float>(0.25 / std::max(1.0, sum / 2) * attack * value);
    }
    return sound;
}

} // namespace earwright::tests
