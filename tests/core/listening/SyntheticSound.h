// Sounds put together from sines, whose pitches and onsets are known because we set them.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/listening/LogAxis.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright::tests {

inline Seconds operator""_s(long double seconds) {
    return Seconds(static_cast<double>(seconds));
}

/// Silence of a length at analysisRate.
std::vector<float> silence(Seconds length);
/// Adds a plucked tone: partials 1 to 10 falling off as 1/h, 6 ms of attack, dying away at 8 dB a second,
/// 20 ms of release. Fractions of a MIDI number are cents.
void addTone(std::vector<float>& sound, Range<Seconds> range, double midi, float level = 0.2f);
/// Adds noise of an even spectrum with a fixed seed.
void addNoise(std::vector<float>& sound, float level);
/// Frequency of a MIDI number in equal temperament on A4 = 440 Hz (ISO 16).
double hertzOf(double midi);

} // namespace earwright::tests
