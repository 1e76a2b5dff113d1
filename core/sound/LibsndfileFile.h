// Sound files as libsndfile decodes them: WAV, AIFF, FLAC, Ogg and its many others.
#pragma once

#include "core/sound/ChannelFold.h"
#include "core/sound/SoundFile.h"

#include <vector>

struct sf_private_tag;

namespace earwright {

class LibsndfileFile final : public SoundFile {
public:
    /// Errors: Malformed, Unsupported (no length).
    static Result<std::unique_ptr<SoundFile>> open(const std::filesystem::path& path);

    SampleRate rate() const override { return fileRate; }
    int channels() const override { return fold.channelsOut(); }
    Frames length() const override { return promised; }
    Frames position() const override { return next; }
    Frames read(Frames from, std::span<float> interleaved) override;
    Result<std::unique_ptr<SoundFile>> another() const override { return open(path); }
    bool isWhole() override;

private:
    struct Close {
        void operator()(sf_private_tag* file) const;
    };
    using Handle = std::unique_ptr<sf_private_tag, Close>;

    LibsndfileFile(std::filesystem::path path, Handle handle, ChannelFold fold);
    bool moveTo(Frames place);
    bool skip(Frames count);
    std::size_t decode(std::span<float> interleaved);

    std::filesystem::path path;
    Handle file;
    ChannelFold fold;
    SampleRate fileRate;
    Frames promised;
    Frames next;
    bool seekable = true;
    std::vector<float> unfolded;
};

} // namespace earwright
