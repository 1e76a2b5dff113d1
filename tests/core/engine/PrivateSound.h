// A sound server of the test's own, whose device keeps time and whose sound can be recorded.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <sys/types.h>
#include <vector>

namespace earwright::tests {

/// PulseAudio with null sinks (44.1 kHz stereo), reached by PortAudio through ALSA's pulse plugin: "test",
/// the default, and if asked for "other". Nothing of the user's session is touched. Sets the environment of
/// this process, so make one per process and before PortAudio.
class PrivateSound {
public:
    static bool isAvailable();

    explicit PrivateSound(bool hasOther = false);
    ~PrivateSound();
    PrivateSound(const PrivateSound&) = delete;
    PrivateSound& operator=(const PrivateSound&) = delete;

    /// Starts to record what a device plays.
    void record(const std::string& sink = "test");
    /// Stops it: interleaved stereo from the start of the recording on.
    std::vector<float> recorded(const std::string& sink = "test");

    /// The device goes away, or comes back; the server stays.
    void removeSink();
    void addSink();
    /// The server stops answering, and goes on.
    void freeze();
    void thaw();
    void kill();
    /// The server is there again after kill().
    void revive() { startServer(); }

private:
    void startServer();

    std::filesystem::path folder;
    bool hasOther;
    pid_t server = -1;
    /// By the name of the sink.
    std::map<std::string, pid_t> recorders;
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
