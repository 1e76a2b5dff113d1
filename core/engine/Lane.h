// One unbroken stretch of playing: started at a place with a speed and a pitch, rendered ahead by the worker.
#pragma once

#include "core/engine/FrameRing.h"
#include "core/engine/RecordPart.h"
#include "core/engine/TimeTags.h"
#include "core/engine/WrittenPart.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace earwright {

/// A seek or a change of speed, pitch or loop starts another lane and fades over to it, so nothing that waits
/// in the ring has to be drained first.
///
/// Threads: the worker starts and fills a lane. The callback takes frames from ring() and reads the rest,
///   which stays as it is from being handed over until the worker gets the lane back.
class Lane {
public:
    struct Start {
        RecordStart record;
        NoteList notes;
        /// Added to the written notes besides the record's own transposition, in semitones.
        double tuning = 0;
        std::int64_t firstPass = 0;
        /// Playing stops where this recording frame is reached; nothing plays round the loop for ever.
        std::optional<Frames> end;
        /// Which wish of the user this lane answers.
        std::uint64_t wish = 0;
    };

    Lane();

    /// Worker: begins anew. Requires: the callback does not hold this lane.
    void start(const Start& start);
    /// Worker: renders until at least this many frames wait; at most about 20 ms of work a call when `brief`.
    /// Returns true when they do.
    bool fill(std::size_t frames, bool brief);
    void setNotes(const NoteList& notes) { written.setNotes(notes); }

    FrameRing& ring() { return waiting; }
    const FrameRing& ring() const { return waiting; }
    const TimeTags& tags() const { return places; }
    SampleRate rate() const { return outputRate; }
    std::uint64_t wish() const { return answered; }
    /// The lane frame at which playing stops; a very large number for never.
    std::int64_t endFrame() const { return stopAt; }
    bool isStarted() const { return started; }

private:
    void renderBlock();

    RecordPart record;
    WrittenPart written;
    FrameRing waiting;
    TimeTags places;
    SampleRate outputRate;
    std::int64_t stopAt = 0;
    std::uint64_t answered = 0;
    bool started = false;
    std::vector<float> recordBlock;
    std::vector<float> writtenBlock;
    std::vector<SoundFrame> block;
};

} // namespace earwright
