#include "core/engine/LevelMatch.h"

#include "core/engine/TakeSound.h"
#include "core/engine/VoiceBank.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>
#include <vector>

namespace earwright {

namespace {

constexpr double stepSeconds = 0.1;
/// Together with the record this makes 2.1 dB more, where the two have nothing in common.
constexpr double belowRecordDecibels = 2;
constexpr double decibelsASecond = 3;
constexpr double learningSeconds = 3;
constexpr double leastGain = 0.1;
constexpr double mostGain = 8;
/// Softer than this share of the usual is a pause (the relative gate of ITU-R BS.1770-4).
constexpr double pauseShare = 0.1;
/// −70 LUFS, its absolute gate, nearly.
constexpr double silence = 1e-7;
/// 2 dB a second, in steps.
constexpr double forgetting = 0.955;
/// Where a recording has not sounded yet: −23 LUFS, the target of EBU R 128.
constexpr double unknownLoudness = -23;
constexpr double referenceSeconds = 0.05;

Power unknownPower() {
    const double power = std::pow(10.0, (unknownLoudness - loudnessOffset) / 10);
    return {power, power};
}

/// K-weighted power of a plain line on the strings, one ear.
double powerOfALine(SampleRate rate) {
    VoiceBank bank;
    bank.setRate(rate);
    KWeighting weighting;
    weighting.setRate(rate);
    std::vector<float> block(static_cast<std::size_t>(0.4 * rate.hertz));
    double sum = 0;
    for (const int midi : {55, 59, 62, 65}) {
        StringGesture gesture;
        gesture.pitch = midi;
        gesture.seconds = 0.4;
        bank.play(gesture);
        std::fill(block.begin(), block.end(), 0.0f);
        bank.render(block);
        for (const float sample : block) {
            const double weighted = weighting.next(sample);
            sum += weighted * weighted / (4 * static_cast<double>(block.size()));
        }
    }
    return sum;
}

} // namespace

void LevelMatch::setRate(SampleRate newRate) {
    if (newRate == rate) return;
    rate = newRate;
    weighting.setRate(rate);
    stepFrames = std::llround(stepSeconds * rate.hertz);
    if (usualYours == 0) usualYours = powerOfALine(rate);
}

void LevelMatch::start(std::shared_ptr<Recording> heard, SampleRate outputRate, bool elsewhere) {
    setRate(outputRate);
    if (heard != recording) {
        recording = std::move(heard);
        recordLevel.take(recording);
        usualRecord = unknownPower();
    }
    jumps = jumps || elsewhere;
    referenceFor = Frames(-1);
    steps.fill(0);
    stepSum = 0;
    inStep = 0;
}

void LevelMatch::take(const std::shared_ptr<const TakePlayback>& played, Frames from) {
    if (played == taken) return;
    if (!taken) usualNotes = usualYours;
    taken = played;
    usualYours = taken ? usualOf(*taken, from).value_or(usualYours) : usualNotes;
    lately = 0;
    jumps = true;
}

std::optional<double> LevelMatch::usualOf(const TakePlayback& played, Frames from) const {
    const double perFrame = played.speed * recording->rate().hertz / played.sound->rate().hertz;
    const auto into = static_cast<double>((from - played.at).value) / perFrame;
    const Frames near = std::clamp(played.part.begin + Frames(std::llround(into)), played.part.begin,
                                   std::max(played.part.begin, played.part.end));
    RecordLevel level;
    level.take(std::make_shared<TakeSound>(played.sound, played.part));
    const auto usual = level.usualNear(near);
    if (!usual) return std::nullopt;
    return usual->weighted / 2;
}

Power LevelMatch::referenceAt(Frames place) {
    const Frames near = recording->rate().frames(Seconds(referenceSeconds));
    const bool isKnown = referenceFor >= Frames(0) && place >= referenceFor && place < referenceFor + near;
    if (isKnown) return reference;
    referenceFor = std::max(place, Frames(0));
    usualRecord = recordLevel.usualNear(place).value_or(usualRecord);
    reference = Power::greater(recordLevel.loudestNear(place), usualRecord);
    return reference;
}

double LevelMatch::aim(double usual) const {
    const double wanted =
        std::sqrt(usualRecord.weighted / (2 * usual)) * std::pow(10.0, -belowRecordDecibels / 20);
    return std::clamp(wanted, leastGain, mostGain);
}

void LevelMatch::hear(float yours) {
    const double weighted = weighting.next(yours);
    stepSum += weighted * weighted;
    if (++inStep == stepFrames) endStep();
}

void LevelMatch::endStep() {
    newest = (newest + 1) % steps.size();
    steps[newest] = stepSum / static_cast<double>(stepFrames);
    stepSum = 0;
    inStep = 0;
    weighting.settle();
    const double momentary =
        std::accumulate(steps.begin(), steps.end(), 0.0) / static_cast<double>(steps.size());
    if (momentary < silence) return;
    lately = std::max(momentary, lately * forgetting);
    if (momentary > pauseShare * lately)
        usualYours += (momentary - usualYours) * stepSeconds / learningSeconds;
}

void LevelMatch::apply(std::span<SoundFrame> frames, const TimeTags& tags, std::int64_t first,
                       double& laneGain) {
    const Power measure = referenceAt(Frames(std::llround(tags.placeAt(first))));
    if (std::exchange(jumps, false)) laneGain = aim(usualYours);
    const double most =
        std::pow(10.0, decibelsASecond / 20 * static_cast<double>(frames.size()) / rate.hertz);
    const double next = std::clamp(aim(usualYours), laneGain / most, laneGain * most);
    const double move = (next - laneGain) / static_cast<double>(frames.size());
    for (SoundFrame& frame : frames) {
        hear(frame.yours);
        laneGain += move;
        frame.yours *= static_cast<float>(laneGain);
        frame.measurePlain = static_cast<float>(measure.plain);
        frame.measureWeighted = static_cast<float>(measure.weighted);
    }
    yoursGain = laneGain;
}

} // namespace earwright
