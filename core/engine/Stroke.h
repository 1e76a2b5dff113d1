// How a note is set going.
#pragma once

namespace earwright {

enum class Stroke {
    Picked,
    /// Under a slur, and yet the first of its string.
    Soft,
    /// Without a pick, from the note before.
    Slurred,
    /// The same by a hammer-on or pull-off, which speaks more clearly.
    Hammered
};

} // namespace earwright
