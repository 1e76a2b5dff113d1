// How beats are gathered into bars.
#pragma once

#include "core/time/Beats.h"

#include <cstdint>

namespace earwright {

/// A time signature; the beat is its lower number. Bars are numbered from 1, and bar 1 starts at beat 0.
struct Meter {
    int beatsPerBar = 4;
    int beatUnit = 4;

    friend bool operator==(const Meter&, const Meter&) = default;

    /// Whether its eighths or shorter units go in threes: 3/8, 6/8, 12/16.
    bool goesInThrees() const { return beatUnit >= 8 && beatsPerBar % 3 == 0; }
    /// How many of its units are counted as one beat: three where they go in threes (6/8, 9/8, 12/8: the
    /// dotted quarter is counted, common practice), but for a bar of three, else one.
    int unitsPerCount() const { return goesInThrees() && beatsPerBar > 3 ? 3 : 1; }
    Beats barLength() const { return Beats(beatsPerBar); }
    Beats barStart(std::int64_t bar) const { return Beats((bar - 1) * beatsPerBar); }
    /// The bar a place lies in; the pickup bar before bar 1 is bar 0.
    std::int64_t barOf(const Beats& place) const {
        const std::int64_t beat = place.floor();
        const std::int64_t quotient = beat / beatsPerBar;
        return (beat % beatsPerBar < 0 ? quotient - 1 : quotient) + 1;
    }
    /// Beats into its bar, in [0, beatsPerBar); musicians count one more.
    Beats withinBar(const Beats& place) const { return place - barStart(barOf(place)); }
};

} // namespace earwright
