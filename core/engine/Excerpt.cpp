#include "core/engine/Excerpt.h"

#include "core/engine/Limiter.h"
#include "core/engine/RecordPart.h"

#include <algorithm>
#include <vector>

namespace earwright {

namespace {

constexpr std::int64_t blockFrames = 1024;

void limit(Limiter& limiter, std::span<float> interleaved, std::size_t channels) {
    for (std::size_t i = 0; i < interleaved.size(); i += channels) {
        float single = interleaved[i];
        limiter.apply(interleaved[i], channels == 2 ? interleaved[i + 1] : single);
    }
}

} // namespace

Result<Done> renderExcerpt(std::shared_ptr<Recording> recording, Frames from, std::int64_t frames,
                           const Playing& playing, const ExcerptSink& sink) {
    RecordStart start;
    start.recording = recording;
    start.from = from;
    start.speed = playing.speed;
    start.semitones = playing.transposition();
    start.outputRate = recording->rate();
    RecordPart part;
    part.start(start);
    Limiter limiter;
    limiter.setRate(recording->rate());
    const auto channels = static_cast<std::size_t>(recording->channels());
    std::vector<float> block(static_cast<std::size_t>(blockFrames) * channels);
    for (std::int64_t done = 0; done < frames; done += blockFrames) {
        const auto count = static_cast<std::size_t>(std::min(blockFrames, frames - done));
        const auto samples = std::span(block).first(count * channels);
        part.produce(samples);
        limit(limiter, samples, channels);
        if (auto written = sink(samples); !written) return written;
    }
    return Done{};
}

} // namespace earwright
