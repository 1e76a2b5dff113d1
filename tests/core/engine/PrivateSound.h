// A sound server of the test's own, whose device keeps time and whose sound can be recorded.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <sys/types.h>
#include <vector>

namespace earwright::tests {

/// PulseAudio with a null sink (44.1 kHz stereo), reached by PortAudio through ALSA's pulse plugin; nothing
/// of the user's session is touched. Sets the environment of this process, so make one per process and before
/// PortAudio.
class PrivateSound {
public:
    static bool isAvailable();

    PrivateSound();
    ~PrivateSound();
    PrivateSound(const PrivateSound&) = delete;
    PrivateSound& operator=(const PrivateSound&) = delete;

    /// Starts to record what the device plays.
    void record();
    /// Stops it: interleaved stereo from the start of the recording on.
    std::vector<float> recorded();

    /// The device goes away; everything else goes on.
    void removeSink();
    void addSink();
    /// The server stops answering, and goes on.
    void freeze();
    void thaw();
    void kill();

private:
    void startServer();

    std::filesystem::path folder;
    pid_t server = -1;
    pid_t recorder = -1;
};

/// An environment in which there is no sound device at all.
class NoSound {
public:
    NoSound();
    ~NoSound();

private:
    std::filesystem::path folder;
};

} // namespace earwright::tests
