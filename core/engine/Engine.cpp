#include "core/engine/Engine.h"

#include "core/engine/EngineBody.h"
#include "core/engine/LoopedSource.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

constexpr double auditionSeconds = 0.7;

double playableSpeed(double speed) {
    return std::isfinite(speed) ? std::clamp(speed, 0.1, 2.0) : 1.0;
}

double gainOf(double decibels, double least, double most) {
    return std::pow(10.0, std::clamp(decibels, least, most) / 20.0);
}

} // namespace

Engine::Engine() : Engine(Options{}) {}
Engine::Engine(const Options& options) : body(std::make_unique<Body>(options)) {}
Engine::~Engine() = default;

void Engine::setRecording(std::shared_ptr<Recording> recording) {
    body->mixer->setPlaying(false);
    body->recording = recording;
    body->loop.reset();
    body->take.reset();
    const std::uint64_t wish = body->jumpTo(Frames(0));
    body->recordingWish = wish;
    body->worker.post([recording = std::move(recording), wish](Wanted& wanted) {
        wanted.recording = recording;
        wanted.loop.reset();
        wanted.slice.reset();
        wanted.notes = noteListOf({});
        wanted.beats = beatListOf({});
        wanted.held.reset();
        wanted.take.reset();
        wanted.jump = Frames(0);
        wanted.wish = wish;
        wanted.changed = true;
    });
}

void Engine::play() {
    if (!body->recording) return;
    hold(std::nullopt);
    const bool isOver =
        body->mixer->isAtEnd() && !body->mixer->isPlaying() && now().position >= body->recording->length();
    if (isOver) seek(body->loop ? body->loop->begin : Frames(0));
    body->countPassesFrom(body->rawPass());
    const int countIn = body->mixer->isPlaying() ? 0 : body->countIn;
    // A count-in is another lane, and nothing sounds before it is there.
    const auto wish = countIn > 0 ? std::optional(body->wishFor()) : std::nullopt;
    body->mixer->setPlaying(true);
    body->worker.post([countIn, wish](Wanted& wanted) {
        wanted.pressedPlay = true;
        if (!wish) return;
        wanted.countIn = countIn;
        wanted.wish = *wish;
        wanted.changed = true;
    });
}

void Engine::pause() {
    hold(std::nullopt);
    body->mixer->setPlaying(false);
}

void Engine::seek(Frames position) {
    if (!body->recording) return;
    const Frames place = std::clamp(position, Frames(0), body->recording->length());
    const std::uint64_t wish = body->jumpTo(place);
    body->worker.post([place, wish](Wanted& wanted) {
        wanted.slice.reset();
        wanted.held.reset();
        wanted.jump = place;
        wanted.wish = wish;
        wanted.changed = true;
    });
}

void Engine::setPlaying(const Playing& playing) {
    Playing kept = playing;
    kept.speed = playableSpeed(kept.speed);
    kept.semitones = std::clamp(kept.semitones, -12, 12);
    kept.cents = std::clamp(kept.cents, -100, 100);
    if (kept == body->playing) return;
    const bool setsSpeed = kept.speed != body->playing.speed;
    body->playing = kept;
    const std::uint64_t wish = body->wishFor();
    if (setsSpeed) body->speedWish = wish;
    body->worker.post([kept, wish, setsSpeed](Wanted& wanted) {
        if (setsSpeed) wanted.speeds.set(kept.speed);
        wanted.playing = kept;
        wanted.wish = wish;
        wanted.changed = true;
    });
}

void Engine::setLoop(const std::optional<Range<Frames>>& loop) {
    if (!body->recording) return;
    std::optional<Range<Frames>> playable;
    if (loop) playable = LoopedSource::playable(*loop, *body->recording);
    if (playable == body->loop) return;
    body->loop = playable;
    const std::uint64_t wish = body->passWish = body->wishFor();
    body->countPassesFrom(0);
    body->worker.post([playable, wish](Wanted& wanted) {
        wanted.loop = playable;
        wanted.speeds.restartRounds();
        wanted.wish = wish;
        if (playable && wanted.jump && !playable->contains(*wanted.jump)) wanted.jump = playable->begin;
        wanted.restartPasses = true;
        wanted.changed = true;
    });
}

void Engine::playSlice(const Range<Frames>& slice) {
    if (!body->recording) return;
    const Frames length = body->recording->length();
    const Range<Frames> kept{std::clamp(slice.begin, Frames(0), length),
                             std::clamp(slice.end, Frames(0), length)};
    if (kept.isEmpty()) return;
    const std::uint64_t wish = body->jumpTo(kept.begin);
    body->worker.post([kept, wish](Wanted& wanted) {
        wanted.slice = kept;
        wanted.held.reset();
        wanted.jump = kept.begin;
        wanted.wish = wish;
        wanted.changed = true;
        wanted.pressedPlay = false;
    });
    body->mixer->setPlaying(true);
}

void Engine::hold(const std::optional<Frames>& place) {
    if (!body->recording || (!place && !body->holding)) return;
    const std::uint64_t wish = body->wishFor();
    if (!place) {
        body->letGo();
        body->worker.post([wish](Wanted& wanted) {
            wanted.held.reset();
            wanted.wish = wish;
            wanted.changed = true;
        });
        return;
    }
    const Frames held = std::clamp(*place, Frames(0), body->recording->length());
    body->holding = true;
    body->mixer->setHolding(true);
    body->worker.post([held, wish](Wanted& wanted) {
        wanted.slice.reset();
        wanted.held = held;
        wanted.wish = wish;
        wanted.changed = true;
    });
}

void Engine::setHearing(Hearing hearing) {
    body->trading = hearing == Hearing::Trade;
    body->tradeFrom(body->rawPass());
    body->mixer->setHearing(hearing);
}

void Engine::setLoopManner(const LoopManner& manner) {
    LoopManner kept = manner;
    kept.gapBeats = std::clamp(kept.gapBeats, 0, LoopManner::mostGapBeats);
    if (kept.climb)
        kept.climb = Climb{std::clamp(kept.climb->stepPercent, 1, 100), std::max(kept.climb->everyPasses, 1),
                           std::clamp(kept.climb->targetPercent, 10, 200)};
    for (std::optional<double>* speed : {&kept.tradeRecordSpeed, &kept.tradeYoursSpeed})
        if (*speed) *speed = playableSpeed(**speed);
    body->worker.post([kept](Wanted& wanted) {
        wanted.speeds.setManner(kept);
        wanted.replan = true;
    });
}

void Engine::climbBack() {
    body->worker.post([](Wanted& wanted) {
        wanted.speeds.climbBack();
        wanted.replan = true;
    });
}

void Engine::setFocus(Focus focus) {
    body->mixer->setFocus(focus);
}

void Engine::setBand(const std::optional<Band>& band) {
    body->mixer->setBand(band);
}

void Engine::setNotes(std::vector<TimedNote> notes) {
    body->worker.post([list = noteListOf(std::move(notes)), mixer = body->mixer](Wanted& wanted) {
        wanted.notes = list;
        // What waits in the ring still has the old notes; while nothing plays it is made anew.
        if (!mixer->isSounding()) wanted.changed = true;
    });
}

void Engine::setBeats(std::vector<BeatPlace> beats) {
    body->worker.post([list = beatListOf(std::move(beats)), mixer = body->mixer](Wanted& wanted) {
        wanted.beats = list;
        wanted.replan = true;
        // As with notes.
        if (!mixer->isSounding()) wanted.changed = true;
    });
}

void Engine::setClicks(bool audible) {
    body->mixer->setClicks(audible);
}

void Engine::setClickLevel(double decibels) {
    body->mixer->setClickGain(static_cast<float>(gainOf(decibels, -40, 12)));
}

void Engine::setCountIn(int beats) {
    body->countIn = std::clamp(beats, 0, 8);
}

void Engine::setTake(std::optional<TakePlayback> take) {
    if (take && !take->sound) take.reset();
    if (take == body->take) return;
    body->take = take;
    std::shared_ptr<const TakePlayback> played;
    if (take) played = std::make_shared<const TakePlayback>(std::move(*take));
    body->worker.post([played](Wanted& wanted) {
        wanted.take = played;
        wanted.changed = true;
    });
}

Input& Engine::input() {
    return body->input;
}

void Engine::audition(int midi, double loudness) {
    StringGesture gesture;
    gesture.pitch = midi + body->tuning / 100.0 + body->playing.transposition();
    gesture.loudness = std::clamp(loudness, 0.0, 1.0);
    gesture.seconds = auditionSeconds;
    body->mixer->audition(gesture);
}

void Engine::setLevel(double level) {
    body->mixer->setLevel(static_cast<float>(std::clamp(level, 0.0, 1.0)));
}

void Engine::setBalance(double yoursDecibels) {
    body->mixer->setYoursGain(static_cast<float>(gainOf(yoursDecibels, softestYours, loudestYours)));
}

void Engine::setTuning(double cents) {
    body->tuning = std::clamp(cents, -100.0, 100.0);
    body->worker.post([semitones = body->tuning / 100.0](Wanted& wanted) {
        wanted.changed = wanted.changed || wanted.tuning != semitones;
        wanted.tuning = semitones;
    });
}

Heard Engine::now() {
    Heard heard;
    heard.playing = body->mixer->isPlaying();
    heard.holding = body->holding;
    heard.peak = body->mixer->takePeak();
    heard.limited = body->mixer->takeLimited();
    heard.position = body->jumpPlace;
    heard.speed = heard.reachedSpeed = body->playing.speed;
    const auto segment = body->heardSegment();
    // Standing still, a seek shows at once; playing, the old place is still what the ear hears.
    const bool arrived = segment && (segment->wish >= body->jumpWish || heard.playing);
    if (!arrived) return heard;
    body->tell(*segment, body->lastHeard, heard);
    // What has climbed is where the next change starts from.
    body->playing.speed = heard.reachedSpeed;
    return heard;
}

std::optional<Heard> Engine::heardAt(OutputFrames frame) {
    const auto segment = body->mixer->heard().segmentAt(frame);
    if (!segment || segment->wish < body->recordingWish) return std::nullopt;
    Heard heard;
    heard.playing = segment->moving;
    heard.speed = heard.reachedSpeed = body->playing.speed;
    body->tell(*segment, frame, heard);
    return heard;
}

OutputFrames Engine::heardFrame() {
    return body->heardFrame();
}

OutputFrames Engine::heardFrame(std::chrono::steady_clock::time_point at) const {
    const auto since = at.time_since_epoch();
    return body->mixer->heard().heardAt(std::chrono::duration_cast<std::chrono::nanoseconds>(since).count());
}

std::optional<Frames> Engine::placeAt(OutputFrames frame) {
    const auto segment = body->mixer->heard().segmentAt(frame);
    if (!segment || segment->wish < body->recordingWish) return std::nullopt;
    return body->placeOf(*segment, frame);
}

DeviceReport Engine::device() {
    return body->device.report();
}

std::vector<DeviceChoice> Engine::devices() {
    return body->device.choices();
}

void Engine::useDevice(const DeviceWish& wish) {
    body->device.open(wish);
}

} // namespace earwright
