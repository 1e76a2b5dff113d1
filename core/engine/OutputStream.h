// One open PortAudio stream and the list it was chosen from.
#pragma once

#include "core/engine/DeviceReport.h"
#include "core/engine/SoundHost.h"
#include "core/result/Result.h"
#include "core/time/SampleRate.h"

#include <string>
#include <vector>

namespace earwright {

/// What a stream asks of its owner; called on PortAudio's threads.
class StreamListener {
public:
    virtual ~StreamListener() = default;
    /// The callback. Real time: no allocation, lock, wait, throw or log. `ranDry`: the system says that sound
    /// was missing before this.
    virtual void streamWants(float* stereo, unsigned long frames, double secondsUntilHeard, bool ranDry) = 0;
    /// The stream has ended, by itself or because it was closed.
    virtual void streamEnded() = 0;
};

/// Threads: whoever has the turn with PortAudio, which every method but the constructor is handed; they may
///   take as long as a sound server hangs.
/// Ownership: close() before the end; the owner is a guest of the host while a stream is open.
class OutputStream {
public:
    OutputStream() = default;
    OutputStream(const OutputStream&) = delete;
    OutputStream& operator=(const OutputStream&) = delete;

    /// Devices with two channels or more; without their rates, which take time to find out.
    static std::vector<DeviceChoice> choices(const SoundTurn& turn);
    /// The usual rates a device plays at. It may be asked for none while it is open elsewhere.
    static std::vector<int> rates(const SoundTurn& turn, int index);

    struct Opened {
        SampleRate rate;
        /// What the device granted.
        double latencySeconds = 0;
        /// All the sound that can wait in it.
        double roomSeconds = 0;
    };
    /// Opens a device. Requires: nothing is open. Error: Device, in one sentence for the user.
    Result<Opened> open(const SoundTurn& turn, const DeviceChoice& choice, SampleRate rate,
                        double latencySeconds, unsigned long periodFrames, StreamListener& listener);
    /// From now on it calls, at first for all it has room for. Requires: isOpen(). Closed again on an error,
    /// which is as with open().
    Result<Done> start(const SoundTurn& turn);
    /// What waits in the device is dropped: whoever wants it heard lets it play out first.
    void close(const SoundTurn& turn);
    bool isOpen() const { return stream != nullptr; }

private:
    void* stream = nullptr;
    std::string name;
};

/// Which of the devices a wish means; the rest of a choice is up to the device.
struct ChosenDevice {
    DeviceChoice device;
    /// A sentence where it is not the one wished for; empty otherwise.
    std::string remark;
};
/// By name, else by index, else the system's default. A name that is not there gives way to the default,
/// unless `insists`. Error: Device, in one sentence for the user.
Result<ChosenDevice> chooseDevice(const std::vector<DeviceChoice>& devices, const DeviceWish& wish,
                                  bool insists);

} // namespace earwright
