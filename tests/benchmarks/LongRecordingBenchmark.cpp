// What a recording of ten minutes or three hours costs: opening it to the first sound, seeking, its overview,
// and memory. Times are CPU time of the thread, so that they hold on a busy machine too; files are written
// into a folder that goes away, the lossy ones by the ffmpeg tool.
#include "core/sound/PeakPyramid.h"
#include "core/sound/Recording.h"
#include "core/sound/SoundFileWriter.h"
#include "tests/core/sound/WrittenFile.h"

#include <benchmark/benchmark.h>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <malloc.h>
#include <map>
#include <optional>
#include <sndfile.h>
#include <string>
#include <unistd.h>
#include <vector>

namespace earwright {
namespace {

namespace fs = std::filesystem;

constexpr SampleRate rate{44100};
constexpr std::int64_t tenMinutes = 600;
/// Three hours are eighteen times ten minutes.
constexpr int repeats = 17;

/// How the tool codes a kind of file; an empty word stands for a file that is written here.
const std::map<std::string, std::string> codings{
    {"wav", ""},
    {"flac", ""},
    {"ogg", "-c:a libvorbis -q:a 4"},
    {"mp3", "-c:a libmp3lame -q:a 4"},
    {"untagged.mp3", "-c:a libmp3lame -q:a 4 -write_xing 0 -id3v2_version 0"},
    {"m4a", "-c:a aac -b:a 128k"},
};

bool run(const std::string& words) {
    return std::system(("ffmpeg -nostdin -loglevel error -y " + words).c_str()) == 0;
}

std::string quoted(const fs::path& path) {
    return "'" + path.string() + "'";
}

/// Plucked notes over a bass, with a breath of noise, so that coders have work to do.
std::vector<float> tenSeconds() {
    std::vector<float> sound;
    unsigned random = 5;
    for (int i = 0; i < 10 * rate.hertz; ++i) {
        const double time = static_cast<double>(i) / rate.hertz;
        const double since = std::fmod(time, 0.25);
        const int note = static_cast<int>(time / 0.25) * 5 % 12;
        double line = 0;
        for (int partial = 1; partial <= 8; ++partial)
            line += std::sin(2 * M_PI * 220 * std::exp2(note / 12.0) * partial * time) / partial;
        random = random * 1664525u + 1013904223u;
        const double noise = (static_cast<double>(random >> 8) / 8388608.0 - 1) * 0.02;
        const double bass = 0.1 * std::sin(2 * M_PI * 55 * time);
        sound.push_back(static_cast<float>(0.15 * line * std::exp(-6 * since) + bass + noise));
        sound.push_back(static_cast<float>(0.08 * line * std::exp(-6 * since) + bass - noise));
    }
    return sound;
}

void writeLong(const fs::path& path, std::int64_t seconds) {
    SF_INFO info{};
    info.samplerate = rate.hertz;
    info.channels = 2;
    info.format = (path.extension() == ".flac" ? SF_FORMAT_FLAC : SF_FORMAT_WAV) | SF_FORMAT_PCM_16;
    SNDFILE* file = sf_open(path.c_str(), SFM_WRITE, &info);
    static const std::vector<float> piece = tenSeconds();
    for (std::int64_t at = 0; at < seconds; at += 10)
        sf_writef_float(file, piece.data(), static_cast<sf_count_t>(piece.size() / 2));
    sf_close(file);
}

/// The file of a kind and length, written when it is first asked for. Nothing where the tool is not there.
std::optional<fs::path> fileOf(const std::string& kind, std::int64_t seconds) {
    static const tests::ScratchFolder folder;
    const auto named = [&](std::int64_t length) { return folder / (std::to_string(length) + "s." + kind); };
    const fs::path path = named(seconds);
    if (fs::exists(path)) return path;
    const std::string& how = codings.at(kind);
    if (how.empty()) {
        writeLong(path, seconds);
        return path;
    }
    if (seconds > tenMinutes) {
        const auto shorter = fileOf(kind, tenMinutes);
        const std::string untagged = kind == "untagged.mp3" ? " -write_xing 0 -id3v2_version 0" : "";
        if (!shorter || !run("-stream_loop " + std::to_string(repeats) + " -i " + quoted(*shorter) +
                             " -c copy" + untagged + " " + quoted(path)))
            return std::nullopt;
        return path;
    }
    const auto plain = fileOf("wav", seconds);
    if (!run("-i " + quoted(*plain) + " " + how + " " + quoted(path))) return std::nullopt;
    return path;
}

double residentMegabytes() {
    malloc_trim(0);
    std::ifstream status("/proc/self/statm");
    std::int64_t whole = 0;
    std::int64_t resident = 0;
    status >> whole >> resident;
    return static_cast<double>(resident * sysconf(_SC_PAGESIZE)) / 1e6;
}

void openToFirstSound(benchmark::State& state, const std::string& kind, std::int64_t seconds) {
    const auto path = fileOf(kind, seconds);
    if (!path) return state.SkipWithError("the ffmpeg tool could not write the file");
    std::vector<float> block(2 * 4096);
    for (auto _ : state) {
        const auto recording = Recording::open(*path);
        if (!recording) return state.SkipWithError(recording.error().message.c_str());
        benchmark::DoNotOptimize((*recording)->read(Frames(0), block));
    }
}

void seek(benchmark::State& state, const std::string& kind, std::int64_t seconds) {
    const auto path = fileOf(kind, seconds);
    if (!path) return state.SkipWithError("the ffmpeg tool could not write the file");
    const auto recording = Recording::open(*path);
    if (!recording) return state.SkipWithError(recording.error().message.c_str());
    std::vector<float> block(2 * 4096);
    std::uint64_t random = 11;
    for (auto _ : state) {
        random = random * 6364136223846793005u + 1442695040888963407u;
        const auto place = static_cast<std::int64_t>(
            (random >> 20) % static_cast<std::uint64_t>((*recording)->length().value));
        benchmark::DoNotOptimize((*recording)->read(Frames(place), block));
    }
}

void overview(benchmark::State& state, const std::string& kind, std::int64_t seconds) {
    const auto path = fileOf(kind, seconds);
    if (!path) return state.SkipWithError("the ffmpeg tool could not write the file");
    for (auto _ : state) {
        const double before = residentMegabytes();
        const auto recording = Recording::open(*path);
        if (!recording) return state.SkipWithError(recording.error().message.c_str());
        PeakPyramid pyramid((*recording)->length());
        benchmark::DoNotOptimize(pyramid.fill(**recording).ok());
        std::vector<float> block(2 * 4096);
        for (std::int64_t at = 0; at < 100; ++at) // as many pages as playing and looking around keep
            (*recording)->read(Frames(at * 65536), block);
        state.counters["MB"] = residentMegabytes() - before;
    }
}

void declareAll() {
    for (const auto& [kind, how] : codings)
        for (const std::int64_t seconds : {tenMinutes, tenMinutes * (repeats + 1)}) {
            const std::string of = "/" + kind + (seconds == tenMinutes ? "/10min" : "/3h");
            benchmark::RegisterBenchmark(("OpenToFirstSound" + of).c_str(), openToFirstSound, kind, seconds)
                ->Unit(benchmark::kMillisecond)
                ->Iterations(5);
            benchmark::RegisterBenchmark(("Seek" + of).c_str(), seek, kind, seconds)
                ->Unit(benchmark::kMillisecond)
                ->Iterations(50);
            benchmark::RegisterBenchmark(("Overview" + of).c_str(), overview, kind, seconds)
                ->Unit(benchmark::kMillisecond)
                ->Iterations(1);
        }
}

const bool declared = (declareAll(), true);

} // namespace
} // namespace earwright
