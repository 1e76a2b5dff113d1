// How far a record has to be moved so that its own A is the reference A.
#pragma once

#include <algorithm>
#include <cmath>

namespace earwright::ui {

/// The A that musicians agree on. 440 Hz by ISO 16; 415 and 466 are a semitone to either side of it, as early
/// music uses them (common practice).
struct ReferenceA {
    static constexpr int lowest = 415;
    static constexpr int highest = 466;
    static constexpr int usual = 440;

    int hertz = usual;
    friend bool operator==(const ReferenceA&, const ReferenceA&) = default;

    /// Above 440 Hz.
    double cents() const { return 1200 * std::log2(hertz / 440.0); }
};

/// In whole cents, of which all beyond a semitone is carried over into semitones.
struct TuningShift {
    int semitones = 0;
    int cents = 0;
    friend bool operator==(const TuningShift&, const TuningShift&) = default;

    /// For a record whose A lies so many cents above 440 Hz. An estimate is good to a cent or two: what is
    /// not worth moving is 0.
    static TuningShift between(double recordCents, const ReferenceA& reference) {
        constexpr int withinTune = 2;
        constexpr int mostCents = 100;
        const int total = static_cast<int>(std::lround(reference.cents() - recordCents));
        if (std::abs(total) <= withinTune) return {};
        const int carried = total > mostCents ? 1 : total < -mostCents ? -1 : 0;
        return {carried, std::clamp(total - 100 * carried, -mostCents, mostCents)};
    }
    int total() const { return 100 * semitones + cents; }
};

} // namespace earwright::ui
