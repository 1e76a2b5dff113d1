// The overview of a recording: lowest, highest and mean level over ever longer stretches, for any zoom.
#pragma once

#include "core/result/Result.h"
#include "core/sound/Recording.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"

#include <atomic>
#include <cstdint>
#include <functional>
#include <span>
#include <stop_token>
#include <vector>

namespace earwright {

/// Levels of a stretch, over all channels; full scale is 1.
struct Peak {
    float least = 0;
    float most = 0;
    /// Root of the mean square.
    float rms = 0;
    friend bool operator==(const Peak&, const Peak&) = default;
};

/// Peaks of a whole recording, filled from its start to its end.
///
/// Threads: one thread calls fill(), once; any others may read over(), columns() and known() meanwhile,
///   without locks: buckets are written before they are published.
/// Units: frames of the recording. Finest resolution 128 frames (2.9 ms at 44.1 kHz); 8 bytes of memory for
///   each, a third more for the coarser levels.
class PeakPyramid {
public:
    static constexpr std::int64_t finestFrames = 128;

    /// All silent and unknown, for a recording of this length.
    explicit PeakPyramid(Frames length);

    /// Reads the recording through, publishing as it goes; progress (0 to 1) is called on this thread about
    /// a hundred times. Errors: Cancelled. Requires: recording.length() is the length given at making.
    Result<Done> fill(Recording& recording, const std::stop_token& stop = {},
                      const std::function<void(double)>& progress = {});

    Frames length() const { return frameCount; }
    /// Everything before this frame can be read.
    Frames known() const { return Frames(knownFrames.load(std::memory_order_acquire)); }
    bool isComplete() const { return known() >= frameCount; }

    /// The peak over a range widened to whole buckets of the finest level, as far as known; silent elsewhere.
    Peak over(const Range<Frames>& range) const;
    /// The same for equally wide columns of a drawing, left to right.
    void columns(const Range<Frames>& range, std::span<Peak> out) const;

private:
    /// Samples in 1/32767 of full scale, clipped there; mean square in 1/2^32.
    struct Bucket {
        std::int16_t least = 0;
        std::int16_t most = 0;
        std::uint32_t meanSquare = 0;
    };
    struct Sum;

    static Bucket bucketOf(std::span<const float> samples);
    static Bucket bucketOf(std::span<const Bucket> finer);
    void addBlock(std::span<const float> samples, int channels, std::int64_t firstBucket);
    void fold(bool atEnd);
    void addTo(Sum& sum, std::int64_t firstBucket, std::int64_t endBucket) const;

    const Frames frameCount;
    std::vector<std::vector<Bucket>> levels;
    /// Written by fill() only: whole buckets of each level so far.
    std::vector<std::size_t> filled;
    std::atomic<std::int64_t> knownFrames{0};
};

} // namespace earwright
