// A take as an endless stream that goes along with a lane: straight on, or round and round the lane's loop.
#pragma once

#include "core/engine/TakePlayback.h"
#include "core/engine/TimeTags.h"
#include "core/sound/Recording.h"

#include <cstdint>
#include <span>
#include <vector>

namespace earwright {

/// Frame n of this recording is the take's sound that belongs to the place n · speed onwards from where the
/// lane sounds first; silence where the take has none. Each pass of the loop is placed anew from the tags, so
/// nothing adds up; the passes fade over as those of the record do.
///
/// Threads: one at a time; reads the disk.
/// Units: frames at the take file's rate, in its channels.
class TakeSound final : public Recording {
public:
    TakeSound(const TakePlayback& take, const TimeTags& tags, SampleRate recordingRate);

    const std::filesystem::path& path() const override { return take.sound->path(); }
    SampleRate rate() const override { return take.sound->rate(); }
    int channels() const override { return take.sound->channels(); }
    /// Endless for any purpose.
    Frames length() const override { return Frames(std::int64_t{1} << 50); }
    Frames read(Frames from, std::span<float> interleaved) override;

private:
    /// Frames that follow each other in the file.
    struct Stretch {
        std::int64_t begin = 0;
        std::int64_t end = 0;
        /// File frame of `begin`.
        std::int64_t file = 0;
    };
    Stretch stretchAt(std::int64_t frame) const;
    Stretch pass(std::int64_t passesOn) const;
    void readFile(std::int64_t file, std::span<float> interleaved) const;
    void fadeIntoNext(const Stretch& now, std::int64_t from, std::span<float> interleaved);
    float audibility(std::int64_t file) const;

    const TakePlayback take;
    const TimeTags tags;
    /// Frames of the recording a frame of the take covers.
    double perFrame = 1;
    std::int64_t fade = 0;
    std::vector<float> comingIn;
};

} // namespace earwright
