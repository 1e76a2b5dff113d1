// Which lane sounds when, and that it is there in time: everything between the wishes and the callback.
#pragma once

#include "core/engine/Lane.h"
#include "core/engine/LoopSeam.h"
#include "core/engine/Mixer.h"
#include "core/engine/Wanted.h"

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace earwright {

/// A wish starts a lane that takes over a moment later, wherever the sound is. A pass that differs from the
/// one before – after a gap, at another speed – is a lane made ready beforehand, which takes over at the seam
/// to the frame, and gives way to any wish. Neither a gap nor the speed of a pass is left out for a wish that
/// comes shortly before: where there is time for one lane only, that one carries out both, at the seam.
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
    /// The end of the pass that sounds, where the next has to be another lane; as it was when it was looked
    /// at, for the callback goes on meanwhile. In frames of the lane that sounds.
    struct SeamAhead {
        std::int64_t pass = 0;
        bool isGap = false;
        std::int64_t end = 0;
        /// From then to the end.
        std::int64_t left = 0;
        /// How long before the end a lane that takes over there has to be ordered; and one that sounds until
        /// then, so that both have their time.
        std::int64_t neededForOne = 0;
        std::int64_t neededForTwo = 0;
        bool hasTimeForOne() const { return left >= neededForOne; }
        bool hasTimeForTwo() const { return left >= neededForTwo; }
    };
    void startLane(const std::optional<SeamAhead>& seam);
    void planSeam();
    Range<std::int64_t> joinsToPlan(const Lane& lane) const;
    void orderSeam(const Lane& before, std::int64_t pass, LanePlayer::Turn turn);
    void prime(Lane& lane, const Lane* before, std::int64_t switchAt) const;
    std::optional<SeamAhead> seamAhead() const;
    bool goesElsewhere() const;
    bool isSeamOrdered() const { return !coming.empty() && coming.back().isSeam; }
    Lane::Start laneOf(std::int64_t pass) const;
    Lane::Start nextStart(const std::optional<SeamAhead>& seam, std::int64_t& switchAt);
    Place nextPlace(const std::optional<SeamAhead>& seam) const;
    void holdIn(Lane::Start& start) const;
    LoopSeam seamOf(const Lane& lane) const;
    Lane& spareLane();
    Lane* last() const { return coming.empty() ? active : coming.back().lane; }

    std::shared_ptr<Mixer> mixer;
    Wanted wanted;
    std::shared_ptr<LevelMatch> levels = std::make_shared<LevelMatch>();
    std::array<Lane, LanePlayer::mostWaiting + 1> lanes;
    /// The lane that sounds.
    Lane* active = nullptr;
    /// A lane that is ordered, until it has its turn.
    struct Coming {
        Lane* lane = nullptr;
        /// In frames of the lane before it; 0: at once.
        std::int64_t at = 0;
        bool isSeam = false;
        /// It carries out a wish, which is open again where it is taken back.
        bool answers = false;
    };
    std::vector<Coming> coming;
};

} // namespace earwright
