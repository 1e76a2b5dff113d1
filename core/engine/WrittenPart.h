// The written notes as they are heard beside the record, in output time and so never smeared.
#pragma once

#include "core/engine/TimeTags.h"
#include "core/engine/TimedNote.h"
#include "core/engine/VoiceBank.h"
#include "core/time/Range.h"
#include "core/time/SampleRate.h"

#include <memory>
#include <span>
#include <vector>

namespace earwright {

/// Sorted by onset, then pitch.
using NoteList = std::shared_ptr<const std::vector<TimedNote>>;

/// A sorted copy that can be shared.
NoteList noteListOf(std::vector<TimedNote> notes);
/// Whether what is written for a stretch of the recording is not the same in both; notes that reach into it
/// count.
bool differWithin(const NoteList& one, const NoteList& other, const Range<Frames>& places);

/// Plays a list of notes along the tags of a lane: a note sounds in the output frame whose tag is its onset.
///
/// Threads: one at a time (the engine's worker).
class WrittenPart {
public:
    struct Start {
        TimeTags tags;
        /// Played ÷ original.
        double speed = 1;
        /// Added to every note's MIDI number: transposition, fine tuning.
        double semitones = 0;
        SampleRate recordingRate;
        SampleRate outputRate;
    };
    /// Starts where the lane's lead ends. Notes begun before it sound on as if they had been played all
    /// along.
    void start(const Start& start, NoteList notes);
    /// Another list from here on; what sounds now sounds to its end.
    void setNotes(NoteList notes);
    /// Adds the next frames, mono.
    void produce(std::span<float> out);
    /// A note begun before the start sounds there.
    bool beganInANote() const { return inANote; }

private:
    /// The next thing to happen, by unrolled distance from the start.
    struct Event {
        double at = 0;
        bool isPassEnd = false;
    };
    Event nextEvent() const;
    void happen(const Event& event);
    void findNext(double unrolled);
    double onsetDistance(const TimedNote& note) const;
    void soundBefore();
    StringGesture gestureOf(const TimedNote& note) const;

    Start now;
    NoteList list;
    VoiceBank bank;
    std::int64_t at = 0;
    std::int64_t passesOn = 0;
    std::size_t next = 0;
    bool inANote = false;
};

} // namespace earwright
