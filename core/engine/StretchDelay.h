// How far attacks stand away from where the ratio alone would put them, at each speed and transposition.
#pragma once

namespace earwright {

/// Frames of source (44.1 or 48 kHz) by which RubberBand 3.1's finer engine brings an attack too early (above
/// zero) or too late, once its own start delay is taken off. It resets phases a few milliseconds ahead of an
/// attack, which the stretch then magnifies; by how much depends on pitch scale ÷ speed alone. Measured as
/// the median over clicks (tests/reference/stretch); between the measured points by straight lines. speed 0.1
/// to 2, semitones −13 to 13.
double attackAdvance(double speed, double semitones);

/// The measured points stand at ratios 2^(i/12), i from first to last.
inline constexpr int attackTableFirst = -25;
inline constexpr int attackTableLast = 53;

} // namespace earwright
