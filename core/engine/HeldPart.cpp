#include "core/engine/HeldPart.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace earwright {

namespace {

constexpr std::size_t overlaps = 8;
constexpr std::size_t blockSamples = 16384;

} // namespace

void HeldPart::start(const RecordStart& wanted) {
    channelCount = wanted.recording->channels();
    instant = HeldInstant::of(*wanted.recording, wanted.from);
    if (!transform || transform->time().size() != instant.length)
        transform = std::make_unique<RealTransform>(instant.length);
    const double perFile =
        static_cast<double>(wanted.outputRate.hertz) / static_cast<double>(wanted.recording->rate().hertz);
    resampler = std::make_unique<Resampler>(channelCount, perFile / std::exp2(wanted.semitones / 12));
    window.resize(instant.length);
    const auto length = static_cast<double>(instant.length);
    // Two Hann windows in a row, overlapping eight times, add up to three; the transform adds the length.
    const double scale = 1 / (0.375 * static_cast<double>(overlaps) * length);
    for (std::size_t i = 0; i < window.size(); ++i)
        window[i] = static_cast<float>(
            scale * (0.5 - 0.5 * std::cos(2 * std::numbers::pi * static_cast<double>(i) / length)));
    gain = 1;
    phases.assign(instant.peaks.size(), 0.0);
    turns.resize(instant.peaks.size());
    overlap.assign(instant.length * static_cast<std::size_t>(channelCount), 0.0f);
    block.resize(blockSamples);
    atFileRate.clear();
    ready.clear();
    // The first frames rise with their windows; only where they are complete does the sound begin.
    for (std::size_t i = 0; i + 1 < overlaps; ++i)
        addFrame();
    atFileRate.clear();
}

void HeldPart::keepBelow(const Power& most) {
    double lines = 0;
    for (const auto& channel : instant.channels)
        for (const std::complex<float>& line : channel)
            lines += static_cast<double>(std::norm(line));
    // Parseval: two halves of a spectrum, under a window whose square has the mean 3/8; mono is on both ears.
    const double ears = channelCount == 1 ? 2 : 1;
    const double power = ears * 2 * lines / (0.375 * std::pow(static_cast<double>(instant.length), 2));
    gain = power > most.plain ? static_cast<float>(std::sqrt(most.plain / power)) : 1.0f;
}

void HeldPart::produce(std::span<float> interleaved) {
    const auto wide = static_cast<std::size_t>(channelCount);
    while (ready.size() < interleaved.size()) {
        addFrame();
        for (;;) {
            const Resampler::Step step = resampler->process(atFileRate.view(), block, false);
            atFileRate.drop(step.framesTaken * wide);
            ready.push(std::span(block).first(step.framesMade * wide));
            if (step.framesMade == 0) break;
        }
    }
    std::transform(ready.view().begin(),
                   ready.view().begin() + static_cast<std::ptrdiff_t>(interleaved.size()),
                   interleaved.begin(), [this](float sample) { return gain * sample; });
    ready.drop(interleaved.size());
}

void HeldPart::addFrame() {
    for (std::size_t i = 0; i < turns.size(); ++i)
        turns[i] = std::complex<float>(std::polar(1.0, phases[i]));
    const auto wide = static_cast<std::size_t>(channelCount);
    for (std::size_t channel = 0; channel < wide; ++channel)
        renderChannel(channel);
    const std::size_t hop = instant.length / overlaps * wide;
    atFileRate.push(std::span(overlap).first(hop));
    std::copy(overlap.begin() + static_cast<std::ptrdiff_t>(hop), overlap.end(), overlap.begin());
    std::fill(overlap.end() - static_cast<std::ptrdiff_t>(hop), overlap.end(), 0.0f);
    advance();
}

void HeldPart::renderChannel(std::size_t channel) {
    const auto lines = transform->spectrum();
    std::fill(lines.begin(), lines.end(), 0.0f);
    for (std::size_t peak = 0; peak < turns.size(); ++peak)
        for (std::size_t i = instant.peaks[peak].begin; i < instant.peaks[peak].end; ++i)
            lines[i] = instant.channels[channel][i] * turns[peak];
    transform->backward();
    const auto time = transform->time();
    const auto wide = static_cast<std::size_t>(channelCount);
    for (std::size_t i = 0; i < time.size(); ++i)
        overlap[i * wide + channel] += window[i] * time[i];
}

void HeldPart::advance() {
    const auto hop = static_cast<double>(instant.length / overlaps);
    for (std::size_t i = 0; i < phases.size(); ++i)
        phases[i] = std::remainder(phases[i] + instant.peaks[i].advance * hop, 2 * std::numbers::pi);
}

} // namespace earwright
