// What the first bytes of an MPEG audio file (MP3) say, and whether they can be relied on.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>

namespace earwright {

/// What the start of an MPEG file says of the whole.
struct MpegStart {
    /// Its first frame counts bytes and frames of the whole (a Xing, Info or VBRI tag), and the bytes agree
    /// with the size of the file within 1 %: its length needs no counting.
    bool lengthIsReliable = false;
    /// It has no such tag at all.
    bool isUntagged = false;
    /// Where its first frame begins, in bytes.
    std::uint64_t firstFrame = 0;
};

/// Nothing: by its first bytes after ID3v2 tags (the sync word of ISO/IEC 11172-3) and by its name, this is
/// no MPEG audio.
std::optional<MpegStart> findMpegStart(const std::filesystem::path& path);

} // namespace earwright
