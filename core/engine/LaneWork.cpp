#include "core/engine/LaneWork.h"

#include "core/engine/LoopSeam.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

/// Sound a new lane has before the callback is told of it.
constexpr double primedSeconds = 0.03;
constexpr int mostPrimings = 8;
/// A lane has to be ready, faded in and let go, and the next one ready before its seam.
constexpr double lateSeconds = 2 * LoopSeam::readySeconds + LanePlayer::fadeSeconds + LoopSeam::fadeSeconds;

std::size_t framesOf(double seconds, SampleRate rate) {
    return static_cast<std::size_t>(std::llround(seconds * rate.hertz));
}

} // namespace

LaneWork::LaneWork(std::shared_ptr<Mixer> toFeed) : mixer(std::move(toFeed)) {}

bool LaneWork::step() {
    noticeTurn();
    carryOutWishes();
    const bool isFilled = fillLanes();
    const Lane* last = upcoming ? upcoming : active;
    mixer->announceFilled(!last || (isFilled && last->rate() == mixer->outputRate()));
    mixer->setMatch(static_cast<float>(levels->gain()));
    return isFilled;
}

void LaneWork::handOn(const NoteList& notesBefore, const BeatList& beatsBefore) {
    // What waits in the ring still has the old notes. A lane that has the new ones is heard sooner.
    if (wanted.notes != notesBefore && isWaiting(notesBefore)) wanted.changed = true;
    for (Lane* lane : {active, upcoming}) {
        if (lane && wanted.notes != notesBefore) lane->setNotes(wanted.notes);
        if (lane && wanted.beats != beatsBefore) lane->setBeats(wanted.beats);
    }
}

/// What differs from these notes would be heard, and is rendered already.
bool LaneWork::isWaiting(const NoteList& notesBefore) const {
    if (!active || active->isHeld() || wanted.take || !mixer->hearsYours()) return false;
    const TimeTags& tags = active->tags();
    const std::int64_t taken = active->ring().taken();
    const std::int64_t written = active->ring().written();
    if (tags.passAt(taken) != tags.passAt(written)) return true;
    const Range<Frames> waiting{Frames(std::llround(std::floor(tags.placeAt(taken)))),
                                Frames(std::llround(std::ceil(tags.placeAt(written))))};
    return differWithin(notesBefore, wanted.notes, waiting);
}

void LaneWork::carryOutWishes() {
    noticeRate();
    noticeReplan();
    // What was planned for the end of the pass gives way to a wish, but for a gap that is about to begin.
    if (wanted.changed && !passBeforeGap()) withdrawSeam();
    noticeTurn();
    if (upcoming) return;
    noticeEnd();
    if (!wanted.changed)
        planSeam();
    else if (const auto pass = passBeforeGap())
        wanted.changed = !orderSeam(*pass, LanePlayer::Turn::Soon);
    else
        startLane();
}

bool LaneWork::fillLanes() {
    if (!active) return true;
    std::size_t frames = framesOf(mixer->keptAhead().seconds(), active->rate());
    if (upcoming && upcomingAt > 0) {
        // Nobody hears it past the fade.
        const std::int64_t left = upcomingAt - active->ring().taken() +
                                  static_cast<std::int64_t>(framesOf(LoopSeam::readySeconds, active->rate()));
        frames = std::min(frames, static_cast<std::size_t>(std::max<std::int64_t>(left, 0)));
    }
    const bool isFilled = active->fill(frames, true);
    return !upcoming
               ? isFilled
               : upcoming->fill(framesOf(mixer->keptAhead().seconds(), upcoming->rate()), true) && isFilled;
}

/// The lane ordered last is the one that sounds.
void LaneWork::noticeTurn() {
    if (upcoming && mixer->lanes().isSettled()) active = std::exchange(upcoming, nullptr);
    if (active && !upcoming) wanted.speeds.hear(active->tags().passAt(active->ring().taken()));
}

void LaneWork::noticeRate() {
    const Lane* last = upcoming ? upcoming : active;
    if (last && last->rate() != mixer->outputRate()) wanted.changed = true;
}

void LaneWork::noticeReplan() {
    if (!wanted.replan || (isSeamDue() && mixer->isSounding())) return;
    withdrawSeam();
    if (upcoming) return;
    wanted.replan = false;
    if (!active || !active->tags().isLooped()) return;
    const std::int64_t pass = active->tags().passAt(active->ring().taken());
    if (wanted.speeds.speedOf(pass) != active->speed()) wanted.changed = true;
}

void LaneWork::noticeEnd() {
    const bool pressedPlay = std::exchange(wanted.pressedPlay, false);
    if (!wanted.slice || wanted.jump || !active) return;
    const bool ended = active->ring().taken() >= active->endFrame() && !mixer->isPlaying();
    if (!ended && !pressedPlay) return;
    // Past its end a slice waits where it began; stopped half-way, play goes on as the recording does.
    if (ended) wanted.jump = wanted.slice->begin;
    wanted.slice.reset();
    wanted.changed = true;
}

void LaneWork::withdrawSeam() {
    if (upcoming && upcomingIsSeam && mixer->lanes().withdraw()) upcoming = nullptr;
}

void LaneWork::startLane() {
    wanted.changed = false;
    wanted.replan = false;
    if (!wanted.recording) return;
    std::int64_t switchAt = 0;
    const Lane::Start start = nextStart(switchAt);
    Lane& lane = spareLane();
    lane.start(start);
    prime(lane, switchAt);
    mixer->lanes().order(&lane, switchAt);
    upcoming = &lane;
    upcomingAt = switchAt;
    upcomingIsSeam = false;
    wanted.jump.reset();
    wanted.countIn = 0;
    // A loop set meanwhile moves the place once it is let go.
    if (!wanted.held) wanted.restartPasses = false;
}

void LaneWork::planSeam() {
    if (!active || !active->tags().isLooped() || !wanted.loop) return;
    const LoopSeam seam(active->tags(), active->rate());
    const auto pass = seam.nextChange(wanted.speeds, active->speed(), active->ring().taken());
    if (pass) orderSeam(*pass, LanePlayer::Turn::Exact);
}

/// Makes the lane after a pass ready. False where an exact turn has become impossible meanwhile.
bool LaneWork::orderSeam(std::int64_t pass, LanePlayer::Turn turn) {
    const LoopSeam seam(active->tags(), active->rate());
    Lane::Start start = laneOf(pass + 1);
    start.record.from = wanted.loop->begin;
    start.record.settleSeconds = RecordPart::settleSeconds;
    start.early = seam.earlyAfter(pass, wanted.speeds);
    start.lead = Lead::gap(wanted.beats, wanted.loop->end, wanted.speeds.manner().gapBeats,
                           wanted.recording->rate(), active->speed());
    Lane& lane = spareLane();
    lane.start(start);
    upcomingAt = seam.endOf(pass) - start.early;
    prime(lane, upcomingAt);
    // On a busy machine the pass may have ended meanwhile: then another one will do.
    const bool isExact = turn == LanePlayer::Turn::Exact;
    if (isExact && active->ring().taken() > upcomingAt) return false;
    mixer->lanes().order(&lane, upcomingAt, turn);
    upcoming = &lane;
    upcomingIsSeam = isExact;
    return true;
}

/// Were the lane that is to follow at the seam taken back now, there would be no time for another.
bool LaneWork::isSeamDue() const {
    return upcoming && upcomingIsSeam &&
           upcomingAt - active->ring().taken() <
               static_cast<std::int64_t>(framesOf(lateSeconds, active->rate()));
}

/// The pass that sounds, where it ends too soon for a lane to go on in it and another after the gap.
std::optional<std::int64_t> LaneWork::passBeforeGap() const {
    const bool goesElsewhere =
        wanted.jump || wanted.restartPasses || wanted.slice || wanted.held || wanted.countIn > 0;
    if (goesElsewhere || !wanted.loop || wanted.speeds.manner().gapBeats == 0) return std::nullopt;
    if (!active || active->isHeld() || !active->tags().isLooped()) return std::nullopt;
    if (!mixer->isSounding() || active->rate() != mixer->outputRate()) return std::nullopt;
    const std::int64_t pass = active->tags().passAt(active->ring().taken());
    const std::int64_t left = LoopSeam(active->tags(), active->rate()).endOf(pass) - active->ring().taken();
    if (left >= static_cast<std::int64_t>(framesOf(lateSeconds, active->rate()))) return std::nullopt;
    return pass;
}

void LaneWork::prime(Lane& lane, std::int64_t switchAt) const {
    const std::size_t primed = framesOf(primedSeconds, lane.rate());
    // On a busy machine the callback may be past the join by now: the lane then has to make up for that.
    for (int i = 0; i < mostPrimings; ++i) {
        const std::int64_t late = switchAt > 0 ? active->ring().taken() - switchAt : 0;
        const double perFrame = active ? active->tags().ratioTo(lane.tags()) : 0;
        const auto lost =
            static_cast<std::size_t>(static_cast<double>(std::max<std::int64_t>(late, 0)) * perFrame);
        if (lane.ring().readable() >= primed + lost) return;
        lane.fill(primed + lost, false);
    }
}

Lane::Start LaneWork::laneOf(std::int64_t pass) const {
    Lane::Start start;
    start.record.recording = wanted.recording;
    start.record.loop = wanted.loop;
    start.record.speed = wanted.speeds.speedOf(pass);
    start.reachedSpeed = wanted.speeds.reachedAt(pass);
    start.record.semitones = wanted.playing.semitones + wanted.playing.cents / 100.0;
    start.record.outputRate = mixer->outputRate();
    start.notes = wanted.notes;
    start.take = wanted.take;
    start.beats = wanted.beats;
    start.tuning = wanted.tuning;
    start.wish = wanted.wish;
    start.firstPass = pass;
    start.levels = levels;
    return start;
}

Lane::Start LaneWork::nextStart(std::int64_t& switchAt) {
    const Place place = nextPlace();
    switchAt = place.switchAt;
    const bool restarts = wanted.jump || wanted.restartPasses;
    if (restarts) wanted.speeds.renumber(0);
    Lane::Start start = laneOf(restarts ? 0 : place.pass);
    start.record.from = place.from;
    if (wanted.slice) start.end = wanted.slice->end;
    const bool goesRound = wanted.loop && !wanted.slice && place.from < wanted.loop->end;
    if (!goesRound) start.record.speed = start.reachedSpeed;
    if (wanted.countIn > 0 && !wanted.slice)
        start.lead = Lead::countIn(wanted.beats, place.from, wanted.countIn, wanted.recording->rate(),
                                   start.record.speed);
    else if (active && !wanted.jump)
        start.lead = active->leadLeftAt(place.joinsAt, active->speed() / start.record.speed);
    start.isElsewhere = place.isElsewhere;
    if (wanted.held) holdIn(start);
    return start;
}

void LaneWork::holdIn(Lane::Start& start) const {
    start.isHeld = true;
    start.record.from = *wanted.held;
    start.lead = {};
    start.end.reset();
}

LaneWork::Place LaneWork::nextPlace() const {
    Place place;
    if (wanted.jump || !active) {
        place.from = wanted.jump.value_or(Frames(0));
        place.isElsewhere = true;
        return place;
    }
    const std::int64_t taken = active->ring().taken();
    place.joinsAt = taken;
    // A count-in begins from standing still.
    if (mixer->isSounding() && active->rate() == mixer->outputRate() && wanted.countIn == 0) {
        place.joinsAt += static_cast<std::int64_t>(framesOf(LoopSeam::readySeconds, active->rate()));
        place.joinsAt =
            std::min({place.joinsAt, active->ring().written(), std::max(taken, active->endFrame())});
        place.switchAt = place.joinsAt;
    }
    place.from = Frames(std::llround(active->tags().placeAt(place.joinsAt)));
    place.pass = active->tags().passAt(place.joinsAt);
    const bool leftLoop = wanted.restartPasses && wanted.loop && !wanted.loop->contains(place.from);
    if (leftLoop && !wanted.slice) {
        // Nothing goes on from where the sound is, so nothing has to be joined.
        place.from = wanted.loop->begin;
        place.joinsAt = taken;
        place.switchAt = 0;
        place.isElsewhere = true;
    }
    return place;
}

} // namespace earwright
