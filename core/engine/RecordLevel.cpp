#include "core/engine/RecordLevel.h"

#include "core/engine/KWeighting.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

constexpr double stepSeconds = 0.1;
constexpr std::int64_t momentarySteps = 4;
/// Sound ahead of each step, for the weighting to settle.
constexpr double settleSeconds = 0.05;
constexpr std::int64_t loudestBefore = 15;
constexpr std::int64_t loudestAfter = 5;
constexpr std::int64_t usualReach = 20;
/// Steps remembered; a recording played from end to end needs no more than a minute of them at a time.
constexpr std::size_t mostRemembered = 6000;
constexpr double relativeGate = 0.1;

double absoluteGate() {
    return std::pow(10.0, (-70 - loudnessOffset) / 10);
}

} // namespace

void RecordLevel::take(std::shared_ptr<Recording> taken) {
    if (taken == recording) return;
    recording = std::move(taken);
    measured.clear();
    stepFrames = std::llround(stepSeconds * recording->rate().hertz);
}

const Power& RecordLevel::step(std::int64_t index) {
    if (const auto known = measured.find(index); known != measured.end()) return known->second;
    if (measured.size() >= mostRemembered) measured.clear();
    const auto wide = static_cast<std::size_t>(recording->channels());
    const std::int64_t settle = std::llround(settleSeconds * recording->rate().hertz);
    samples.resize(static_cast<std::size_t>(settle + stepFrames) * wide);
    recording->read(Frames(index * stepFrames - settle), samples);
    Power power;
    for (std::size_t channel = 0; channel < wide; ++channel) {
        KWeighting weighting;
        weighting.setRate(recording->rate());
        for (std::size_t i = channel; i < samples.size(); i += wide) {
            const double plain = samples[i];
            const double weighted = weighting.next(samples[i]);
            if (i < static_cast<std::size_t>(settle) * wide) continue;
            power += {plain * plain, weighted * weighted};
        }
    }
    const double ears = wide == 1 ? 2 : 1;
    return measured.emplace(index, power * (ears / static_cast<double>(stepFrames))).first->second;
}

Power RecordLevel::momentary(std::int64_t firstStep) {
    Power sum;
    for (std::int64_t i = 0; i < momentarySteps; ++i)
        sum += step(firstStep + i);
    return sum * (1.0 / momentarySteps);
}

Power RecordLevel::loudestNear(Frames place) {
    const std::int64_t at = stepOf(place);
    Power loudest;
    for (std::int64_t first = at - loudestBefore; first + momentarySteps <= at + loudestAfter; ++first)
        loudest = Power::greater(loudest, momentary(first));
    return loudest;
}

std::optional<Power> RecordLevel::usualNear(Frames place) {
    const std::int64_t at = stepOf(place);
    double gate = absoluteGate();
    std::optional<Power> usual;
    for (int pass = 0; pass < 2; ++pass) {
        Power sum;
        int count = 0;
        for (std::int64_t first = at - usualReach; first + momentarySteps <= at + usualReach; ++first) {
            const Power power = momentary(first);
            if (power.weighted < gate) continue;
            sum += power;
            ++count;
        }
        if (count == 0) return usual;
        usual = sum * (1.0 / count);
        gate = std::max(gate, usual->weighted * relativeGate);
    }
    return usual;
}

} // namespace earwright
