// MP3 files, decoded by libmpg123 itself: it alone finds the true length of files whose header promises
// wrongly.
#pragma once

#include "core/sound/MpegStart.h"
#include "core/sound/MpegWalk.h"
#include "core/sound/SoundFile.h"

struct mpg123_handle_struct;

namespace earwright {

class MpegFile final : public SoundFile {
public:
    /// Counts the frames of a file whose header cannot be relied on. Errors: Malformed, Cancelled.
    static Result<std::unique_ptr<SoundFile>> open(const std::filesystem::path& path, const MpegStart& start,
                                                   const std::stop_token& stop);

    SampleRate rate() const override { return fileRate; }
    int channels() const override { return channelCount; }
    Frames length() const override { return frameCount; }
    Frames position() const override { return next; }
    Frames read(Frames from, std::span<float> interleaved) override;
    Result<std::unique_ptr<SoundFile>> another() const override;

private:
    struct Close {
        void operator()(mpg123_handle_struct* handle) const;
    };
    MpegFile() = default;
    static Result<std::unique_ptr<MpegFile>> begin(const std::filesystem::path& path);
    bool takeWalk(std::shared_ptr<const MpegWalk> walk);

    std::filesystem::path filePath;
    MpegStart fileStart;
    /// The places of frames, where they were counted here and not by the decoder.
    std::shared_ptr<const MpegWalk> walked;
    std::unique_ptr<mpg123_handle_struct, Close> handle;
    SampleRate fileRate;
    int channelCount = 2;
    Frames frameCount;
    Frames next;
};

} // namespace earwright
