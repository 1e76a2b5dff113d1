// Works off what the input brings: measures the round trip, and writes takes while they are played.
#pragma once

#include "core/engine/Capture.h"
#include "core/engine/InputTap.h"
#include "core/engine/Mixer.h"
#include "core/engine/RoundTrip.h"
#include "core/engine/TakeCutter.h"
#include "core/result/Result.h"
#include "core/sound/SoundFileWriter.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"
#include "core/time/SampleRate.h"

#include <condition_variable>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace earwright {

/// A take that is on disk.
struct RecordedTake {
    std::filesystem::path file;
    /// Frames of that file.
    Range<Frames> part;
    /// Frame of the recording heard with the first of them.
    Frames at;
    /// Seconds of the recording a second of the file covers.
    double speed = 1;
    double semitones = 0;
    bool isWholePass = false;
};

/// How far a recording of takes is.
struct RecordingReport {
    /// Also while the last sound is still on its way in.
    bool isRunning = false;
    /// Seconds in the file.
    double seconds = 0;
    /// One line for the user where something went wrong; empty otherwise.
    std::string message;
};

/// How the measuring of the round trip goes.
struct RoundTripReport {
    bool isRunning = false;
    /// Beyond what the devices report, in seconds; nothing while unmeasured.
    std::optional<double> seconds;
    /// Why it could not be measured; empty otherwise.
    std::string message;
};

/// Threads: the methods by one thread, none waits; a thread of its own reads the input's blocks and writes
///   the file. The destructor finishes the file.
class TakeRecorder {
public:
    TakeRecorder(std::shared_ptr<Mixer> output, std::shared_ptr<Capture> input);
    ~TakeRecorder();
    TakeRecorder(const TakeRecorder&) = delete;
    TakeRecorder& operator=(const TakeRecorder&) = delete;

    /// Plays marks and finds them; what is recorded meanwhile is lined up with what was known before.
    void measure();
    /// What was measured with these devices before; nothing forgets it.
    void setRoundTrip(std::optional<double> seconds);
    RoundTripReport roundTrip() const;

    /// Everything from here on goes into this WAV file, which must not be there yet; its folder is made.
    /// `recordingRate`: of the recording that is played along with.
    void record(const std::filesystem::path& file, SampleRate recordingRate);
    /// What was played until now is still taken in.
    void stop();
    RecordingReport recording() const;
    /// Hands what comes in to tap() as well, whether anything is recorded or not; nothing from before.
    void setTapped(bool tapped);
    InputTap& tap() { return tapping; }
    /// Takes out what was completed since the last call, passes of a loop one by one.
    std::vector<RecordedTake> finished();

private:
    struct Job {
        std::filesystem::path path;
        SampleRate recordingRate;
        std::unique_ptr<SoundFileWriter> file;
        std::int64_t firstFrame = 0;
        std::int64_t written = 0;
        int rateHertz = 0;
        int channels = 0;
        TakeCutter cutter;
    };

    void run(const std::stop_token& stop);
    void takeOrders();
    bool isNeeded() const;
    void startWork();
    void endWork();
    bool drain();
    void giveToJob(const InputBlock& block);
    bool openFile(const InputBlock& block);
    bool writeBlock(const InputBlock& block);
    std::optional<HeardThen> heardWith(const InputBlock& block) const;
    void noteSilence();
    void handOver();
    void endJob(const std::string& message);
    void concludeTrip();

    const std::shared_ptr<Mixer> mixer;
    const std::shared_ptr<Capture> capture;
    InputTap tapping;

    mutable std::mutex guard;
    std::condition_variable arrived;
    /// Guarded by `guard`.
    bool measureOrdered = false;
    std::optional<Job> ordered;
    bool tapOrdered = false;
    /// On the steady clock: sound captured until then belongs to the recording.
    std::optional<std::int64_t> stopAt;
    RoundTripReport trip;
    RecordingReport shown;
    std::vector<RecordedTake> done;

    /// The thread's own.
    bool isWorking = false;
    std::optional<RoundTrip> measuring;
    std::optional<Job> job;
    std::int64_t lastBlockAt = 0;

    std::jthread thread;
};

} // namespace earwright
