// The written notes as a Standard MIDI File (Standard MIDI Files 1.0, MIDI Manufacturers Association).
#pragma once

#include "core/exchange/MidiTrack.h"
#include "core/result/Result.h"
#include "core/study/PlayedNote.h"
#include "core/study/Study.h"

#include <optional>
#include <string>

namespace earwright {

struct MidiOptions {
    /// Notes of a swung passage stand where they are played (playedBeat); else even, as on the page.
    bool swings = true;
    /// Quarters a minute, one tempo throughout; none for that of the beat marks, or of the page without.
    std::optional<double> tempo;
};

/// The line of pageLine(), format 0 with one track, channel 1. With it go title, keys and meters, the tempo
/// between the beat marks, chord symbols, words and how it swings as text, and the notes with velocity from
/// loudness, accent, ghost and the dynamics over them. Time 0 is where pageBars() begins; ticks hold every
/// written place exactly. Grace notes take a thirty-second each from their note, in slow music 80 ms, and
/// together no more than a third of it; so do the notes of turns and mordents. The notes of a trill are of
/// one length, as long or a little shorter, at least four. None of these swings; the note they belong to
/// does. Slides, bends, scoops, falls and vibrato are pitch bends, whose range the file sets to an octave
/// either way; of a double stop those of the lowest note. Staccato and what is let ring last as the voice
/// plays them (soundingLength), and repeats are played once. Notes that were measured come when, as long and
/// as loud as they were heard; what leads up to such a note comes before it.
///
/// Error: OutOfRange of pageBars(). Threads: any.
Result<std::string> standardMidi(const Study& study, const MidiOptions& options = {},
                                 const PlayedNotes& played = {});

} // namespace earwright
