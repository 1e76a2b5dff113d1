#include "tests/core/engine/PrivateSound.h"

#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace earwright::tests {

namespace {

using namespace std::chrono_literals;

std::filesystem::path freshFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "earwright-sound-XXXXXX").string();
    if (!mkdtemp(pattern.data())) std::abort();
    return pattern;
}

/// Starts a program with its output in a file and its messages nowhere.
pid_t start(const std::vector<std::string>& words, const std::filesystem::path& output) {
    const pid_t child = fork();
    if (child != 0) return child;
    const int out = open(output.c_str(), O_CREAT | O_WRONLY | O_TRUNC, 0600);
    const int nowhere = open("/dev/null", O_WRONLY);
    dup2(out, STDOUT_FILENO);
    dup2(nowhere, STDERR_FILENO);
    std::vector<char*> arguments;
    for (const std::string& word : words)
        arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    execvp(arguments.front(), arguments.data());
    _exit(127);
}

void end(pid_t& child, int signal) {
    if (child <= 0) return;
    ::kill(child, SIGCONT);
    ::kill(child, signal);
    waitpid(child, nullptr, 0);
    child = -1;
}

bool succeeds(const std::string& command) {
    return std::system((command + " >/dev/null 2>&1").c_str()) == 0;
}

std::string nullSink(const std::string& name) {
    return "module-null-sink norewinds=1 rate=44100 channels=2 format=float32le sink_name=" + name;
}

} // namespace

bool PrivateSound::isAvailable() {
    return succeeds("{ command -v pulseaudio && command -v pactl && command -v parec; }");
}

PrivateSound::PrivateSound(bool withOther) : folder(freshFolder()), hasOther(withOther) {
    std::filesystem::create_directories(folder / "run" / "pulse");
    std::filesystem::permissions(folder / "run", std::filesystem::perms::owner_all);
    const auto set = [](const char* name, const std::string& value) { setenv(name, value.c_str(), 1); };
    set("HOME", folder);
    set("XDG_RUNTIME_DIR", folder / "run");
    set("PULSE_RUNTIME_PATH", folder / "run" / "pulse");
    set("PULSE_STATE_PATH", folder);
    set("PULSE_SERVER", "unix:" + (folder / "run" / "pulse" / "native").string());
    set("ALSA_CONFIG_PATH", folder / "alsa.conf");
    unsetenv("DBUS_SESSION_BUS_ADDRESS");
    std::ofstream(folder / "alsa.conf")
        << "pcm.default { type pulse hint { show on description \"test\" } }\n"
           "ctl.default { type pulse }\n"
        << (hasOther ? "pcm.other { type pulse device other hint { show on description \"other\" } }\n" : "");
    startServer();
}

void PrivateSound::startServer() {
    server = start({"pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no",
                    "--disable-shm=yes", "--high-priority=no", "--realtime=no", "--log-level=error", "-L",
                    "module-native-protocol-unix auth-anonymous=1 socket=" +
                        (folder / "run" / "pulse" / "native").string(),
                    "-L", nullSink("test")},
                   folder / "server.log");
    for (int i = 0; i < 200 && !succeeds("pactl info"); ++i)
        std::this_thread::sleep_for(50ms);
    if (hasOther) succeeds("pactl load-module " + nullSink("other"));
    succeeds("pactl set-default-sink test");
}

PrivateSound::~PrivateSound() {
    for (auto& [sink, recorder] : recorders)
        end(recorder, SIGKILL);
    end(server, SIGKILL);
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
}

void PrivateSound::record(const std::string& sink) {
    end(recorders[sink], SIGKILL);
    const std::filesystem::path heard = folder / (sink + ".raw");
    recorders[sink] = start({"parec", "--latency-msec=20", "-d", sink + ".monitor", "--format=float32le",
                             "--rate=44100", "--channels=2", "--raw"},
                            heard);
    // Silence comes as well: the first bytes say that recording has begun.
    std::error_code ignored;
    for (int i = 0; i < 200; ++i) {
        if (std::filesystem::file_size(heard, ignored) > 0 && !ignored) return;
        std::this_thread::sleep_for(20ms);
    }
}

std::vector<float> PrivateSound::recorded(const std::string& sink) {
    std::this_thread::sleep_for(150ms);
    end(recorders[sink], SIGTERM);
    const std::filesystem::path heard = folder / (sink + ".raw");
    std::ifstream file(heard, std::ios::binary);
    std::vector<float> samples(std::filesystem::file_size(heard) / sizeof(float) / 2 * 2);
    file.read(reinterpret_cast<char*>(samples.data()),
              static_cast<std::streamsize>(samples.size() * sizeof(float)));
    return samples;
}

void PrivateSound::removeSink() {
    // Its monitor's recorder would hold up the sink's end.
    end(recorders["test"], SIGKILL);
    succeeds("pactl unload-module module-null-sink");
}
void PrivateSound::addSink() {
    succeeds("pactl load-module " + nullSink("test"));
    if (hasOther) succeeds("pactl load-module " + nullSink("other"));
}
void PrivateSound::freeze() {
    ::kill(server, SIGSTOP);
}
void PrivateSound::thaw() {
    ::kill(server, SIGCONT);
}
void PrivateSound::kill() {
    end(server, SIGKILL);
    end(recorders["test"], SIGKILL);
}

NoSound::NoSound() : folder(freshFolder()) {
    setenv("HOME", folder.c_str(), 1);
    setenv("XDG_RUNTIME_DIR", folder.c_str(), 1);
    setenv("PULSE_SERVER", ("unix:" + (folder / "nobody").string()).c_str(), 1);
    setenv("ALSA_CONFIG_PATH", (folder / "alsa.conf").c_str(), 1);
    std::ofstream(folder / "alsa.conf")
        << "pcm.default { type pulse hint { show on description \"test\" } }\n"
           "ctl.default { type pulse }\n";
}

NoSound::~NoSound() {
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
}

} // namespace earwright::tests
