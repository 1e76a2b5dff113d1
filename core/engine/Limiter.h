// Keeps what leaves the program below full scale.
#pragma once

#include "core/time/SampleRate.h"

namespace earwright {

/// A peak limiter without look-ahead, both channels alike: what stays below full scale passes untouched; what
/// is above is turned down at once and let up again over 0.2 s.
/// Real time: everything.
class Limiter {
public:
    void setRate(SampleRate rate);
    void apply(float& left, float& right);
    /// It is turning down now.
    bool isActive() const { return gain < 0.999f; }

private:
    float gain = 1;
    float recovery = 1e-4f;
};

} // namespace earwright
