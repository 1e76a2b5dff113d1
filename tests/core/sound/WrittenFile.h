// Sound files that a test writes for itself, in a folder of its own.
#pragma once

#include <filesystem>
#include <sndfile.h>
#include <string>
#include <vector>

namespace earwright::tests {

/// A folder that goes away with the test.
class ScratchFolder {
public:
    ScratchFolder();
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    std::filesystem::path operator/(const std::string& name) const { return folder / name; }

private:
    std::filesystem::path folder;
};

/// Writes interleaved samples with libsndfile; format as SF_FORMAT_…; ends the program where that fails.
void writeSound(const std::filesystem::path& path, int format, int rate, int channels,
                const std::vector<float>& interleaved);
/// The same sine in every channel.
std::vector<float> sine(double hertz, int rate, int channels, double seconds, float amplitude = 0.5f);
/// Cuts a file down to a share of its bytes.
void truncateTo(const std::filesystem::path& path, double share);
void writeBytes(const std::filesystem::path& path, const std::string& bytes);

} // namespace earwright::tests
