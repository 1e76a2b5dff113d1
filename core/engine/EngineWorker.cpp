#include "core/engine/EngineWorker.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

using namespace std::chrono_literals;

/// Sound a new lane has before the callback is told of it.
constexpr double primedSeconds = 0.03;
/// How far ahead of the callback a lane that goes on is joined: the time it takes to make it ready.
constexpr double joinSeconds = 0.03;
constexpr int mostPrimings = 8;
constexpr auto busyPatience = 1500us;
constexpr auto idlePatience = 5000us;

std::size_t framesOf(double seconds, SampleRate rate) {
    return static_cast<std::size_t>(std::llround(seconds * rate.hertz));
}

} // namespace

EngineWorker::EngineWorker(std::shared_ptr<Mixer> toFeed)
    : mixer(std::move(toFeed)), thread([this](const std::stop_token& stop) { run(stop); }) {}

EngineWorker::~EngineWorker() {
    thread.request_stop();
    // An empty message wakes the thread.
    post({});
    thread.join();
}

void EngineWorker::run(const std::stop_token& stop) {
    bool isFilled = true;
    while (!stop.stop_requested()) {
        takeMessages(isFilled ? mixer->isPlaying() ? busyPatience : idlePatience : 0us);
        const bool settled = mixer->lanes().isSettled();
        if (settled) {
            noticeRate();
            noticeEnd();
            if (wanted.changed) startLane();
        }
        isFilled = !active || active->fill(framesOf(mixer->keptAhead().seconds(), active->rate()), true);
    }
}

void EngineWorker::post(Message message) {
    {
        const std::lock_guard lock(guard);
        messages.push_back(std::move(message));
    }
    arrived.notify_one();
}

void EngineWorker::takeMessages(std::chrono::microseconds patience) {
    std::vector<Message> come;
    {
        std::unique_lock lock(guard);
        arrived.wait_for(lock, patience, [this] { return !messages.empty(); });
        come.swap(messages);
    }
    const NoteList before = wanted.notes;
    for (const Message& message : come)
        if (message) message(wanted);
    if (active && wanted.notes != before) active->setNotes(wanted.notes);
}

void EngineWorker::noticeRate() {
    if (active && active->rate() != mixer->outputRate()) wanted.changed = true;
}

void EngineWorker::noticeEnd() {
    const bool pressedPlay = std::exchange(wanted.pressedPlay, false);
    if (!wanted.slice || wanted.jump || !active) return;
    const bool ended = active->ring().taken() >= active->endFrame() && !mixer->isPlaying();
    if (!ended && !pressedPlay) return;
    // Past its end a slice waits where it began; stopped half-way, play goes on as the recording does.
    if (ended) wanted.jump = wanted.slice->begin;
    wanted.slice.reset();
    wanted.changed = true;
}

void EngineWorker::startLane() {
    wanted.changed = false;
    if (!wanted.recording) return;
    std::int64_t switchAt = 0;
    const Lane::Start start = nextStart(switchAt);
    Lane& lane = spareLane();
    lane.start(start);
    prime(lane, switchAt);
    mixer->lanes().order(&lane, switchAt);
    active = &lane;
    wanted.jump.reset();
    wanted.restartPasses = false;
}

void EngineWorker::prime(Lane& lane, std::int64_t switchAt) const {
    const std::size_t primed = framesOf(primedSeconds, lane.rate());
    // On a busy machine the callback may be past the join by now: the lane then has to make up for that.
    for (int i = 0; i < mostPrimings; ++i) {
        const std::int64_t late = switchAt > 0 ? active->ring().taken() - switchAt : 0;
        const double perFrame = active ? active->tags().framesPerOutput() / lane.tags().framesPerOutput() : 0;
        const auto lost =
            static_cast<std::size_t>(static_cast<double>(std::max<std::int64_t>(late, 0)) * perFrame);
        if (lane.ring().readable() >= primed + lost) return;
        lane.fill(primed + lost, false);
    }
}

Lane::Start EngineWorker::nextStart(std::int64_t& switchAt) {
    Lane::Start start;
    start.record.recording = wanted.recording;
    start.record.loop = wanted.loop;
    start.record.speed = wanted.playing.speed;
    start.record.semitones = wanted.playing.semitones + wanted.playing.cents / 100.0;
    start.record.outputRate = mixer->outputRate();
    start.notes = wanted.notes;
    start.tuning = wanted.tuning;
    start.wish = wanted.wish;
    if (wanted.slice) start.end = wanted.slice->end;
    if (wanted.jump)
        start.record.from = *wanted.jump;
    else
        goOnFrom(start, switchAt);
    return start;
}

void EngineWorker::goOnFrom(Lane::Start& start, std::int64_t& switchAt) const {
    if (!active) return;
    const std::int64_t taken = active->ring().taken();
    std::int64_t join = taken;
    if (mixer->isPlaying() && active->rate() == start.record.outputRate) {
        join += static_cast<std::int64_t>(framesOf(joinSeconds, active->rate()));
        join = std::min({join, active->ring().written(), std::max(taken, active->endFrame())});
        switchAt = join;
    }
    start.record.from = Frames(std::llround(active->tags().placeAt(join)));
    if (!wanted.restartPasses) start.firstPass = active->tags().passAt(join);
    const bool leftLoop = wanted.restartPasses && wanted.loop && !wanted.loop->contains(start.record.from);
    if (leftLoop && !wanted.slice) start.record.from = wanted.loop->begin;
}

} // namespace earwright
