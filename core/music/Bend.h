// A string pulled aside so that its pitch rises.
#pragma once

namespace earwright {

/// What a bent note does from its onset to its end.
enum class BendShape {
    Up,          ///< struck at its written pitch, pulled up
    UpAndDown,   ///< struck at its written pitch, pulled up and let down again
    PrebentHeld, ///< pulled up before it is struck, and held
    PrebentDown, ///< pulled up before it is struck, and let down
};

/// The written pitch is the one that is fingered; the bend goes up from there.
struct Bend {
    /// How far up, in quarter tones: 1 (a blues curl) to 8 (two whole tones); 4 is a whole tone.
    int quarterTones = 4;
    BendShape shape = BendShape::Up;

    friend bool operator==(const Bend&, const Bend&) = default;
    double semitones() const { return quarterTones / 2.0; }
};

inline constexpr int widestBend = 8;

} // namespace earwright
