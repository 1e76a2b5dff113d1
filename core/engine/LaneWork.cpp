#include "core/engine/LaneWork.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

/// Sound a new lane has before the callback is told of it.
constexpr double primedSeconds = 0.03;
constexpr int mostPrimings = 8;

std::size_t framesOf(double seconds, SampleRate rate) {
    return static_cast<std::size_t>(std::llround(seconds * rate.hertz));
}

std::int64_t readyFrames(SampleRate rate) {
    return rate.outputFrames(LoopSeam::readySeconds).value;
}

} // namespace

LaneWork::LaneWork(std::shared_ptr<Mixer> toFeed) : mixer(std::move(toFeed)) {}

bool LaneWork::step() {
    noticeTurn();
    carryOutWishes();
    const bool isFilled = fillLanes();
    mixer->announceFilled(!last() || (isFilled && last()->rate() == mixer->outputRate()));
    mixer->setMatch(static_cast<float>(levels->notesGain()));
    return isFilled;
}

void LaneWork::handOn(const NoteList& notesBefore, const BeatList& beatsBefore) {
    // What waits in the ring still has the old notes. A lane that has the new ones is heard sooner.
    if (wanted.notes != notesBefore && isWaiting(notesBefore)) wanted.changed = true;
    const auto tell = [&](Lane& lane) {
        if (wanted.notes != notesBefore) lane.setNotes(wanted.notes);
        if (wanted.beats != beatsBefore) lane.setBeats(wanted.beats);
    };
    if (active) tell(*active);
    for (const Coming& next : coming)
        tell(*next.lane);
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
    auto seam = seamAhead();
    const Lane* const looked = active;
    // What was planned for the end of the pass gives way to a wish, but for a gap that is about to begin.
    const bool isGapDue = seam && seam->isGap && (!seam->hasTimeForOne() || coming.size() > 1);
    if (wanted.changed && !isGapDue) withdrawSeam();
    noticeTurn();
    if (coming.empty()) noticeEnd();
    // The callback goes on meanwhile: it may have taken the lane that was planned for that end.
    if (active != looked) seam = seamAhead();
    if (!wanted.changed) return planSeam();
    if (!coming.empty()) return;
    const bool isBoth = seam && !seam->hasTimeForTwo() && (seam->isGap || seam->hasTimeForOne());
    if (isBoth)
        orderSeam(*active, seam->pass, LanePlayer::Turn::Soon);
    else
        startLane(seam);
}

bool LaneWork::fillLanes() {
    bool isFilled = true;
    const auto fill = [&](Lane& lane, const Coming* next) {
        std::size_t frames = framesOf(mixer->keptAhead().seconds(), lane.rate());
        if (next && next->at > 0) {
            // Nobody hears it past the fade.
            const std::int64_t left = next->at - lane.ring().taken() + readyFrames(lane.rate());
            frames = std::min(frames, static_cast<std::size_t>(std::max<std::int64_t>(left, 0)));
        }
        isFilled = lane.fill(frames, true) && isFilled;
    };
    if (active) fill(*active, coming.empty() ? nullptr : &coming[0]);
    for (std::size_t i = 0; i < coming.size(); ++i)
        fill(*coming[i].lane, i + 1 < coming.size() ? &coming[i + 1] : nullptr);
    return isFilled;
}

/// Lanes whose turn has come.
void LaneWork::noticeTurn() {
    while (coming.size() > mixer->lanes().waiting()) {
        active = coming.front().lane;
        coming.erase(coming.begin());
    }
    if (active && coming.empty()) wanted.speeds.hear(active->tags().passAt(active->ring().taken()));
}

void LaneWork::noticeRate() {
    if (last() && last()->rate() != mixer->outputRate()) wanted.changed = true;
}

void LaneWork::noticeReplan() {
    const bool isWaiting = coming.size() > 1 || (!coming.empty() && !isSeamOrdered());
    if (!wanted.replan || isWaiting) return;
    // Were the lane for a seam this close taken back, there would be no time for another.
    const auto seam = seamAhead();
    const bool isDue = isSeamOrdered() && seam && !seam->hasTimeForOne();
    if (!isDue) withdrawSeam();
    if (!isDue && !coming.empty()) return;
    if (active && active->tags().isLooped()) {
        const std::int64_t pass = active->tags().passAt(active->ring().taken());
        if (wanted.speeds.speedOf(pass) != active->speed()) wanted.changed = true;
    }
    // Later passes are planned anew once that seam is over.
    wanted.replan = isDue && !wanted.changed;
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
    if (!isSeamOrdered() || !mixer->lanes().withdraw()) return;
    wanted.changed = wanted.changed || coming.back().answers;
    coming.pop_back();
}

void LaneWork::startLane(const std::optional<SeamAhead>& seam) {
    wanted.changed = false;
    wanted.replan = false;
    if (!wanted.recording) return;
    std::int64_t switchAt = 0;
    const Lane::Start start = nextStart(seam, switchAt);
    Lane& lane = spareLane();
    lane.start(start);
    prime(lane, active, switchAt);
    mixer->lanes().order(&lane, switchAt);
    coming.push_back({&lane, switchAt, false, true});
    wanted.jump.reset();
    wanted.countIn = 0;
    // A loop set meanwhile moves the place once it is let go.
    if (!wanted.held) wanted.restartPasses = false;
}

void LaneWork::planSeam() {
    const Lane* before = last();
    if (!before || !before->tags().isLooped() || !wanted.loop || isSeamOrdered()) return;
    const LoopSeam seam = seamOf(*before);
    const auto pass = seam.nextChange(wanted.speeds, before->speed(), joinsToPlan(*before));
    if (pass) orderSeam(*before, *pass, LanePlayer::Turn::Exact);
}

/// The frames of a lane at which the next is to be made ready to join.
Range<std::int64_t> LaneWork::joinsToPlan(const Lane& lane) const {
    const std::int64_t taken = lane.ring().taken();
    const std::int64_t ready = readyFrames(lane.rate());
    if (coming.empty()) return {taken + ready, taken + lane.rate().outputFrames(LoopSeam::planSeconds).value};
    // The lane is still to come. Only what cannot wait until it sounds is planned, one fade after the other.
    const Coming& next = coming.back();
    const std::int64_t until = active && next.at > 0 ? next.at - active->ring().taken() : 0;
    const std::int64_t fade = lane.rate().outputFrames(LanePlayer::fadeSeconds).value;
    return {std::max(ready - until, fade), fade + 2 * ready};
}

/// Makes the lane after a pass ready, and the wishes with it. Nothing where an exact turn has become
/// impossible meanwhile.
void LaneWork::orderSeam(const Lane& before, std::int64_t pass, LanePlayer::Turn turn) {
    const LoopSeam seam = seamOf(before);
    Lane::Start start = laneOf(pass + 1);
    start.record.from = wanted.loop->begin;
    start.record.settleSeconds = RecordPart::settleSeconds;
    start.early = seam.earlyAfter(pass, wanted.speeds);
    start.lead = Lead::gap(wanted.beats, wanted.loop->end, wanted.speeds.manner().gapBeats,
                           wanted.recording->rate(), before.speed());
    Lane& lane = spareLane();
    lane.start(start);
    const std::int64_t at = seam.endOf(pass) - start.early;
    prime(lane, &before, at);
    // On a busy machine the pass may have ended meanwhile: then another one will do.
    if (turn == LanePlayer::Turn::Exact && before.ring().taken() > at) return;
    mixer->lanes().order(&lane, at, turn);
    coming.push_back({&lane, at, true, wanted.changed});
    wanted.changed = false;
}

LoopSeam LaneWork::seamOf(const Lane& lane) const {
    return {lane.tags(), lane.rate(), wanted.take != nullptr};
}

Lane& LaneWork::spareLane() {
    const auto isSpare = [this](const Lane& lane) {
        return &lane != active &&
               std::ranges::none_of(coming, [&lane](const Coming& next) { return next.lane == &lane; });
    };
    return *std::ranges::find_if(lanes, isSpare);
}

bool LaneWork::goesElsewhere() const {
    return wanted.jump || wanted.restartPasses || wanted.slice || wanted.held || wanted.countIn > 0;
}

std::optional<LaneWork::SeamAhead> LaneWork::seamAhead() const {
    if (goesElsewhere() || !wanted.loop) return std::nullopt;
    if (!active || active->isHeld() || !active->tags().isLooped()) return std::nullopt;
    if (!mixer->isSounding() || active->rate() != mixer->outputRate()) return std::nullopt;
    const std::int64_t taken = active->ring().taken();
    const std::int64_t pass = active->tags().passAt(taken);
    if (!LoopSeam::changesAfter(pass, wanted.speeds)) return std::nullopt;
    const LoopSeam seam = seamOf(*active);
    const std::int64_t end = seam.endOf(pass);
    const std::int64_t one = readyFrames(active->rate()) + seam.earlyAfter(pass, wanted.speeds);
    const std::int64_t two = one + active->rate().outputFrames(LanePlayer::fadeSeconds).value;
    return SeamAhead{pass, wanted.speeds.manner().gapBeats > 0, end, end - taken, one, two};
}

void LaneWork::prime(Lane& lane, const Lane* before, std::int64_t switchAt) const {
    const std::size_t primed = framesOf(primedSeconds, lane.rate());
    // On a busy machine the callback may be past the join by now: the lane then has to make up for that.
    for (int i = 0; i < mostPrimings; ++i) {
        const std::int64_t late = switchAt > 0 ? before->ring().taken() - switchAt : 0;
        const double perFrame = before ? before->tags().ratioTo(lane.tags()) : 0;
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
    start.record.semitones = wanted.playing.transposition();
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

Lane::Start LaneWork::nextStart(const std::optional<SeamAhead>& seam, std::int64_t& switchAt) {
    const Place place = nextPlace(seam);
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

LaneWork::Place LaneWork::nextPlace(const std::optional<SeamAhead>& seam) const {
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
        place.joinsAt += readyFrames(active->rate());
        // A pass at another speed begins at its own, and not with what is left of the one before.
        if (seam && !seam->hasTimeForTwo()) place.joinsAt = std::max(place.joinsAt, seam->end);
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
