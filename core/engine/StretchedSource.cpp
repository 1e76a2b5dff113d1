#include "core/engine/StretchedSource.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr std::size_t readFrames = 256;
constexpr std::size_t blockSamples = 16384;
constexpr SampleRate slowRate{44100};
constexpr SampleRate fastRate{48000};

/// The rate at which a recording is stretched.
SampleRate stretchRateFor(SampleRate file) {
    if (file == slowRate || file == fastRate) return file;
    return file.hertz % 11025 == 0 ? slowRate : fastRate;
}

std::unique_ptr<Resampler> resamplerBetween(SampleRate from, SampleRate to, int channels) {
    if (from == to) return nullptr;
    return std::make_unique<Resampler>(channels,
                                       static_cast<double>(to.hertz) / static_cast<double>(from.hertz));
}

/// Everything the fifo holds goes through the resampler, and what comes out into the other.
void resample(Resampler& resampler, SampleFifo& in, SampleFifo& out, std::span<float> block) {
    const auto wide = static_cast<std::size_t>(resampler.channels());
    for (;;) {
        const Resampler::Step step = resampler.process(in.view(), block, false);
        in.drop(step.framesTaken * wide);
        out.push(block.first(step.framesMade * wide));
        if (step.framesMade == 0) return;
    }
}

} // namespace

void StretchedSource::openStretcher(SampleRate rate) {
    if (stretcher && stretcherRate == rate && stretcherChannels == channelCount) return;
    stretcher = std::make_unique<Stretcher>(rate, channelCount);
    stretcherRate = rate;
    stretcherChannels = channelCount;
}

void StretchedSource::start(const RecordStart& wanted) {
    channelCount = wanted.recording->channels();
    block.resize(blockSamples);
    for (SampleFifo* fifo : {&atFileRate, &toStretch, &stretched, &ready})
        fifo->clear();
    stretching = wanted.isStretched();
    const SampleRate fileRate = wanted.recording->rate();
    const SampleRate middle = stretching ? stretchRateFor(fileRate) : fileRate;
    before = resamplerBetween(fileRate, middle, channelCount);
    after = resamplerBetween(middle, wanted.outputRate, channelCount);

    std::int64_t early = 0;
    Frames settled(0);
    dropBeforeStretch = 0;
    toDrop = 0;
    if (stretching) {
        const double settling = std::round(wanted.settleSeconds * wanted.outputRate.hertz);
        settled = Frames(std::llround(settling * wanted.speed * static_cast<double>(fileRate.hertz) /
                                      static_cast<double>(wanted.outputRate.hertz)));
        toDrop = static_cast<std::size_t>(settling) * static_cast<std::size_t>(channelCount);
        openStretcher(middle);
        stretcher->start(wanted.speed, wanted.semitones);
        // Whole frames of the file ahead; what that is too much at the stretcher's rate is dropped again.
        const double perFile = static_cast<double>(middle.hertz) / static_cast<double>(fileRate.hertz);
        early = static_cast<std::int64_t>(std::ceil(stretcher->leadFrames() / perFile));
        const double tooMuch = static_cast<double>(early) * perFile - stretcher->leadFrames();
        dropBeforeStretch =
            static_cast<std::size_t>(std::lround(tooMuch)) * static_cast<std::size_t>(channelCount);
    }
    // A start in the loop goes round it, also where its lead-in lies before the loop; one behind goes
    // straight.
    const bool inside = wanted.loop && wanted.from < wanted.loop->end;
    source = std::make_unique<LoopedSource>(
        wanted.recording, wanted.from - settled - Frames(early), inside ? wanted.loop : std::nullopt,
        stretching ? LoopedSource::Round::WhereItFits : LoopedSource::Round::Always);
}

void StretchedSource::produce(std::span<float> interleaved) {
    while (toDrop > 0) {
        feed();
        const std::size_t dropped = std::min(toDrop, ready.size());
        ready.drop(dropped);
        toDrop -= dropped;
    }
    while (ready.size() < interleaved.size())
        feed();
    std::copy_n(ready.view().begin(), interleaved.size(), interleaved.begin());
    ready.drop(interleaved.size());
}

void StretchedSource::feed() {
    SampleFifo& last = after ? stretched : ready;
    if (stretching) {
        feedStretcher();
        pullStretched();
    } else {
        const auto part = std::span(block).first(readFrames * static_cast<std::size_t>(channelCount));
        source->read(part);
        last.push(part);
    }
    if (after) resample(*after, stretched, ready, block);
}

void StretchedSource::feedStretcher() {
    const auto chunk = static_cast<std::size_t>(stretcher->chunk() * channelCount);
    while (toStretch.size() < chunk) {
        const auto part = std::span(block).first(readFrames * static_cast<std::size_t>(channelCount));
        source->read(part);
        if (before) {
            atFileRate.push(part);
            resample(*before, atFileRate, toStretch, block);
        } else {
            toStretch.push(part);
        }
        const std::size_t dropped = std::min(dropBeforeStretch, toStretch.size());
        toStretch.drop(dropped);
        dropBeforeStretch -= dropped;
    }
    stretcher->process(toStretch.view().first(chunk));
    toStretch.drop(chunk);
}

void StretchedSource::pullStretched() {
    SampleFifo& into = after ? stretched : ready;
    for (;;) {
        const std::size_t frames = stretcher->retrieve(block);
        if (frames == 0) return;
        into.push(std::span(block).first(frames * static_cast<std::size_t>(channelCount)));
    }
}

} // namespace earwright
