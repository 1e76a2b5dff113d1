#include "core/sound/PeakPyramid.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace earwright {

namespace {

constexpr std::int64_t fanOut = 4;
constexpr std::int64_t blockFrames = 65536;
constexpr float sampleScale = 32767.0f;
constexpr double squareScale = 4294967295.0;

std::int16_t packed(float sample) {
    return static_cast<std::int16_t>(std::lround(std::clamp(sample, -1.0f, 1.0f) * sampleScale));
}

std::uint32_t packedSquare(double meanSquare) {
    return static_cast<std::uint32_t>(std::llround(std::clamp(meanSquare, 0.0, 1.0) * squareScale));
}

} // namespace

/// What over() gathers from buckets of several levels.
struct PeakPyramid::Sum {
    int least = INT16_MAX;
    int most = INT16_MIN;
    double squares = 0;
    double weight = 0;

    void add(const Bucket& bucket, double frames) {
        least = std::min<int>(least, bucket.least);
        most = std::max<int>(most, bucket.most);
        squares += static_cast<double>(bucket.meanSquare) / squareScale * frames;
        weight += frames;
    }
};

PeakPyramid::PeakPyramid(Frames length) : frameCount(length) {
    std::int64_t count = (std::max<std::int64_t>(length.value, 0) + finestFrames - 1) / finestFrames;
    do {
        levels.emplace_back(static_cast<std::size_t>(count));
        count = (count + fanOut - 1) / fanOut;
    } while (levels.back().size() > 1);
    filled.assign(levels.size(), 0);
}

Result<Done> PeakPyramid::fill(Recording& recording, const std::stop_token& stop,
                               const std::function<void(double)>& progress) {
    assert(recording.length() == frameCount);
    const auto wide = static_cast<std::size_t>(recording.channels());
    std::vector<float> block(static_cast<std::size_t>(blockFrames) * wide);
    int lastPercent = -1;
    for (std::int64_t at = 0; at < frameCount.value; at += blockFrames) {
        if (stop.stop_requested())
            return Error{ErrorKind::Cancelled,
                         "The overview of " + recording.path().string() + " was called off.", ""};
        const std::int64_t count = std::min(blockFrames, frameCount.value - at);
        const auto samples = std::span(block).first(static_cast<std::size_t>(count) * wide);
        recording.read(Frames(at), samples);
        addBlock(samples, recording.channels(), at / finestFrames);
        fold(at + count >= frameCount.value);
        knownFrames.store(at + count, std::memory_order_release);
        const double share = static_cast<double>(at + count) / static_cast<double>(frameCount.value);
        if (progress && static_cast<int>(share * 100) != lastPercent) {
            lastPercent = static_cast<int>(share * 100);
            progress(share);
        }
    }
    return Done{};
}

PeakPyramid::Bucket PeakPyramid::bucketOf(std::span<const float> samples) {
    float least = samples.front();
    float most = samples.front();
    float squares = 0;
    for (const float sample : samples) {
        least = std::min(least, sample);
        most = std::max(most, sample);
        squares += sample * sample;
    }
    return {packed(least), packed(most),
            packedSquare(static_cast<double>(squares) / static_cast<double>(samples.size()))};
}

PeakPyramid::Bucket PeakPyramid::bucketOf(std::span<const Bucket> finer) {
    Bucket coarse = finer.front();
    double squares = 0;
    for (const Bucket& bucket : finer) {
        coarse.least = std::min(coarse.least, bucket.least);
        coarse.most = std::max(coarse.most, bucket.most);
        squares += static_cast<double>(bucket.meanSquare);
    }
    coarse.meanSquare = static_cast<std::uint32_t>(squares / static_cast<double>(finer.size()));
    return coarse;
}

void PeakPyramid::addBlock(std::span<const float> samples, int channels, std::int64_t firstBucket) {
    const std::size_t step = static_cast<std::size_t>(finestFrames) * static_cast<std::size_t>(channels);
    auto bucket = static_cast<std::size_t>(firstBucket);
    for (std::size_t at = 0; at < samples.size(); at += step)
        levels[0][bucket++] = bucketOf(samples.subspan(at, std::min(step, samples.size() - at)));
    filled[0] = bucket;
}

void PeakPyramid::fold(bool atEnd) {
    for (std::size_t level = 1; level < levels.size(); ++level) {
        const std::vector<Bucket>& finer = levels[level - 1];
        constexpr auto group = static_cast<std::size_t>(fanOut);
        const std::size_t whole = atEnd ? levels[level].size() : filled[level - 1] / group;
        for (std::size_t i = filled[level]; i < whole; ++i)
            levels[level][i] =
                bucketOf(std::span(finer).subspan(i * group, std::min(group, finer.size() - i * group)));
        filled[level] = whole;
    }
}

void PeakPyramid::addTo(Sum& sum, std::int64_t firstBucket, std::int64_t endBucket) const {
    // Whole groups come from the coarsest level that fits at each end, so the work grows with the logarithm.
    std::int64_t at = firstBucket;
    while (at < endBucket) {
        std::size_t level = 0;
        std::int64_t size = 1;
        while (level + 1 < levels.size() && at % (size * fanOut) == 0 && at + size * fanOut <= endBucket) {
            ++level;
            size *= fanOut;
        }
        sum.add(levels[level][static_cast<std::size_t>(at / size)], static_cast<double>(size * finestFrames));
        at += size;
    }
}

Peak PeakPyramid::over(const Range<Frames>& range) const {
    const std::int64_t end = std::min(range.end.value, known().value);
    const std::int64_t begin = std::max<std::int64_t>(range.begin.value, 0);
    if (begin >= end) return {};
    Sum sum;
    addTo(sum, begin / finestFrames, (end + finestFrames - 1) / finestFrames);
    return {static_cast<float>(sum.least) / sampleScale, static_cast<float>(sum.most) / sampleScale,
            static_cast<float>(std::sqrt(sum.squares / sum.weight))};
}

void PeakPyramid::columns(const Range<Frames>& range, std::span<Peak> out) const {
    const double width = static_cast<double>(range.length().value) / static_cast<double>(out.size());
    for (std::size_t i = 0; i < out.size(); ++i) {
        const auto from = range.begin.value + std::llround(width * static_cast<double>(i));
        const auto to = range.begin.value + std::llround(width * static_cast<double>(i + 1));
        out[i] = over({Frames(from), Frames(std::max(to, from + 1))});
    }
}

} // namespace earwright
