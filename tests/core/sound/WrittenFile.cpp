#include "tests/core/sound/WrittenFile.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <numbers>

namespace earwright::tests {

ScratchFolder::ScratchFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "earwright-test-XXXXXX").string();
    if (!mkdtemp(pattern.data())) std::abort();
    folder = pattern;
}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
}

void writeSound(const std::filesystem::path& path, int format, int rate, int channels,
                const std::vector<float>& interleaved) {
    SF_INFO info{};
    info.samplerate = rate;
    info.channels = channels;
    info.format = format;
    SNDFILE* file = sf_open(path.c_str(), SFM_WRITE, &info);
    if (!file) {
        std::fprintf(stderr, "%s: %s\n", path.c_str(), sf_strerror(nullptr));
        std::abort();
    }
    // Vorbis needs small pieces: libsndfile 1.2 keeps a whole write on the stack.
    const auto wide = static_cast<std::size_t>(channels);
    constexpr std::size_t piece = 4096;
    for (std::size_t at = 0; at < interleaved.size(); at += piece * wide)
        sf_writef_float(file, interleaved.data() + at,
                        static_cast<sf_count_t>(std::min(piece, (interleaved.size() - at) / wide)));
    sf_close(file);
}

std::vector<float> sine(double hertz, int rate, int channels, double seconds, float amplitude) {
    std::vector<float> samples;
    const auto frames = std::llround(seconds * rate);
    for (long long i = 0; i < frames; ++i) {
        const double phase = 2.0 * std::numbers::pi * hertz * static_cast<double>(i) / rate;
        for (int channel = 0; channel < channels; ++channel)
            samples.push_back(amplitude * static_cast<float>(std::sin(phase)));
    }
    return samples;
}

void truncateTo(const std::filesystem::path& path, double share) {
    const auto size = static_cast<double>(std::filesystem::file_size(path));
    std::filesystem::resize_file(path, static_cast<std::uintmax_t>(size * share));
}

void writeBytes(const std::filesystem::path& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary) << bytes;
}

} // namespace earwright::tests
