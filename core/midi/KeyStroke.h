// A key of a MIDI keyboard going down or coming up, and the messages that tell so.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>

namespace earwright {

/// What the player did, and when it was told.
struct KeyStroke {
    enum class Kind {
        Down,
        Up,
        AllUp, ///< every key is up, whichever were down
    };
    Kind kind = Kind::Down;
    /// 0 to 127, 60 is middle C; 0 where all are up.
    int midi = 0;
    /// How hard, 1 to 127 going down, 0 to 127 coming up; 64 where the keyboard does not feel it.
    int velocity = 64;
    std::chrono::steady_clock::time_point at;
    friend bool operator==(const KeyStroke&, const KeyStroke&) = default;
};

/// What one whole message says of keys, on whatever channel: note on, note off, a note on of velocity 0,
/// which is a note off, and all that lets every note go (all notes off and the mode messages that imply it,
/// all sound off, system reset). Nothing for other messages, for incomplete ones and for bytes that are none.
/// Status is expected in each message; a port resolves running status. Threads: any.
/// Source: MIDI 1.0 Detailed Specification, Tables I to III.
std::optional<KeyStroke> keyStrokeOf(std::span<const std::uint8_t> message,
                                     std::chrono::steady_clock::time_point at);

} // namespace earwright
