// The owner's side of the engine: what was wished for last, and the parts that carry it out.
#pragma once

#include "core/engine/Engine.h"
#include "core/engine/EngineWorker.h"
#include "core/engine/HeardLog.h"
#include "core/engine/Input.h"
#include "core/engine/Mixer.h"
#include "core/engine/OutputDevice.h"

#include <cstdint>
#include <memory>
#include <optional>

namespace earwright {

/// Numbers the wishes, and tells what is heard of them and what is not yet. The parts go in reverse order:
/// first the devices, then the worker, then the mixer all feed.
///
/// Threads: the engine's owner only. Units: places in frames of the recording, `frame` in output frames.
class Engine::Body {
public:
    explicit Body(const Options& options);

    /// What is heard now, of this recording; nothing as long as it is of the one before.
    std::optional<HeardSegment> heardSegment();
    /// Never steps back.
    OutputFrames heardFrame();
    Frames placeOf(const HeardSegment& segment, OutputFrames frame) const;
    /// The pass heard now, counted from the last seek or change of the loop.
    std::int64_t rawPass();
    /// Fills in what a segment says of a frame.
    void tell(const HeardSegment& segment, OutputFrames frame, Heard& heard) const;

    /// Passes are told, and turns of the trade taken, from this one on.
    void countPassesFrom(std::int64_t pass);
    void tradeFrom(std::int64_t pass);
    /// A new wish. From standing still, nothing sounds before it is answered.
    std::uint64_t wishFor();
    /// A new wish for another place.
    std::uint64_t jumpTo(Frames place);
    /// What was held no longer is; whoever calls has to tell the worker.
    void letGo();

    std::shared_ptr<Mixer> mixer = std::make_shared<Mixer>();
    EngineWorker worker;
    OutputDevice device;
    Input input{mixer};

    std::shared_ptr<Recording> recording;
    std::optional<Range<Frames>> loop;
    /// As wished for or, where the speed has climbed since, as told by now().
    Playing playing;
    int countIn = 0;
    bool trading = false;
    /// Lanes answering older wishes play another recording, or another place than the one wished for.
    std::uint64_t recordingWish = 0;
    std::uint64_t jumpWish = 0;
    /// Lanes answering older wishes number their passes from another beginning, or have another speed.
    std::uint64_t passWish = 0;
    std::uint64_t speedWish = 0;
    Frames jumpPlace;
    OutputFrames lastHeard;
    /// Cents.
    double tuning = 0;
    bool holding = false;
    /// As given last, for what is given again changes nothing.
    std::optional<TakePlayback> take;

private:
    std::int64_t rawPassOf(const HeardSegment& segment, OutputFrames frame) const;

    std::uint64_t wishes = 0;
    std::int64_t passesBefore = 0;
};

} // namespace earwright
