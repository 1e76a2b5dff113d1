// One open PortAudio input stream and the list it was chosen from.
#pragma once

#include "core/engine/InputReport.h"
#include "core/engine/SoundHost.h"
#include "core/result/Result.h"
#include "core/time/SampleRate.h"

#include <span>
#include <string>
#include <vector>

namespace earwright {

/// What a stream gives its owner; called on PortAudio's threads.
class InputListener {
public:
    virtual ~InputListener() = default;
    /// The callback. Real time: no allocation, lock, wait, throw or log.
    virtual void streamGives(std::span<const float> interleaved, double secondsSinceCaptured) = 0;
    /// The stream has ended, by itself or because it was closed.
    virtual void streamEnded() = 0;
};

/// Threads: calls need a turn with PortAudio, and may take as long as a sound server hangs.
/// Ownership: close() before the end; the listener outlives the stream that is open.
class InputStream {
public:
    ~InputStream();
    InputStream() = default;
    InputStream(const InputStream&) = delete;
    InputStream& operator=(const InputStream&) = delete;

    /// Devices with an input; of more than two channels the first two are used.
    static std::vector<InputChoice> choices(const SoundTurn& turn);
    /// What would be opened.
    struct Chosen {
        /// As PortAudio counts, valid until devices are listed again.
        int index = -1;
        std::string name;
        SampleRate rate;
        /// 1 or 2.
        int channels = 1;
    };
    /// The input of the wished name, or the system's default where none is named. Error: Device, in one
    /// sentence for the user.
    static Result<Chosen> choose(const SoundTurn& turn, const InputWish& wish);

    /// Opens and starts; returns the latency granted, in seconds. Requires: nothing is open. Error: Device.
    Result<double> open(const SoundTurn& turn, const Chosen& chosen, double latencySeconds,
                        unsigned long periodFrames, InputListener& listener);
    void close(const SoundTurn& turn);

private:
    struct Callbacks;
    void* stream = nullptr;
    InputListener* heard = nullptr;
    std::size_t channelCount = 1;
};

} // namespace earwright
