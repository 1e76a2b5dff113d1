// The pitch of one tone that sounds alone.
#pragma once

#include "core/time/SampleRate.h"

#include <cstddef>
#include <optional>
#include <span>

namespace earwright {

struct TonePitch {
    /// MIDI number with its fraction, at A4 = 440 Hz.
    double midi = 69;
    /// How nearly the sound repeats itself after one period: 0 (noise) to 1.
    double clarity = 0;
};

/// The lowest tone that is told, a little below E1, and the highest, a little above C7.
inline constexpr double lowestTone = 39;
inline constexpr double highestTone = 2200;

/// Samples that are needed at a rate, 51 ms: 25 are compared with as many later ones.
std::size_t toneWindow(SampleRate rate);

/// The pitch of the last toneWindow() samples of one channel, by steps 1 to 5 of A. de Cheveigné and
/// H. Kawahara, "YIN, a fundamental frequency estimator for speech and music", JASA 111 (2002): the shortest
/// lag whose normalised difference has a dip below 0.12, else the deepest dip, refined by a parabola.
/// Nothing for silence, and where there are fewer samples. Threads: any. Takes about 0.3 ms.
std::optional<TonePitch> tonePitch(std::span<const float> samples, SampleRate rate);

} // namespace earwright
