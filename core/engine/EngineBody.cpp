#include "core/engine/EngineBody.h"

#include "core/engine/SteadyNow.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

void tellStage(const HeardSegment& segment, OutputFrames frame, Heard& heard) {
    const std::int64_t left = segment.tags.lead() - segment.laneFrameAt(frame);
    if (segment.leadStage == Stage::Sounding || left <= 0) return;
    heard.stage = segment.leadStage;
    heard.beatsLeft = static_cast<int>(std::ceil(static_cast<double>(left) / segment.leadBeat - 1e-6));
}

} // namespace

Engine::Body::Body(const Options& options)
    : worker(mixer), device(mixer, {options.device, options.openDevice}) {}

std::optional<HeardSegment> Engine::Body::heardSegment() {
    const auto segment = mixer->heard().segmentAt(heardFrame());
    if (!segment || segment->wish < recordingWish) return std::nullopt;
    return segment;
}

OutputFrames Engine::Body::heardFrame() {
    // The smoothed clock may step back by a fraction of a millisecond; the playhead never does.
    lastHeard = std::max(lastHeard, mixer->heard().heardAt(steadyNanoseconds()));
    return lastHeard;
}

Frames Engine::Body::placeOf(const HeardSegment& segment, OutputFrames frame) const {
    const double place = segment.tags.placeAt(segment.laneFrameAt(frame));
    return std::clamp(Frames(std::llround(place)), Frames(0), recording->length());
}

std::int64_t Engine::Body::rawPassOf(const HeardSegment& segment, OutputFrames frame) const {
    return segment.wish < passWish ? 0 : segment.tags.passAt(segment.laneFrameAt(frame));
}

std::int64_t Engine::Body::rawPass() {
    const auto segment = heardSegment();
    return segment ? rawPassOf(*segment, lastHeard) : 0;
}

void Engine::Body::tell(const HeardSegment& segment, OutputFrames frame, Heard& heard) const {
    heard.position = placeOf(segment, frame);
    const std::int64_t pass = rawPassOf(segment, frame);
    heard.pass = std::max<std::int64_t>(0, pass - passesBefore);
    heard.yoursTurn = segment.tags.isLooped() &&
                      mixer->isYoursTurn(segment.tags.passAt(segment.laneFrameAt(frame)), segment.wish);
    // A speed just set is told until it is heard.
    if (segment.wish >= speedWish) {
        heard.speed = segment.speed;
        heard.reachedSpeed = segment.reachedSpeed;
    }
    if (heard.playing) tellStage(segment, frame, heard);
}

void Engine::Body::countPassesFrom(std::int64_t pass) {
    passesBefore = pass;
    tradeFrom(pass);
}

void Engine::Body::tradeFrom(std::int64_t pass) {
    mixer->setTradeStart(pass, passWish);
    worker.post([start = trading ? std::optional(pass) : std::nullopt](Wanted& wanted) {
        wanted.speeds.setTrade(start);
        wanted.replan = true;
    });
}

std::uint64_t Engine::Body::wishFor() {
    mixer->requireWish(++wishes);
    return wishes;
}

std::uint64_t Engine::Body::jumpTo(Frames place) {
    letGo();
    jumpWish = passWish = wishFor();
    jumpPlace = place;
    countPassesFrom(0);
    return jumpWish;
}

void Engine::Body::letGo() {
    if (std::exchange(holding, false)) mixer->setHolding(false);
}

} // namespace earwright
