#include "core/sound/Completeness.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <optional>
#include <string_view>
#include <vector>

namespace earwright {

namespace {

constexpr std::uint64_t leastUnfilledSize = 0x7fff0000;
/// A pad byte or a short trailing chunk that a careless writer left out is no loss of sound.
constexpr std::uint64_t toleratedBytes = 16;
/// Longer than the longest Ogg page (65,307 bytes).
constexpr std::uint64_t oggTailBytes = 66000;

std::uint64_t number(const unsigned char* bytes, bool bigEndian) {
    std::uint64_t value = 0;
    for (int i = 0; i < 4; ++i)
        value = value << 8 | bytes[bigEndian ? i : 3 - i];
    return value;
}

/// Bytes the outermost RIFF or FORM chunk promises, its own header included.
std::optional<std::uint64_t> promisedBytes(std::ifstream& bytes) {
    std::array<unsigned char, 12> head{};
    bytes.read(reinterpret_cast<char*>(head.data()), head.size());
    if (bytes.gcount() != static_cast<std::streamsize>(head.size())) return std::nullopt;
    const std::string_view name(reinterpret_cast<const char*>(head.data()), 4);
    if (name != "RIFF" && name != "RIFX" && name != "FORM") return std::nullopt;
    const std::uint64_t size = number(head.data() + 4, name != "RIFF");
    if (size == 0 || size >= leastUnfilledSize) return std::nullopt;
    return size + 8;
}

/// Whether the last Ogg page of the file ends before its own table of segments says.
bool endsInsideOggPage(std::ifstream& bytes, std::uint64_t fileSize) {
    constexpr std::size_t headBytes = 27;
    const std::uint64_t from = fileSize > oggTailBytes ? fileSize - oggTailBytes : 0;
    bytes.clear();
    bytes.seekg(static_cast<std::streamoff>(from));
    std::vector<char> tail(static_cast<std::size_t>(fileSize - from));
    bytes.read(tail.data(), static_cast<std::streamsize>(tail.size()));
    const std::string_view view(tail.data(), tail.size());
    const std::size_t page = view.rfind("OggS");
    if (page == std::string_view::npos) return true;
    if (view.size() < page + headBytes) return true;
    const auto segments = static_cast<std::size_t>(static_cast<unsigned char>(view[page + headBytes - 1]));
    std::size_t end = page + headBytes + segments;
    if (view.size() < end) return true;
    for (std::size_t i = 0; i < segments; ++i)
        end += static_cast<unsigned char>(view[page + headBytes + i]);
    return view.size() < end;
}

} // namespace

bool containerIsCut(const std::filesystem::path& path) {
    std::error_code failure;
    const std::uint64_t fileSize = std::filesystem::file_size(path, failure);
    std::ifstream bytes(path, std::ios::binary);
    if (failure || !bytes) return false;
    std::array<char, 4> start{};
    bytes.read(start.data(), start.size());
    if (std::memcmp(start.data(), "OggS", start.size()) == 0) return endsInsideOggPage(bytes, fileSize);
    bytes.clear();
    bytes.seekg(0);
    const auto promised = promisedBytes(bytes);
    return promised && *promised > fileSize + toleratedBytes;
}

Error cutShort(const std::filesystem::path& path) {
    return {ErrorKind::Malformed,
            path.string() + " is cut short: it ends before the length its header gives. "
                            "Copy it again from where it came from.",
            ""};
}

} // namespace earwright
