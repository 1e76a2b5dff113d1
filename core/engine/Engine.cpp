#include "core/engine/Engine.h"

#include "core/engine/EngineWorker.h"
#include "core/engine/LoopedSource.h"
#include "core/engine/Mixer.h"
#include "core/engine/OutputDevice.h"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace earwright {

namespace {

constexpr double auditionSeconds = 0.7;

std::int64_t steadyNanoseconds() {
    return std::chrono::duration_cast<std::chrono::nanoseconds>(
               std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

} // namespace

/// The owner's side: what was wished for last, and the three parts that carry it out. They go in reverse
/// order: first the device, then the worker, then the mixer both feed.
class Engine::Body {
public:
    explicit Body(const Options& options)
        : worker(mixer), device(mixer, {options.device, options.openDevice}) {}

    std::optional<HeardSegment> heardSegment() {
        const auto segment = mixer->heard().segmentAt(heardFrame());
        if (!segment || segment->wish < recordingWish) return std::nullopt;
        return segment;
    }
    OutputFrames heardFrame() {
        // The smoothed clock may step back by a fraction of a millisecond; the playhead never does.
        lastHeard = std::max(lastHeard, mixer->heard().heardAt(steadyNanoseconds()));
        return lastHeard;
    }
    Frames placeOf(const HeardSegment& segment, OutputFrames frame) const {
        const double place = segment.tags.placeAt(segment.laneFrameAt(frame));
        return std::clamp(Frames(std::llround(place)), Frames(0), recording->length());
    }
    /// The pass now heard, counted from the last seek or change of the loop.
    std::int64_t rawPass() {
        const auto segment = heardSegment();
        if (!segment || segment->wish < jumpWish) return 0;
        return segment->tags.passAt(segment->laneFrameAt(lastHeard));
    }
    void countPassesFrom(std::int64_t pass) {
        passesBefore = pass;
        mixer->setTradeStart(pass);
    }
    /// From standing still, nothing sounds before this wish is answered.
    std::uint64_t wishFor() {
        mixer->requireWish(++wishes);
        return wishes;
    }
    std::uint64_t jumpTo(Frames place) {
        jumpWish = wishFor();
        jumpPlace = place;
        countPassesFrom(0);
        return jumpWish;
    }

    std::shared_ptr<Mixer> mixer = std::make_shared<Mixer>();
    EngineWorker worker;
    OutputDevice device;

    std::shared_ptr<Recording> recording;
    std::optional<Range<Frames>> loop;
    Playing playing;
    std::uint64_t wishes = 0;
    /// Lanes answering older wishes play another recording, or another place than the one wished for.
    std::uint64_t recordingWish = 0;
    std::uint64_t jumpWish = 0;
    Frames jumpPlace;
    std::int64_t passesBefore = 0;
    OutputFrames lastHeard;
    double tuning = 0;
};

Engine::Engine() : Engine(Options{}) {}
Engine::Engine(const Options& options) : body(std::make_unique<Body>(options)) {}
Engine::~Engine() = default;

void Engine::setRecording(std::shared_ptr<Recording> recording) {
    body->mixer->setPlaying(false);
    body->recording = recording;
    body->loop.reset();
    const std::uint64_t wish = body->jumpTo(Frames(0));
    body->recordingWish = wish;
    body->worker.post([recording = std::move(recording), wish](Wanted& wanted) {
        wanted.recording = recording;
        wanted.loop.reset();
        wanted.slice.reset();
        wanted.notes = noteListOf({});
        wanted.jump = Frames(0);
        wanted.wish = wish;
        wanted.changed = true;
    });
}

void Engine::play() {
    if (!body->recording) return;
    const bool isOver =
        body->mixer->isAtEnd() && !body->mixer->isPlaying() && now().position >= body->recording->length();
    if (isOver) seek(body->loop ? body->loop->begin : Frames(0));
    body->countPassesFrom(body->rawPass());
    body->mixer->setPlaying(true);
    body->worker.post([](Wanted& wanted) { wanted.pressedPlay = true; });
}

void Engine::pause() {
    body->mixer->setPlaying(false);
}

void Engine::seek(Frames position) {
    if (!body->recording) return;
    const Frames place = std::clamp(position, Frames(0), body->recording->length());
    const std::uint64_t wish = body->jumpTo(place);
    body->worker.post([place, wish](Wanted& wanted) {
        wanted.slice.reset();
        wanted.jump = place;
        wanted.wish = wish;
        wanted.changed = true;
    });
}

void Engine::setPlaying(const Playing& playing) {
    Playing kept = playing;
    kept.speed = std::isfinite(kept.speed) ? std::clamp(kept.speed, 0.1, 2.0) : 1.0;
    kept.semitones = std::clamp(kept.semitones, -12, 12);
    kept.cents = std::clamp(kept.cents, -100, 100);
    if (kept == body->playing) return;
    body->playing = kept;
    body->worker.post([kept, wish = body->wishFor()](Wanted& wanted) {
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
    body->countPassesFrom(0);
    body->worker.post([playable, wish = body->wishFor()](Wanted& wanted) {
        wanted.loop = playable;
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
        wanted.jump = kept.begin;
        wanted.wish = wish;
        wanted.changed = true;
        wanted.pressedPlay = false;
    });
    body->mixer->setPlaying(true);
}

void Engine::setHearing(Hearing hearing) {
    if (hearing == Hearing::Trade) body->mixer->setTradeStart(body->rawPass());
    body->mixer->setHearing(hearing);
}

void Engine::setFocus(Focus focus) {
    body->mixer->setFocus(focus);
}

void Engine::setNotes(std::vector<TimedNote> notes) {
    body->worker.post([list = noteListOf(std::move(notes)), mixer = body->mixer](Wanted& wanted) {
        wanted.notes = list;
        // What waits in the ring still has the old notes; while nothing plays it is made anew.
        if (!mixer->isPlaying()) wanted.changed = true;
    });
}

void Engine::audition(int midi, double loudness) {
    StringGesture gesture;
    gesture.pitch = midi + body->tuning / 100.0;
    gesture.loudness = std::clamp(loudness, 0.0, 1.0);
    gesture.seconds = auditionSeconds;
    body->mixer->audition(gesture);
}

void Engine::setLevel(double level) {
    body->mixer->setLevel(static_cast<float>(std::clamp(level, 0.0, 1.0)));
}

void Engine::setBalance(double yoursDecibels) {
    body->mixer->setYoursGain(
        static_cast<float>(std::pow(10.0, std::clamp(yoursDecibels, -24.0, 12.0) / 20.0)));
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
    heard.peak = body->mixer->takePeak();
    heard.position = body->jumpPlace;
    const auto segment = body->heardSegment();
    // Standing still, a seek shows at once; playing, the old place is still what the ear hears.
    const bool arrived = segment && (segment->wish >= body->jumpWish || heard.playing);
    if (!arrived) return heard;
    heard.position = body->placeOf(*segment, body->lastHeard);
    const std::int64_t pass = body->rawPass();
    heard.pass = std::max<std::int64_t>(0, pass - body->passesBefore);
    heard.yoursTurn = segment->tags.isLooped() && body->mixer->isYoursTurn(pass);
    return heard;
}

OutputFrames Engine::heardFrame() {
    return body->heardFrame();
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
