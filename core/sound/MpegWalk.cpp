#include "core/sound/MpegWalk.h"

#include <array>
#include <cstdio>
#include <cstring>
#include <memory>
#include <string_view>

namespace earwright {

namespace {

constexpr std::size_t bufferBytes = 1 << 20;

/// What a frame's header says (ISO/IEC 11172-3, 2.4.2.3; 13818-3; "2.5" halves the rates again).
struct FrameHeader {
    std::uint32_t bytes = 0;
    std::uint32_t samples = 0;
    /// Version, layer and rate: the same in all frames of a stream.
    std::uint32_t kind = 0;
};

constexpr std::array<std::uint32_t, 3> ratesOfVersion1{44100, 48000, 32000};
/// Kilobits a second: version 1 layers I, II, III, then version 2 layer I, then its layers II and III.
constexpr std::array<std::array<std::uint16_t, 15>, 5> bitRates{{
    {0, 32, 64, 96, 128, 160, 192, 224, 256, 288, 320, 352, 384, 416, 448},
    {0, 32, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384},
    {0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320},
    {0, 32, 48, 56, 64, 80, 96, 112, 128, 144, 160, 176, 192, 224, 256},
    {0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160},
}};

std::optional<FrameHeader> headerIn(const unsigned char* b) {
    const unsigned version = b[1] >> 3 & 3u; // 0: 2.5, 2: 2, 3: 1
    const unsigned layer = 4 - (b[1] >> 1 & 3u);
    const unsigned rateIndex = b[2] >> 2 & 3u;
    const unsigned bitRateIndex = b[2] >> 4;
    const bool syncs = b[0] == 0xff && (b[1] & 0xe0) == 0xe0;
    // Bit rate 0 is “free”: frames don't tell their length.
    if (!syncs || version == 1 || layer == 4 || rateIndex == 3 || bitRateIndex == 0 || bitRateIndex == 15)
        return std::nullopt;
    const bool isVersion1 = version == 3;
    const std::uint32_t rate = ratesOfVersion1[rateIndex] >> (isVersion1 ? 0 : version == 2 ? 1 : 2);
    const std::size_t table = isVersion1 ? layer - 1 : layer == 1 ? 3 : 4;
    const std::uint32_t bits = bitRates[table][bitRateIndex] * 1000u;
    const std::uint32_t padding = b[2] >> 1 & 1u;
    FrameHeader header;
    header.kind = static_cast<std::uint32_t>(b[1] & 0x1eu) << 8 | rateIndex;
    header.samples = layer == 1 ? 384 : layer == 3 && !isVersion1 ? 576 : 1152;
    header.bytes = layer == 1 ? (12 * bits / rate + padding) * 4 : header.samples / 8 * bits / rate + padding;
    return header;
}

/// Bytes of a file in rising places.
class Reader {
public:
    explicit Reader(const std::filesystem::path& path) : file(std::fopen(path.c_str(), "rb"), &std::fclose) {}

    /// Null where the file ends before.
    const unsigned char* at(std::uint64_t place, std::size_t count) {
        if (place < start || place + count > start + held) fill(place);
        return place + count <= start + held ? buffer.data() + (place - start) : nullptr;
    }

private:
    void fill(std::uint64_t place) {
        start = place;
        held = 0;
        if (!file || std::fseek(file.get(), static_cast<long>(place), SEEK_SET) != 0) return;
        held = std::fread(buffer.data(), 1, buffer.size(), file.get());
    }

    std::unique_ptr<std::FILE, int (*)(std::FILE*)> file;
    std::vector<unsigned char> buffer = std::vector<unsigned char>(bufferBytes);
    std::uint64_t start = 0;
    std::size_t held = 0;
};

/// Whether what follows the last frame is a tag (ID3v1, APE, lyrics) or nothing, and not more sound.
bool isEnd(Reader& reader, std::uint64_t place) {
    const unsigned char* next = reader.at(place, 8);
    if (!next) return true;
    const std::string_view name(reinterpret_cast<const char*>(next), 8);
    return name.starts_with("TAG") || name == "APETAGEX" || name.starts_with("LYRICS");
}

} // namespace

Result<std::optional<MpegWalk>> MpegWalk::through(const std::filesystem::path& path, std::uint64_t firstFrame,
                                                  bool firstIsTag, const std::stop_token& stop) {
    std::error_code failure;
    const std::uint64_t size = std::filesystem::file_size(path, failure);
    Reader reader(path);
    MpegWalk walk;
    FrameHeader first;
    bool endsInsideFrame = false;
    std::uint64_t place = firstFrame;
    std::int64_t frames = firstIsTag ? -1 : 0;
    while (!failure) {
        const unsigned char* bytes = reader.at(place, 4);
        const auto header = bytes ? headerIn(bytes) : std::nullopt;
        if (first.bytes == 0 && header) first = *header;
        if (!header || header->kind != first.kind) break;
        endsInsideFrame = place + header->bytes > size;
        if (endsInsideFrame) break;
        if (frames >= 0 && frames % step == 0) {
            if (stop.stop_requested())
                return Error{ErrorKind::Cancelled, "Opening " + path.string() + " was called off.", ""};
            walk.places.push_back(static_cast<std::int64_t>(place));
        }
        place += header->bytes;
        ++frames;
    }
    if (frames <= 0 || !(endsInsideFrame || isEnd(reader, place))) return std::optional<MpegWalk>();
    walk.length = Frames(frames * first.samples);
    return std::optional(std::move(walk));
}

} // namespace earwright
