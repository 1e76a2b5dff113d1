#include "core/engine/Lane.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace earwright {

namespace {

/// More than KeptAhead::most at 192 kHz.
constexpr std::size_t ringFrames = 1 << 17;
constexpr std::size_t blockFrames = 256;
/// Blocks rendered before fill() looks up again.
constexpr int briefBlocks = 4;
constexpr double fadeSeconds = 0.01;

} // namespace

Lane::Lane()
    : waiting(ringFrames),
      recordBlock(2 * blockFrames),
      writtenBlock(blockFrames),
      clickBlock(blockFrames),
      countedBlock(blockFrames),
      block(blockFrames) {}

void Lane::start(const Start& wanted) {
    waiting.clear();
    rendered = 0;
    outputRate = wanted.record.outputRate;
    answered = wanted.wish;
    playedSpeed = wanted.record.speed;
    setSpeed = wanted.reachedSpeed;
    lead = wanted.lead;
    earlyFrames = wanted.early;
    holding = wanted.isHeld;
    levels = wanted.levels ? wanted.levels : std::make_shared<LevelMatch>();
    yoursGain = levels->gain();
    levels->start(wanted.record.recording, outputRate, wanted.isElsewhere);
    levels->take(wanted.take, wanted.record.from);
    if (holding)
        startHeld(wanted);
    else
        startParts(wanted);
    started = true;
}

void Lane::startParts(const Start& wanted) {
    const SampleRate fileRate = wanted.record.recording->rate();
    const double perOutput =
        wanted.record.speed * static_cast<double>(fileRate.hertz) / static_cast<double>(outputRate.hertz);
    const std::int64_t leadFrames = std::llround(lead.seconds * outputRate.hertz) + earlyFrames;
    // The record is there a moment before its time, so that what is at its start keeps its attack whole.
    const std::int64_t ahead =
        lead.seconds > 0 ? std::min<std::int64_t>(leadFrames, std::llround(fadeSeconds * outputRate.hertz))
                         : leadFrames;
    soundsFrom = leadFrames - ahead;
    // Faded in over the lane before, where that is what comes before.
    fadeFrames = soundsFrom > 0 ? ahead : 0;
    RecordStart playedFrom = wanted.record;
    const auto place = static_cast<double>(wanted.record.from.value);
    playedFrom.from = Frames(std::llround(place - static_cast<double>(ahead) * perOutput));
    const bool straight = wanted.end || (wanted.record.loop && wanted.record.from >= wanted.record.loop->end);
    playedFrom.loop = straight ? std::nullopt : wanted.record.loop;
    places = TimeTags(place, perOutput, playedFrom.loop, wanted.firstPass, leadFrames);
    stopAt = std::numeric_limits<std::int64_t>::max();
    const Frames end = wanted.end.value_or(wanted.record.recording->length());
    if (!places.isLooped())
        stopAt = std::max(leadFrames, places.laneFrameOf(static_cast<double>(end.value) - place));
    record.start(playedFrom);
    written.start(
        {places, wanted.record.speed, wanted.record.semitones + wanted.tuning, fileRate, outputRate},
        wanted.notes);
    clicks.start(places, lead, outputRate, wanted.beats);
    transposed = wanted.record.semitones;
    take.stop();
    if (wanted.take)
        take.start({places, wanted.record.speed, wanted.record.semitones, fileRate, outputRate, ahead},
                   *wanted.take);
}

void Lane::startHeld(const Start& wanted) {
    places = TimeTags(static_cast<double>(wanted.record.from.value), 0, std::nullopt, wanted.firstPass);
    stopAt = std::numeric_limits<std::int64_t>::max();
    held.start(wanted.record);
    held.keepBelow(levels->referenceAt(wanted.record.from));
}

Lead Lane::leadLeftAt(std::int64_t laneFrame, double stretch) const {
    const std::int64_t left = places.lead() - std::max(laneFrame, earlyFrames);
    return left > 0 ? lead.rest(static_cast<double>(left) / outputRate.hertz, stretch) : Lead{};
}

bool Lane::fill(std::size_t frames, bool brief) {
    const std::size_t wanted = std::min(frames, ringFrames - blockFrames);
    for (int i = 0; waiting.readable() < wanted && !(brief && i == briefBlocks); ++i)
        renderBlock();
    return waiting.readable() >= wanted;
}

void Lane::renderBlock() {
    const auto wide = static_cast<std::size_t>(holding ? held.channels() : record.channels());
    const auto samples = std::span(recordBlock).first(blockFrames * wide);
    std::fill(clickBlock.begin(), clickBlock.end(), 0.0f);
    std::fill(countedBlock.begin(), countedBlock.end(), 0.0f);
    std::fill(writtenBlock.begin(), writtenBlock.end(), 0.0f);
    if (holding) {
        held.produce(samples);
    } else {
        renderRecord(samples);
        if (take.isOn())
            renderTake();
        else
            renderWritten();
        clicks.produce(clickBlock, countedBlock);
    }
    for (std::size_t i = 0; i < blockFrames; ++i)
        block[i] = {samples[i * wide], samples[i * wide + wide - 1], writtenBlock[i], clickBlock[i],
                    countedBlock[i]};
    levels->apply(block, places, rendered, yoursGain);
    waiting.write(block);
    rendered += static_cast<std::int64_t>(blockFrames);
}

/// The frames of a block that lie before a lane frame.
std::size_t Lane::framesBefore(std::int64_t laneFrame) const {
    return static_cast<std::size_t>(
        std::clamp<std::int64_t>(laneFrame - rendered, 0, static_cast<std::int64_t>(blockFrames)));
}

void Lane::renderRecord(std::span<float> samples) {
    const auto wide = static_cast<std::size_t>(record.channels());
    const std::size_t silent = framesBefore(soundsFrom);
    std::fill_n(samples.begin(), silent * wide, 0.0f);
    record.produce(samples.subspan(silent * wide));
    for (std::size_t i = silent; i < framesBefore(soundsFrom + fadeFrames); ++i) {
        const float gain = riseAt(rendered + static_cast<std::int64_t>(i) - soundsFrom);
        for (std::size_t channel = 0; channel < wide; ++channel)
            samples[i * wide + channel] *= gain;
    }
}

void Lane::renderWritten() {
    const std::int64_t begin = places.lead();
    const std::size_t silent = framesBefore(begin);
    written.produce(std::span(writtenBlock).subspan(silent));
    if (fadeFrames == 0 || !written.beganInANote()) return;
    for (std::size_t i = silent; i < framesBefore(begin + fadeFrames); ++i)
        writtenBlock[i] *= riseAt(rendered + static_cast<std::int64_t>(i) - begin);
}

/// As the record: there a moment before its time, and faded in.
void Lane::renderTake() {
    const std::size_t silent = framesBefore(soundsFrom);
    take.produce(std::span(writtenBlock).subspan(silent));
    for (std::size_t i = silent; i < framesBefore(soundsFrom + fadeFrames); ++i)
        writtenBlock[i] *= riseAt(rendered + static_cast<std::int64_t>(i) - soundsFrom);
}

float Lane::riseAt(std::int64_t frame) const {
    const auto share = static_cast<float>(frame + 1) / static_cast<float>(fadeFrames);
    return share * share * (3.0f - 2.0f * share);
}

} // namespace earwright
