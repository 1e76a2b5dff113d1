// Sees to it that no way of hearing is much louder than the recording was.
#pragma once

#include "core/engine/Engine.h"
#include "core/engine/FrameRing.h"
#include "core/engine/KWeighting.h"
#include "core/engine/Slew.h"
#include "core/time/SampleRate.h"

#include <array>
#include <cstddef>

namespace earwright {

/// Record and written notes are measured apart, over the last 400 ms, whether they are heard or not; so
/// it is known beforehand how loud any mixture of them is. What would be more than 2.5 dB above the
/// recording's own momentary power, plain or K-weighted (EBU Tech 3341), is turned down within 10 ms and let
/// up again over 1.5 s: the record where it is so by itself, as only slowing down or the focus can make it,
/// and otherwise the written notes. Where they get louder all at once, what was heard in the last 300 ms
/// decides what is left for the next 100.
///
/// Threads: the callback.
/// Real time: everything.
class LoudnessGuard {
public:
    void setRate(SampleRate rate);
    /// How record and notes are going to be mixed.
    void aim(Hearing hearing, bool yoursTurn);
    /// Measures a frame: the record as it is to be heard, the notes with their balance.
    void hear(const SoundFrame& frame);
    /// For the frame just heard.
    float recordGain() { return record.next(); }
    float yoursGain() { return yours.next(); }
    /// By one and a half decibels at least.
    bool isActive() const { return record.value() < holdsBack || yours.value() < holdsBack; }
    /// Once a block.
    void settle();

private:
    static constexpr float holdsBack = 0.84f;
    static constexpr std::size_t stepCount = 40;

    /// Mean squares of one weighting, both ears: of the record as it stands and folded into one ear, of the
    /// notes on one ear, and what record and notes have in common.
    struct Sums {
        double straight = 0;
        double folded = 0;
        double yours = 0;
        double common = 0;
        double reference = 0;
        /// What the mixture came to.
        double heard = 0;
        void add(float left, float right, float notes);
        Sums& operator+=(const Sums& other);
    };
    using Measured = std::array<Sums, 2>;
    struct Gains {
        double record = 1;
        double yours = 1;
    };
    /// Of the newest `count` steps.
    Sums sumOf(std::size_t weighting, std::size_t count) const;
    double recordIn(const Sums& sums) const { return straight ? sums.straight : folded ? sums.folded : 0; }
    double commonIn(const Sums& sums) const { return straight && yoursEars == 2 ? sums.common : 0; }
    Gains gainsFor(std::size_t weighting) const;
    void endStep();

    std::array<KWeighting, 3> weightings;
    std::array<Measured, stepCount> steps{};
    Measured current{};
    std::size_t newest = 0;
    /// Steps since the sound began, as far as it matters.
    std::size_t known = 0;
    int inStep = 0;
    int stepFrames = 480;
    bool straight = true;
    bool folded = false;
    int yoursEars = 0;
    Slew record{1};
    Slew yours{1};
};

} // namespace earwright
