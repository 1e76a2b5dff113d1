#include "core/sound/FlacLength.h"

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <span>
#include <string_view>
#include <vector>

namespace earwright {

namespace {

using Bytes = std::span<const unsigned char>;

/// Longer than any frame of music: eight channels of 65,535 samples of 24 bits would be 1.6 MB.
constexpr std::uint64_t tailBytes = 2 << 20;
constexpr std::size_t shortestFrame = 9;
/// Sound looks like a frame's header, checksum and all, about once in 8 MB; where many headers have no whole
/// frame behind them, the last frame is cut off or the file is made to waste time.
constexpr int mostHeaders = 16;

std::vector<unsigned char> bytesAt(std::ifstream& file, std::uint64_t from, std::uint64_t count) {
    std::vector<unsigned char> bytes(static_cast<std::size_t>(count));
    file.clear();
    file.seekg(static_cast<std::streamoff>(from));
    file.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(count));
    bytes.resize(static_cast<std::size_t>(file.gcount()));
    return bytes;
}

/// RFC 9639, 9.1.8: x⁸ + x² + x + 1.
unsigned crc8(Bytes bytes) {
    unsigned crc = 0;
    for (const unsigned char byte : bytes) {
        crc ^= byte;
        for (int bit = 0; bit < 8; ++bit)
            crc = (crc << 1 ^ ((crc & 0x80u) ? 0x07u : 0u)) & 0xffu;
    }
    return crc;
}

/// RFC 9639, 9.3: x¹⁶ + x¹⁵ + x² + 1. Zero over a frame with its checksum.
unsigned crc16(Bytes bytes) {
    unsigned crc = 0;
    for (const unsigned char byte : bytes) {
        crc ^= static_cast<unsigned>(byte) << 8;
        for (int bit = 0; bit < 8; ++bit)
            crc = (crc << 1 ^ ((crc & 0x8000u) ? 0x8005u : 0u)) & 0xffffu;
    }
    return crc;
}

struct CodedNumber {
    std::uint64_t value = 0;
    std::size_t bytes = 1;
};

/// The frame's number, coded as UTF-8 codes characters but up to 36 bits.
std::optional<CodedNumber> codedNumber(Bytes bytes) {
    const unsigned lead = bytes[0];
    if (lead < 0x80) return CodedNumber{lead, 1};
    std::size_t length = 0;
    while (length < 8 && (lead & (0x80u >> length)))
        ++length;
    if (length < 2 || length > 7 || bytes.size() < length) return std::nullopt;
    std::uint64_t value = lead & (0x7fu >> length);
    for (std::size_t i = 1; i < length; ++i) {
        if ((bytes[i] & 0xc0u) != 0x80u) return std::nullopt;
        value = value << 6 | (bytes[i] & 0x3fu);
    }
    return CodedNumber{value, length};
}

/// Samples in a frame by the code in its header; codes 6 and 7 take `extra` from behind the number.
std::uint64_t blockSizeOf(unsigned code, Bytes extra) {
    if (code == 1) return 192;
    if (code >= 2 && code <= 5) return std::uint64_t{576} << (code - 2);
    if (code == 6) return extra[0] + 1u;
    if (code == 7) return (static_cast<std::uint64_t>(extra[0]) << 8 | extra[1]) + 1;
    return std::uint64_t{256} << (code - 8);
}

/// The sample after the last one of a frame. Nothing where there is no frame header.
std::optional<std::uint64_t> endOfFrame(Bytes frame, std::uint64_t usualBlockSize) {
    const auto number = codedNumber(frame.subspan(4));
    const unsigned sizeCode = frame[2] >> 4;
    const unsigned rateCode = frame[2] & 15u;
    if (!number || sizeCode == 0 || rateCode == 15) return std::nullopt;
    const std::size_t sizeAt = 4 + number->bytes;
    const std::size_t rateBytes = rateCode == 12 ? 1 : rateCode > 12 ? 2 : 0;
    const std::size_t crcAt = sizeAt + (sizeCode == 6 ? 1 : sizeCode == 7 ? 2 : 0) + rateBytes;
    if (frame.size() < crcAt + 1 || crc8(frame.first(crcAt)) != frame[crcAt]) return std::nullopt;
    const bool isSampleNumber = (frame[1] & 1u) != 0;
    const std::uint64_t start = isSampleNumber ? number->value : number->value * usualBlockSize;
    return start + blockSizeOf(sizeCode, frame.subspan(sizeAt));
}

} // namespace

std::optional<Frames> findFlacLength(const std::filesystem::path& path) {
    std::error_code failure;
    const std::uint64_t size = std::filesystem::file_size(path, failure);
    std::ifstream file(path, std::ios::binary);
    const auto head = bytesAt(file, 0, 12);
    if (failure || head.size() < 12 ||
        std::string_view(reinterpret_cast<const char*>(head.data()), 4) != "fLaC")
        return std::nullopt;
    const std::uint64_t usualBlockSize = static_cast<std::uint64_t>(head[8]) << 8 | head[9];
    const std::uint64_t from = size > tailBytes ? size - tailBytes : 0;
    const auto tail = bytesAt(file, from, size - from);
    if (tail.size() < shortestFrame) return std::nullopt;
    int headers = 0;
    for (std::size_t at = tail.size() - shortestFrame + 1; at-- > 0 && headers < mostHeaders;) {
        if (tail[at] != 0xff || (tail[at + 1] & 0xfeu) != 0xf8u) continue;
        const Bytes frame = Bytes(tail).subspan(at);
        const auto end = endOfFrame(frame, usualBlockSize);
        if (!end) continue;
        ++headers;
        if (crc16(frame) == 0) return Frames(static_cast<std::int64_t>(*end));
    }
    return std::nullopt;
}

} // namespace earwright
