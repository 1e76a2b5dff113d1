#include "core/engine/Lane.h"

#include <algorithm>
#include <limits>

namespace earwright {

namespace {

/// More than KeptAhead::most at 192 kHz.
constexpr std::size_t ringFrames = 1 << 17;
constexpr std::size_t blockFrames = 256;
/// Blocks rendered before fill() looks up again.
constexpr int briefBlocks = 4;

} // namespace

Lane::Lane()
    : waiting(ringFrames), recordBlock(2 * blockFrames), writtenBlock(blockFrames), block(blockFrames) {}

void Lane::start(const Start& wanted) {
    waiting.clear();
    outputRate = wanted.record.outputRate;
    answered = wanted.wish;
    const SampleRate fileRate = wanted.record.recording->rate();
    const double perOutput =
        wanted.record.speed * static_cast<double>(fileRate.hertz) / static_cast<double>(outputRate.hertz);
    const auto loop = wanted.end ? std::nullopt : wanted.record.loop;
    places = TimeTags(static_cast<double>(wanted.record.from.value), perOutput, loop, wanted.firstPass);
    stopAt = std::numeric_limits<std::int64_t>::max();
    const Frames end = wanted.end.value_or(wanted.record.recording->length());
    if (!places.isLooped())
        stopAt = std::max<std::int64_t>(
            0, places.laneFrameOf(static_cast<double>((end - wanted.record.from).value)));
    RecordStart playedFrom = wanted.record;
    playedFrom.loop = loop;
    record.start(playedFrom);
    written.start(
        {places, wanted.record.speed, wanted.record.semitones + wanted.tuning, fileRate, outputRate},
        wanted.notes);
    started = true;
}

bool Lane::fill(std::size_t frames, bool brief) {
    const std::size_t wanted = std::min(frames, ringFrames - blockFrames);
    for (int i = 0; waiting.readable() < wanted && !(brief && i == briefBlocks); ++i)
        renderBlock();
    return waiting.readable() >= wanted;
}

void Lane::renderBlock() {
    const auto wide = static_cast<std::size_t>(record.channels());
    const auto samples = std::span(recordBlock).first(blockFrames * wide);
    record.produce(samples);
    std::fill(writtenBlock.begin(), writtenBlock.end(), 0.0f);
    written.produce(writtenBlock);
    for (std::size_t i = 0; i < blockFrames; ++i)
        block[i] = {samples[i * wide], samples[i * wide + wide - 1], writtenBlock[i]};
    waiting.write(block);
}

} // namespace earwright
