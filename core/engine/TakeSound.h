// The sound file of takes as far as it belongs to one of them.
#pragma once

#include "core/sound/Recording.h"
#include "core/time/Range.h"

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace earwright {

/// The file frame by frame, mono, as the mean of its channels, but silent outside the take's part, before and
/// behind which it is faded over 10 ms. So a take is measured as it is heard.
///
/// Threads: one at a time; reads the disk.
/// Units: frames of the file, in its rate.
class TakeSound final : public Recording {
public:
    TakeSound(std::shared_ptr<Recording> file, const Range<Frames>& part);

    const std::filesystem::path& path() const override { return file->path(); }
    SampleRate rate() const override { return file->rate(); }
    int channels() const override { return 1; }
    Frames length() const override { return file->length(); }
    Frames read(Frames from, std::span<float> mono) override;
    std::shared_ptr<const void> hold(const Range<Frames>& loop) override { return file->hold(loop); }

private:
    float audibility(Frames frame) const;

    std::shared_ptr<Recording> file;
    Range<Frames> part;
    Frames edge;
    std::vector<float> block;
};

} // namespace earwright
