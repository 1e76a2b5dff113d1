// One open PortAudio stream and the list it was chosen from.
#pragma once

#include "core/engine/Engine.h"
#include "core/result/Result.h"
#include "core/time/SampleRate.h"

#include <functional>
#include <string>
#include <vector>

namespace earwright {

/// What a stream asks of its owner; called on PortAudio's threads.
class StreamListener {
public:
    virtual ~StreamListener() = default;
    /// The callback. Real time: no allocation, lock, wait, throw or log.
    virtual void streamWants(float* stereo, unsigned long frames, double secondsUntilHeard) = 0;
    /// The stream has ended, by itself or because it was closed.
    virtual void streamEnded() = 0;
};

/// Threads: one thread makes all calls, and they may take as long as a sound server hangs.
/// Ownership: initialises PortAudio while it lives; one at a time.
class OutputStream {
public:
    OutputStream();
    ~OutputStream();
    OutputStream(const OutputStream&) = delete;
    OutputStream& operator=(const OutputStream&) = delete;

    std::vector<DeviceChoice> choices() const;
    /// Name and rate of what would be opened. Error: Device, in one sentence for the user.
    struct Chosen {
        int index = -1;
        std::string name;
        SampleRate rate;
    };
    Result<Chosen> choose(int index) const;
    /// Opens and starts. Requires: nothing is open. Error: Device.
    Result<Done> open(const Chosen& chosen, double latencySeconds, unsigned long periodFrames,
                      StreamListener& listener);
    void close();

private:
    bool initialised = false;
    void* stream = nullptr;
};

} // namespace earwright
