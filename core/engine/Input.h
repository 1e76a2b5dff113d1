// The musician's side of the player: the input, heard and kept, lined up with the recording.
#pragma once

#include "core/engine/InputReport.h"
#include "core/engine/TakeRecorder.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

namespace earwright {

class InputDevice;

/// How loud the input is.
struct InputLevel {
    /// Highest absolute sample since the last call; 1 is full scale.
    float peak = 0;
    /// Something was cut off at full scale since the last call.
    bool isClipped = false;
};

/// Nothing is opened, heard or kept until it is asked for.
///
/// Threads: all methods from the thread that owns the engine; none waits for device or disk.
class Input {
public:
    explicit Input(const std::shared_ptr<Mixer>& mixer);
    ~Input();
    Input(const Input&) = delete;
    Input& operator=(const Input&) = delete;

    void open(const InputWish& wish);
    void close();
    /// Lists the devices without opening one; choices() has them a little later.
    void look();
    InputReport report() const;
    std::vector<InputChoice> choices() const;
    InputLevel level();

    /// Whether the input is heard in the output; off at first, for a microphone near a loudspeaker howls.
    void setMonitor(bool heard);
    bool isMonitored() const;
    /// Linear, 0 to 1.
    void setMonitorLevel(double linear);

    /// Measures the round trip; see RoundTrip.h. Takes about three seconds.
    void measureRoundTrip() { recorder.measure(); }
    /// What was measured before with these two devices; nothing where they never were. Takes are then lined
    /// up by the latencies the devices report.
    void setRoundTrip(std::optional<double> seconds) { recorder.setRoundTrip(seconds); }
    RoundTripReport roundTrip() const { return recorder.roundTrip(); }

    /// Keeps what comes in, from now on, in a WAV file that must not be there yet. `recordingRate`: of the
    /// recording that is played along with.
    void record(const std::filesystem::path& file, SampleRate recordingRate);
    void stopRecording() { recorder.stop(); }
    RecordingReport recording() const { return recorder.recording(); }
    /// Takes completed since the last call.
    std::vector<RecordedTake> finishedTakes() { return recorder.finished(); }

    /// Lets what comes in be listened to, too; nothing is opened by it.
    void setTapped(bool tapped) { recorder.setTapped(tapped); }
    /// What came in since the last call; see InputTap.
    TappedSound tapped() { return recorder.tap().take(); }

private:
    std::shared_ptr<Mixer> mixer;
    std::shared_ptr<Capture> capture;
    TakeRecorder recorder;
    std::unique_ptr<InputDevice> device;
    std::int64_t clippedBefore = 0;
};

} // namespace earwright
