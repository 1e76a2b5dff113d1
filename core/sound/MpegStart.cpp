#include "core/sound/MpegStart.h"

#include <cmath>
#include <fstream>
#include <span>
#include <string_view>
#include <vector>

namespace earwright {

namespace {

using Bytes = std::vector<unsigned char>;

Bytes bytesAt(std::ifstream& file, std::uint64_t from, std::size_t count) {
    Bytes bytes(count);
    file.clear();
    file.seekg(static_cast<std::streamoff>(from));
    file.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(count));
    bytes.resize(static_cast<std::size_t>(file.gcount()));
    return bytes;
}

std::uint32_t bigEndian(std::span<const unsigned char> bytes) {
    return static_cast<std::uint32_t>(bytes[0]) << 24 | static_cast<std::uint32_t>(bytes[1]) << 16 |
           static_cast<std::uint32_t>(bytes[2]) << 8 | static_cast<std::uint32_t>(bytes[3]);
}

/// Bytes of ID3v2 tags at the start; each counts its size in four bytes of seven bits.
std::uint64_t tagBytes(std::ifstream& file) {
    std::uint64_t end = 0;
    for (;;) {
        const Bytes head = bytesAt(file, end, 10);
        if (head.size() < 10 || head[0] != 'I' || head[1] != 'D' || head[2] != '3') return end;
        const std::uint64_t size = static_cast<std::uint64_t>(head[6] & 127) << 21 |
                                   static_cast<std::uint64_t>(head[7] & 127) << 14 |
                                   static_cast<std::uint64_t>(head[8] & 127) << 7 | (head[9] & 127u);
        const bool hasFooter = (head[5] & 16) != 0;
        end += 10 + size + (hasFooter ? 10 : 0);
    }
}

bool holdsTag(const Bytes& frame) {
    const std::string_view text(reinterpret_cast<const char*>(frame.data()), frame.size());
    return text.find("Xing") < 64 || text.find("Info") < 64 || text.find("VBRI") < 64;
}

/// The byte count that a Xing, Info or VBRI tag in the first frame gives.
std::optional<std::uint64_t> countedBytes(const Bytes& frame) {
    const std::string_view text(reinterpret_cast<const char*>(frame.data()), frame.size());
    for (const std::string_view name : {"Xing", "Info"}) {
        const std::size_t at = text.find(name);
        if (at == std::string_view::npos || at > 64 || frame.size() < at + 16) continue;
        const std::uint32_t flags = bigEndian(std::span(frame).subspan(at + 4));
        if ((flags & 3u) != 3u) return std::nullopt;
        return bigEndian(std::span(frame).subspan(at + 12));
    }
    const std::size_t at = text.find("VBRI");
    if (at == std::string_view::npos || at > 64 || frame.size() < at + 18) return std::nullopt;
    return bigEndian(std::span(frame).subspan(at + 10));
}

} // namespace

std::optional<MpegStart> findMpegStart(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    const std::uint64_t start = tagBytes(file);
    const Bytes frame = bytesAt(file, start, 256);
    const bool syncs = frame.size() >= 4 && frame[0] == 0xff && (frame[1] & 0xe0) == 0xe0;
    if (!syncs && path.extension() != ".mp3" && path.extension() != ".MP3") return std::nullopt;
    if (!syncs) return MpegStart{};
    MpegStart found;
    found.firstFrame = start;
    found.isUntagged = !holdsTag(frame);
    const auto counted = countedBytes(frame);
    if (!counted) return found;
    std::error_code failure;
    const auto fileBytes = static_cast<double>(std::filesystem::file_size(path, failure));
    const double held = fileBytes - static_cast<double>(start);
    found.lengthIsReliable = std::abs(static_cast<double>(*counted) - held) < 0.01 * held;
    return found;
}

} // namespace earwright
