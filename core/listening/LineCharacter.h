// How the tone of a line is made.
#pragma once

namespace earwright {

/// It decides what a note that is begun anew sounds like beside one that is slurred.
enum class LineCharacter {
    Unknown,
    /// Guitars, basses: picked anew, or hammered, pulled or slid to.
    Plucked,
    /// Winds: tongued or slurred.
    Blown,
    /// Bowed or sung: begun anew, or bound to the note before.
    Held
};

inline constexpr int lineCharacterCount = 4;

} // namespace earwright
