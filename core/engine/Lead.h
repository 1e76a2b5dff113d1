// Beats without the record, ahead of where it begins to sound: a count-in, or the gap between two passes.
#pragma once

#include "core/engine/BeatPlace.h"
#include "core/engine/Stage.h"
#include "core/time/Frames.h"
#include "core/time/SampleRate.h"

#include <vector>

namespace earwright {

/// A click in a lead.
struct LeadClick {
    /// Listener's seconds before the record begins.
    double before = 0;
    bool opensBar = false;
};

/// A plain value. Times are the listener's seconds; speed is played ÷ original.
struct Lead {
    Stage stage = Stage::Sounding;
    double seconds = 0;
    double beatSeconds = 0;
    /// Earliest first.
    std::vector<LeadClick> clicks;

    /// What is left of it so many seconds before its end, and then takes `stretch` times as long.
    Lead rest(double left, double stretch) const;

    /// Without a beat map a beat is half a second of the recording: 120 to the minute, the tempo MIDI files
    /// without one have (Standard MIDI Files 1.0, set tempo).
    static constexpr double usualBeatSeconds = 0.5;

    /// So many beats after a loop's end, in the tempo before it; its clicks go on where the beats of the map
    /// are. Nothing for 0 beats.
    static Lead gap(const BeatList& beats, Frames loopEnd, int count, SampleRate rate, double speed);
    /// So many clicks before a place, on the beats that the map has or would have there in the tempo of that
    /// place. Lasts as many beats; where the place lies a little behind a beat, that little longer. Nothing
    /// for 0 beats.
    static Lead countIn(const BeatList& beats, Frames place, int count, SampleRate rate, double speed);
};

} // namespace earwright
