// An MPEG audio file from frame to frame, reading nothing but the headers.
#pragma once

#include "core/result/Result.h"
#include "core/time/Frames.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <stop_token>
#include <vector>

namespace earwright {

/// What going through a file's MPEG frames finds.
struct MpegWalk {
    /// Length of the sound.
    Frames length;
    /// Where every MpegWalk::step-th MPEG frame begins, in bytes from the start of the file.
    std::vector<std::int64_t> places;

    static constexpr std::int64_t step = 64;

    /// Ten times as fast as counting with the decoder: 0.1 s for 3 hours. Nothing where the file is not one
    /// clean row of frames (ISO/IEC 11172-3 and 13818-3) followed by at most a tag, so that the decoder has
    /// to find its way itself. Error: Cancelled.
    ///
    /// firstIsTag: the first frame holds a tag in place of sound and does not count.
    static Result<std::optional<MpegWalk>> through(const std::filesystem::path& path,
                                                   std::uint64_t firstFrame, bool firstIsTag,
                                                   const std::stop_token& stop);
};

} // namespace earwright
