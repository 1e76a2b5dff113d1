#include "core/sound/SoundFile.h"

#include "core/sound/Completeness.h"
#include "core/sound/ContainerFile.h"
#include "core/sound/ContainerStart.h"
#include "core/sound/LibsndfileFile.h"
#include "core/sound/MpegFile.h"
#include "core/sound/MpegStart.h"

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <optional>
#include <string>

namespace earwright {

namespace {

constexpr int lowestRate = 8000;
constexpr int highestRate = 192000;

std::optional<Error> checkReadable(const std::filesystem::path& path) {
    const std::string name = path.string();
    std::error_code failure;
    const auto status = std::filesystem::status(path, failure);
    if (status.type() == std::filesystem::file_type::not_found)
        return Error{ErrorKind::NotFound, "There is no file " + name + ".", ""};
    if (std::filesystem::is_directory(status))
        return Error{ErrorKind::Malformed, name + " is a folder, not a recording.", ""};
    if (failure)
        return Error{ErrorKind::Unreadable, name + " cannot be read: " + failure.message() + ".", ""};
    if (!std::filesystem::is_regular_file(status))
        return Error{ErrorKind::Malformed, name + " is a device or pipe, not a recording.", ""};
    errno = 0;
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> probe(std::fopen(name.c_str(), "rb"), &std::fclose);
    if (!probe) {
        const std::string reason = std::strerror(errno);
        return Error{ErrorKind::Unreadable, name + " cannot be read: " + reason + ".", ""};
    }
    if (std::fgetc(probe.get()) == EOF) return Error{ErrorKind::Malformed, name + " is empty.", ""};
    return std::nullopt;
}

Result<std::unique_ptr<SoundFile>> decoderFor(const std::filesystem::path& path,
                                              const std::stop_token& stop) {
    if (isMediaContainer(path)) return openContainer(path, stop);
    if (const auto start = findMpegStart(path)) return MpegFile::open(path, *start, stop);
    return LibsndfileFile::open(path);
}

} // namespace

Result<std::unique_ptr<SoundFile>> SoundFile::open(const std::filesystem::path& path,
                                                   const std::stop_token& stop) {
    if (auto problem = checkReadable(path)) return *problem;
    if (containerIsCut(path)) return cutShort(path);
    auto opened = decoderFor(path, stop);
    if (!opened) return opened;
    const int hertz = (*opened)->rate().hertz;
    if (hertz < lowestRate || hertz > highestRate)
        return Error{ErrorKind::Unsupported,
                     path.string() + " has a sample rate of " + std::to_string(hertz) +
                         " Hz; rates from 8,000 to 192,000 Hz can be played.",
                     ""};
    return opened;
}

bool SoundFile::holds(Frames place) {
    std::array<float, 2> frame{};
    return read(place, std::span(frame).first(static_cast<std::size_t>(channels()))) == Frames(1);
}

} // namespace earwright
