// One unbroken stretch of playing: started at a place with a speed and a pitch, rendered ahead by the worker.
#pragma once

#include "core/engine/ClickPart.h"
#include "core/engine/FrameRing.h"
#include "core/engine/HeldPart.h"
#include "core/engine/Lead.h"
#include "core/engine/LevelMatch.h"
#include "core/engine/RecordPart.h"
#include "core/engine/TakePart.h"
#include "core/engine/TimeTags.h"
#include "core/engine/WrittenPart.h"

#include <algorithm>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace earwright {

/// A seek or a change of speed, pitch or loop starts another lane and fades over to it, so nothing that waits
/// in the ring has to be drained first. So does a pass of a loop that differs from the one before.
///
/// Threads: the worker starts and fills a lane. The callback takes frames from ring() and reads the rest,
///   which stays as it is from being handed over until the worker gets the lane back.
class Lane {
public:
    struct Start {
        RecordStart record;
        NoteList notes;
        BeatList beats = beatListOf({});
        /// What comes before the record sounds.
        Lead lead;
        /// Output frames by which the lane begins before its time, to be faded in over the lane before: the
        /// record sounds in them already, as it does before its start.
        std::int64_t early = 0;
        /// The speed set; the record's own may be that of a turn in trade.
        double reachedSpeed = 1;
        /// Heard in place of the written notes; null for none.
        std::shared_ptr<const TakePlayback> take;
        /// Added to the written notes besides the record's own transposition, in semitones.
        double tuning = 0;
        std::int64_t firstPass = 0;
        /// Playing stops where this recording frame is reached; nothing plays round the loop for ever.
        std::optional<Frames> end;
        /// The sound of record.from is sustained; nothing else sounds and no time passes.
        bool isHeld = false;
        /// Shared by lanes that follow each other; a lane on its own brings one.
        std::shared_ptr<LevelMatch> levels;
        /// The lane does not go on where the one before was.
        bool isElsewhere = false;
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
    void setBeats(const BeatList& beats) { clicks.setBeats(beats); }

    FrameRing& ring() { return waiting; }
    const FrameRing& ring() const { return waiting; }
    const TimeTags& tags() const { return places; }
    SampleRate rate() const { return outputRate; }
    std::uint64_t wish() const { return answered; }
    /// Played ÷ original.
    double speed() const { return playedSpeed; }
    double reachedSpeed() const { return setSpeed; }
    /// The lane frame from which the lane is what is heard; before, it is only faded in.
    std::int64_t ownFrom() const { return earlyFrames; }
    /// What is left of the lead from a lane frame on.
    Lead leadLeftAt(std::int64_t laneFrame, double stretch) const;
    Stage leadStage() const { return lead.stage; }
    /// Output frames of a beat of the lead.
    double leadBeatFrames() const { return std::max(1.0, lead.beatSeconds * outputRate.hertz); }
    double semitones() const { return transposed; }
    /// The lane frame at which playing stops; a very large number for never.
    std::int64_t endFrame() const { return stopAt; }
    bool isStarted() const { return started; }
    bool isHeld() const { return holding; }

private:
    void startParts(const Start& wanted);
    void startHeld(const Start& start);
    void renderBlock();
    void renderRecord(std::span<float> samples);
    void renderWritten();
    void renderTake();
    std::size_t framesBefore(std::int64_t laneFrame) const;
    float riseAt(std::int64_t frame) const;

    RecordPart record;
    HeldPart held;
    WrittenPart written;
    ClickPart clicks;
    std::shared_ptr<LevelMatch> levels;
    double yoursGain = 1;
    Lead lead;
    TakePart take;
    FrameRing waiting;
    TimeTags places;
    SampleRate outputRate;
    std::int64_t stopAt = 0;
    std::int64_t earlyFrames = 0;
    /// The lane frame from which the record sounds, and how far it is faded in from there.
    std::int64_t soundsFrom = 0;
    std::int64_t fadeFrames = 0;
    std::int64_t rendered = 0;
    double playedSpeed = 1;
    double setSpeed = 1;
    std::uint64_t answered = 0;
    double transposed = 0;
    bool started = false;
    bool holding = false;
    std::vector<float> recordBlock;
    std::vector<float> writtenBlock;
    std::vector<float> clickBlock;
    std::vector<float> countedBlock;
    std::vector<SoundFrame> block;
};

} // namespace earwright
