// The distances of the desk, so that its parts stand in one rhythm.
#pragma once

namespace earwright::ui::spacing {

// Device-independent pixels.
inline constexpr int hair = 2;
inline constexpr int tight = 4;
inline constexpr int small = 8;
inline constexpr int medium = 12;
inline constexpr int large = 20;
inline constexpr int wide = 32;

/// Corners of panels and pages.
inline constexpr int corner = 6;
/// Radius of a note head of ordinary loudness.
inline constexpr double headRadius = 5.5;
/// Width of bar lines and of the playhead.
inline constexpr double barLine = 1.5;

} // namespace earwright::ui::spacing
