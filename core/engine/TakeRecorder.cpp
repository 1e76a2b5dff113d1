#include "core/engine/TakeRecorder.h"

#include "core/engine/SteadyNow.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <system_error>
#include <utility>

namespace earwright {

namespace {

using namespace std::chrono_literals;

constexpr auto busyPatience = 10ms;
constexpr auto idlePatience = 1s;
/// An input that gives nothing for so long has gone.
constexpr std::int64_t silenceNanoseconds = 1'500'000'000;
/// Lost sound is written as silence, but not as much of it as this: something else is wrong then.
constexpr std::int64_t mostLostSeconds = 10;

const char* const goneMessage = "The input has gone; what was played until then is kept.";
const char* const interruptedMessage = "The input was interrupted; what was played until then is kept.";
const char* const noMarksMessage = "Nothing came from the input, so the round trip could not be measured.";

} // namespace

TakeRecorder::TakeRecorder(std::shared_ptr<Mixer> output, std::shared_ptr<Capture> input)
    : mixer(std::move(output)),
      capture(std::move(input)),
      thread([this](const std::stop_token& stop) { run(stop); }) {}

TakeRecorder::~TakeRecorder() {
    thread.request_stop();
    arrived.notify_one();
    thread.join();
}

void TakeRecorder::measure() {
    {
        const std::lock_guard lock(guard);
        measureOrdered = true;
        trip.isRunning = true;
        trip.message.clear();
    }
    arrived.notify_one();
}

void TakeRecorder::setRoundTrip(std::optional<double> seconds) {
    const std::lock_guard lock(guard);
    trip.seconds = seconds;
}

RoundTripReport TakeRecorder::roundTrip() const {
    const std::lock_guard lock(guard);
    return trip;
}

void TakeRecorder::record(const std::filesystem::path& file, SampleRate recordingRate) {
    {
        const std::lock_guard lock(guard);
        ordered.emplace();
        ordered->path = file;
        ordered->recordingRate = recordingRate;
        stopAt.reset();
        shown = {true, 0, ""};
    }
    arrived.notify_one();
}

void TakeRecorder::stop() {
    const std::lock_guard lock(guard);
    if (shown.isRunning && !stopAt) stopAt = steadyNanoseconds();
}

RecordingReport TakeRecorder::recording() const {
    const std::lock_guard lock(guard);
    return shown;
}

std::vector<RecordedTake> TakeRecorder::finished() {
    const std::lock_guard lock(guard);
    return std::exchange(done, {});
}

void TakeRecorder::setTapped(bool tapped) {
    {
        const std::lock_guard lock(guard);
        tapOrdered = tapped;
        if (!tapped) tapping.setOpen(false);
    }
    arrived.notify_one();
}

bool TakeRecorder::isNeeded() const {
    return job || measuring || tapping.isOpen();
}

void TakeRecorder::run(const std::stop_token& stop) {
    while (!stop.stop_requested()) {
        {
            std::unique_lock lock(guard);
            arrived.wait_for(lock, isWorking ? busyPatience : idlePatience, [&] {
                return stop.stop_requested() || measureOrdered || ordered || tapOrdered != tapping.isOpen();
            });
        }
        takeOrders();
        if (!isWorking) continue;
        if (drain()) lastBlockAt = steadyNanoseconds();
        noteSilence();
        handOver();
        if (!isNeeded()) endWork();
    }
    if (job) endJob("");
}

void TakeRecorder::takeOrders() {
    bool measureNow = false;
    bool tapNow = false;
    std::optional<Job> fresh;
    {
        const std::lock_guard lock(guard);
        measureNow = std::exchange(measureOrdered, false);
        tapNow = tapOrdered && !tapping.isOpen();
        fresh.swap(ordered);
    }
    const bool isAnyNew = measureNow || tapNow || fresh;
    if (isNeeded() || isAnyNew) startWork();
    if (!isAnyNew) return;
    // What waits was played before: it belongs to what goes on already, and to nothing that is begun now.
    drain();
    lastBlockAt = steadyNanoseconds();
    if (fresh && job) endJob("");
    if (measureNow) measuring.emplace(*mixer, *capture);
    const std::lock_guard lock(guard);
    if (tapNow) tapping.setOpen(tapOrdered);
    // What drain() completed was told of meanwhile.
    if (measureNow) trip.isRunning = true;
    if (!fresh) return;
    job = std::move(fresh);
    shown.isRunning = true;
    shown.seconds = 0;
}

void TakeRecorder::startWork() {
    if (std::exchange(isWorking, true)) return;
    // What waited from before is no longer wanted.
    capture->blocks().skip(capture->blocks().readable());
    capture->setKeeping(true);
}

void TakeRecorder::endWork() {
    capture->setKeeping(false);
    isWorking = false;
}

/// Whether anything came.
bool TakeRecorder::drain() {
    InputBlock block;
    bool any = false;
    while (capture->blocks().read({&block, 1}) == 1) {
        any = true;
        tapping.give(block);
        if (measuring) measuring->give(block);
        if (job) giveToJob(block);
    }
    if (measuring && measuring->isDone()) concludeTrip();
    return any;
}

void TakeRecorder::concludeTrip() {
    const Result<double> answer = measuring->seconds();
    measuring.reset();
    const std::lock_guard lock(guard);
    trip.isRunning = false;
    if (answer)
        trip.seconds = *answer;
    else
        trip.message = answer.error().message;
}

void TakeRecorder::giveToJob(const InputBlock& block) {
    std::optional<std::int64_t> last;
    {
        const std::lock_guard lock(guard);
        last = stopAt;
    }
    const auto captured = capture->timeOf(block.first);
    if (last && captured && *captured >= *last) return endJob("");
    if (!job->file && !openFile(block)) return;
    if (block.rateHertz != job->rateHertz || block.channels != job->channels)
        return endJob("The input has changed; what was played until then is kept.");
    if (writeBlock(block)) job->cutter.give(block, heardWith(block));
}

bool TakeRecorder::openFile(const InputBlock& block) {
    std::error_code failure;
    std::filesystem::create_directories(job->path.parent_path(), failure);
    auto opened = SoundFileWriter::createGrowing(job->path, SampleRate{block.rateHertz}, block.channels);
    if (!opened) {
        endJob(opened.error().message);
        return false;
    }
    job->file = std::move(*opened);
    job->firstFrame = block.first.value;
    job->rateHertz = block.rateHertz;
    job->channels = block.channels;
    return true;
}

bool TakeRecorder::writeBlock(const InputBlock& block) {
    const auto wide = static_cast<std::size_t>(block.channels);
    const std::int64_t lost = block.first.value - job->firstFrame - job->written;
    if (lost < 0 || lost >= mostLostSeconds * job->rateHertz) {
        endJob(interruptedMessage);
        return false;
    }
    Result<Done> outcome = Done{};
    if (lost > 0) {
        const std::vector<float> silence(static_cast<std::size_t>(lost) * wide);
        outcome = job->file->write(silence);
        job->written += lost;
    }
    if (outcome) outcome = job->file->write(std::span(block.samples).first(block.frames * wide));
    if (!outcome) {
        endJob(outcome.error().message + " What was played until then is kept.");
        return false;
    }
    job->written += static_cast<std::int64_t>(block.frames);
    return true;
}

std::optional<HeardThen> TakeRecorder::heardWith(const InputBlock& block) const {
    const auto captured = capture->timeOf(block.first);
    if (!captured) return std::nullopt;
    double extra = 0;
    {
        const std::lock_guard lock(guard);
        extra = trip.seconds.value_or(0);
    }
    const HeardClock clock = mixer->heard().clock();
    const double sinceTick = (static_cast<double>(*captured - clock.steadyNanoseconds)) * 1e-9 - extra;
    const double output = static_cast<double>(clock.output.value) + sinceTick * clock.rateHertz;
    const auto segment =
        mixer->heard().segmentAt(OutputFrames(static_cast<std::int64_t>(std::floor(output))));
    if (!segment) return std::nullopt;
    return HeardThen{output, *segment, SampleRate{clock.rateHertz}};
}

void TakeRecorder::noteSilence() {
    if (steadyNanoseconds() - lastBlockAt < silenceNanoseconds) return;
    if (job) {
        bool isStopping = false;
        {
            const std::lock_guard lock(guard);
            isStopping = stopAt.has_value();
        }
        endJob(isStopping ? "" : goneMessage);
    }
    if (!measuring) return;
    measuring.reset();
    const std::lock_guard lock(guard);
    trip.isRunning = false;
    trip.message = noMarksMessage;
}

/// What is complete goes to whoever asks for it.
void TakeRecorder::handOver() {
    if (!job) return;
    const std::vector<CutTake> cut = job->cutter.take();
    const std::lock_guard lock(guard);
    if (job->rateHertz > 0) shown.seconds = static_cast<double>(job->written) / job->rateHertz;
    for (const CutTake& take : cut) {
        const auto inFile = [this](InputFrames frame) {
            return Frames(std::clamp<std::int64_t>(frame.value - job->firstFrame, 0, job->written));
        };
        RecordedTake fresh{job->path,      {inFile(take.part.begin), inFile(take.part.end)},
                           take.at,        1,
                           take.semitones, take.isWholePass};
        fresh.speed = take.framesPerInput * job->rateHertz / job->recordingRate.hertz;
        if (!fresh.part.isEmpty()) done.push_back(fresh);
    }
}

void TakeRecorder::endJob(const std::string& message) {
    std::string said = message;
    job->cutter.finish();
    handOver();
    if (job->file) {
        const auto outcome = job->file->finish();
        if (!outcome && said.empty()) said = outcome.error().message;
    } else if (said.empty()) {
        said = "Nothing came from the input, so nothing was recorded.";
    }
    job.reset();
    const std::lock_guard lock(guard);
    // A new recording may have been ordered meanwhile; what is shown is about that one then.
    if (ordered) return;
    shown.isRunning = false;
    shown.message = said;
}

} // namespace earwright
