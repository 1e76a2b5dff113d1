// What a finger does with a string: which pitch it sounds at each moment of a note.
#pragma once

#include "core/engine/Stroke.h"

#include <array>
#include <cstddef>

namespace earwright {

/// One note as a string plays it. Pitches are MIDI numbers and may lie between keys; times are seconds of the
/// listener's clock from the onset of the note.
///
/// Threads: a plain value without memory of its own, so that it can be handed to the audio callback.
struct StringGesture {
    // How long what comes before a note's own pitch takes at full speed, as guitarists and horn players take
    // it at medium tempo (common practice).
    static constexpr double graceSeconds = 0.06;
    static constexpr double slideInSeconds = 0.09;
    static constexpr double scoopSeconds = 0.14;

    Stroke stroke = Stroke::Picked;
    /// Which of the notes that sound together it is, from 0: a slurred one goes on from the last of its
    /// voice.
    std::size_t voice = 0;
    double pitch = 60;
    /// 0 to 1.
    double loudness = 0.6;
    double seconds = 0.5;
    /// Semitones from its pitch at which the note starts and ends; it glides in and out.
    double slideIn = 0;
    double slideOut = 0;
    /// Semitones to the other note of a trill; 0 for none.
    double trill = 0;
    /// The glides are those of a scoop and of a fall, which take longer.
    bool scoop = false;
    bool fall = false;
    bool vibrato = false;
    /// Semitones pulled up at the start, in the middle and at the end.
    std::array<double, 3> bend{};
    /// Semitones from the pitch touched quickly, one after the other, before it settles.
    std::array<double, 5> figure{};
    std::size_t figureCount = 0;
    std::array<double, 8> grace{};
    std::size_t graceCount = 0;
    /// Listener's seconds a second of the recording takes: ornaments slow down with the record.
    double stretch = 1;

    /// The pitch that sounds at a time after the onset.
    double pitchAt(double time) const;
    /// How many notes a finger has touched by then since the first: those of grace notes, figure and trill.
    std::size_t touchAt(double time) const;
    /// When the main note begins, after its grace notes, which steal their time from it.
    double mainStart() const;

private:
    double eachOfFigure(double length) const;
    double figureAt(double inMain, double length) const;
    double slidesAt(double inMain, double length) const;
    double bendAt(double inMain, double length) const;
    double vibratoAt(double inMain, double length) const;
};

} // namespace earwright
