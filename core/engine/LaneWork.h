// Which lane sounds when, and that it is there in time: everything between the wishes and the callback.
#pragma once

#include "core/engine/Lane.h"
#include "core/engine/Mixer.h"
#include "core/engine/Wanted.h"

#include <array>
#include <cstdint>
#include <memory>
#include <optional>

namespace earwright {

/// A wish starts a lane that takes over a moment later, wherever the sound is. A pass that differs from the
/// one before – after a gap, at another speed – is a lane made ready beforehand, which takes over at the seam
/// to the frame; it gives way to any wish, but that a gap about to begin is never left out: what comes so
/// late in a pass is heard after it.
///
/// Threads: one at a time (the engine's worker); the callback meanwhile renders the mixer.
class LaneWork {
public:
    explicit LaneWork(std::shared_ptr<Mixer> mixer);

    /// Changes what is wanted; done by the next step.
    template <class Change>
    void change(Change&& change) {
        const NoteList notes = wanted.notes;
        const BeatList beats = wanted.beats;
        change(wanted);
        handOn(notes, beats);
    }
    /// Does what is due; at most some 20 ms of work. True when there is enough of everything for now.
    bool step();

private:
    /// Where the next lane begins, and at which frame of the active one.
    struct Place {
        Frames from;
        std::int64_t pass = 0;
        std::int64_t joinsAt = 0;
        /// 0: at once.
        std::int64_t switchAt = 0;
        /// The active one was not on its way there.
        bool isElsewhere = false;
    };
    void handOn(const NoteList& notesBefore, const BeatList& beatsBefore);
    bool isWaiting(const NoteList& notesBefore) const;
    void carryOutWishes();
    bool fillLanes();
    void noticeTurn();
    void noticeEnd();
    void noticeRate();
    void noticeReplan();
    void withdrawSeam();
    void startLane();
    void planSeam();
    bool orderSeam(std::int64_t pass, LanePlayer::Turn turn);
    bool isSeamDue() const;
    std::optional<std::int64_t> passBeforeGap() const;
    void prime(Lane& lane, std::int64_t switchAt) const;
    Lane::Start laneOf(std::int64_t pass) const;
    Lane::Start nextStart(std::int64_t& switchAt);
    Place nextPlace() const;
    void holdIn(Lane::Start& start) const;
    Lane& spareLane() { return lanes[active == &lanes[0] ? 1 : 0]; }

    std::shared_ptr<Mixer> mixer;
    Wanted wanted;
    std::shared_ptr<LevelMatch> levels = std::make_shared<LevelMatch>();
    std::array<Lane, 2> lanes;
    /// The lane that sounds.
    Lane* active = nullptr;
    /// The one ordered to follow it, until it has, and where.
    Lane* upcoming = nullptr;
    std::int64_t upcomingAt = 0;
    bool upcomingIsSeam = false;
};

} // namespace earwright
