// Hears notes one after the other as they are played or sung alone, while they sound.
#pragma once

#include "core/listening/TonePitch.h"
#include "core/time/SampleRate.h"

#include <cstddef>
#include <deque>
#include <optional>
#include <span>
#include <vector>

namespace earwright {

/// A note is one that keeps its pitch for 120 ms: within 70 cents of its middle, so that vibrato does not
/// break it. What begins is not listened to for its first 30 ms. It is heard again at the same pitch once it
/// was struck anew (8 dB louder within 60 ms) or was silent in between. What is not three times as loud as
/// the quietest moment so far, between −60 and −30 dBFS, is the room; the first 0.3 s only tell how quiet
/// that is.
///
/// Threads: one at a time. Units: samples of one channel, −1 to 1.
class NoteEar {
public:
    /// `centsOfA`: how far the A of who plays lies above 440 Hz. Requires: at least 8,000 Hz.
    explicit NoteEar(SampleRate rate, double centsOfA = 0);

    /// The notes that became steady, in order: MIDI numbers with their fractions, 69 being that A.
    std::vector<double> give(std::span<const float> samples);
    /// What sounds now, steady or not, by that A as well.
    std::optional<TonePitch> sounding() const { return now; }

private:
    std::optional<double> hop();
    double level() const;
    /// Above the room.
    bool isLoud(double level);
    void noticeOnset(double level);
    std::optional<double> noteOf(const TonePitch& tone);
    double middle() const;
    void startAgain();

    SampleRate rate;
    double semitonesOfA;
    /// Of several samples at a high rate their mean is taken.
    std::size_t merged;
    double mergedSum = 0;
    std::size_t mergedCount = 0;
    std::size_t hopLength;
    /// The last window of samples.
    std::vector<float> recent;
    std::size_t sinceHop = 0;
    std::size_t hops = 0;
    /// Of the last 60 ms.
    std::deque<double> levels;
    double quietest = 1;
    std::size_t sinceOnset = 0;
    std::size_t unclear = 0;
    std::size_t silent = 0;
    /// Pitches away from the run, one after the other.
    std::vector<double> aside;
    std::deque<double> run;
    /// The semitone heard last, until it may be heard again.
    std::optional<double> last;
    std::optional<TonePitch> now;
};

} // namespace earwright
