// MP3 files, decoded by libmpg123 itself: it alone finds the true length of files whose header promises
// wrongly.
#pragma once

#include "core/sound/MpegStart.h"
#include "core/sound/SoundFile.h"

struct mpg123_handle_struct;

namespace earwright {

class MpegFile final : public SoundFile {
public:
    /// Counts the frames of a file whose header cannot be relied on (60 ms for 10 minutes). Errors:
    /// Malformed.
    static Result<std::unique_ptr<SoundFile>> open(const std::filesystem::path& path, const MpegStart& start);

    SampleRate rate() const override { return fileRate; }
    int channels() const override { return channelCount; }
    Frames length() const override { return frameCount; }
    Frames position() const override { return next; }
    Frames read(Frames from, std::span<float> interleaved) override;

private:
    struct Close {
        void operator()(mpg123_handle_struct* handle) const;
    };
    MpegFile() = default;

    std::unique_ptr<mpg123_handle_struct, Close> handle;
    SampleRate fileRate;
    int channelCount = 2;
    Frames frameCount;
    Frames next;
};

} // namespace earwright
