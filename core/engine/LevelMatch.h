// Brings the written notes to the loudness of the record beside them.
#pragma once

#include "core/engine/FrameRing.h"
#include "core/engine/KWeighting.h"
#include "core/engine/Power.h"
#include "core/engine/RecordLevel.h"
#include "core/engine/TakePlayback.h"
#include "core/engine/TimeTags.h"
#include "core/sound/Recording.h"
#include "core/time/SampleRate.h"

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>

namespace earwright {

/// Both are measured beside the playback, whatever is heard: the record as it was made (RecordLevel), the
/// written notes as they are rendered. The notes are brought to 2 dB below the record's usual K-weighted
/// power, by at most 3 dB a second, so that nothing pumps; while the record or the notes pause, all stays as
/// it is. Each frame also gets the power that what is heard is to be measured by (see LoudnessGuard).
///
/// Threads: one at a time (the engine's worker). Reads the disk.
class LevelMatch {
public:
    /// At the start of a lane: what has been learned of the written notes stays. `elsewhere`: the lane does
    /// not go on where the last one was, so the level may jump.
    void start(std::shared_ptr<Recording> recording, SampleRate outputRate, bool elsewhere);
    /// After start(): what the lane has in place of the written notes, null for the notes themselves. How
    /// loud another take is, is measured in its file beforehand, near the recording's frame `from`.
    void take(const std::shared_ptr<const TakePlayback>& played, Frames from);
    /// Sets the level of the written notes in `frames`, whose first is lane frame `first`, and the frames'
    /// reference. `laneGain` is what this lane multiplies them with, and moves on: two lanes may be rendered
    /// in turns, and neither is to step.
    void apply(std::span<SoundFrame> frames, const TimeTags& tags, std::int64_t first, double& laneGain);
    /// What a lane multiplied the notes or the take with last, linear; one that starts goes on from there.
    double gain() const { return yoursGain; }
    /// For written notes that are heard beside whatever the lane plays, linear.
    double notesGain() const { return taken ? aim(usualNotes) : yoursGain; }
    /// The power that the sound of a place is measured by.
    Power referenceAt(Frames place);

private:
    void setRate(SampleRate rate);
    void hear(float yours);
    void endStep();
    double aim(double usual) const;
    std::optional<double> usualOf(const TakePlayback& played, Frames from) const;

    std::shared_ptr<Recording> recording;
    RecordLevel recordLevel;
    SampleRate rate{0};
    KWeighting weighting;
    std::shared_ptr<const TakePlayback> taken;
    /// K-weighted power of the written notes or the take on one ear while they sound; and of the notes alone,
    /// as it was before the take.
    double usualYours = 0;
    double usualNotes = 0;
    /// The greatest momentary power lately, against which a pause is told.
    double lately = 0;
    Power usualRecord;
    /// Weighted power of the last four tenths of a second.
    std::array<double, 4> steps{};
    std::size_t newest = 0;
    double stepSum = 0;
    std::int64_t stepFrames = 4800;
    std::int64_t inStep = 0;
    double yoursGain = 1;
    bool jumps = true;
    Power reference;
    Frames referenceFor{-1};
};

} // namespace earwright
