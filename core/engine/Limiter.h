// Keeps what leaves the program below full scale.
#pragma once

#include "core/time/SampleRate.h"

namespace earwright {

/// A peak limiter without look-ahead, both channels alike: what stays below full scale passes untouched; what
/// is above is turned down at once and let up again over 0.2 s. For mixtures there is a softer way: what is
/// above −1 dBFS bends towards full scale (a hyperbolic tangent, smooth at the bend), and only what is 1.2 dB
/// beyond it is turned down.
/// Real time: everything.
class Limiter {
public:
    void setRate(SampleRate rate);
    /// `softness`, 0 to 1: how far the softer way is gone.
    void apply(float& left, float& right, float softness = 0);
    /// It is turning down now.
    bool isActive() const { return gain < 0.999f; }

private:
    float gain = 1;
    float recovery = 1e-4f;
};

} // namespace earwright
