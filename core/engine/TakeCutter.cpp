#include "core/engine/TakeCutter.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace earwright {

namespace {

/// Only over so long a time the difference of two clocks stands out of the jitter of their reports.
constexpr double driftSeconds = 30;
constexpr double leastDriftSeconds = 0.003;
/// A pass that began this much after the loop's start or ended so much before its end is whole all the same.
constexpr double wholeSeconds = 0.03;

constexpr auto blockFrames = static_cast<std::int64_t>(InputBlock::mostFrames);

double mean(const double* from, std::size_t count) {
    return std::accumulate(from, from + count, 0.0) / static_cast<double>(count);
}

} // namespace

void TakeCutter::give(const InputBlock& block, const std::optional<HeardThen>& heard) {
    // A held instant sounds, but the record stands still in it.
    const bool isPlaying = heard && heard->segment.moving && heard->segment.tags.framesPerOutput() > 0;
    if (run && (!isPlaying || !goesOn(block, *heard))) finish();
    if (!isPlaying) return;
    if (!run) begin(block, *heard);
    noteBlock(block, *heard);
    cutPassesUpTo(static_cast<std::int64_t>(std::floor(laneFrameAt(roughFit(), run->end))));
}

void TakeCutter::noteBlock(const InputBlock& block, const HeardThen& heard) {
    const std::int64_t first = block.first.value;
    float peak = 0;
    for (std::size_t i = 0; i < block.frames * static_cast<std::size_t>(block.channels); ++i)
        peak = std::max(peak, std::abs(block.samples[i]));
    const double offset = heard.output - static_cast<double>(first) * ratio();
    run->offsets.push_back(offset);
    run->offsetSum += offset;
    const auto at = static_cast<std::size_t>((first - run->begin) / blockFrames);
    // Frames that were lost are silent blocks.
    run->peaks.resize(std::max(run->peaks.size(), at + 1));
    run->peaks[at] = std::max(run->peaks[at], peak);
    run->end = first + static_cast<std::int64_t>(block.frames);
}

bool TakeCutter::goesOn(const InputBlock& block, const HeardThen& heard) const {
    const HeardSegment& before = run->first.segment;
    const HeardSegment& now = heard.segment;
    return block.stream == run->stream && block.rateHertz == run->inputRate &&
           heard.outputRate == run->first.outputRate && now.output == before.output &&
           now.tags == before.tags && now.wish == before.wish;
}

void TakeCutter::begin(const InputBlock& block, const HeardThen& heard) {
    run.emplace();
    run->first = heard;
    run->stream = block.stream;
    run->inputRate = block.rateHertz;
    run->begin = block.first.value;
    const TimeTags& tags = heard.segment.tags;
    const double lane = static_cast<double>(heard.segment.laneFrame) + heard.output -
                        static_cast<double>(heard.segment.output.value);
    // What waits before the record sounds belongs to no place of it.
    run->cutTo = std::max(static_cast<std::int64_t>(std::ceil(lane)), tags.laneFrameOf(0.0));
}

/// Output frames an input frame lasts, by the rates the devices name.
double TakeCutter::ratio() const {
    return static_cast<double>(run->first.outputRate.hertz) / run->inputRate;
}

/// By the rates the devices name.
TakeCutter::Fit TakeCutter::roughFit() const {
    const double offset = run->offsetSum / static_cast<double>(run->offsets.size());
    return {static_cast<double>(run->begin) * ratio() + offset, ratio()};
}

/// With the difference of the two clocks, where the run is long enough to show it.
TakeCutter::Fit TakeCutter::exactFit() const {
    Fit fit = roughFit();
    const auto length = static_cast<double>(run->end - run->begin);
    if (length < driftSeconds * run->inputRate) return fit;
    const std::size_t third = run->offsets.size() / 3;
    const double early = mean(run->offsets.data(), third);
    const double late = mean(run->offsets.data() + (run->offsets.size() - third), third);
    const double drift = (late - early) / (length * 2 / 3);
    // Less than that is jitter, or does not matter, and the take need not be stretched for it.
    if (std::abs(drift) * length < leastDriftSeconds * run->first.outputRate.hertz) return fit;
    fit.slope += drift;
    fit.atBegin -= drift * length / 2;
    return fit;
}

double TakeCutter::laneFrameAt(const Fit& fit, std::int64_t inputFrame) const {
    const HeardSegment& segment = run->first.segment;
    const double output = fit.atBegin + static_cast<double>(inputFrame - run->begin) * fit.slope;
    return static_cast<double>(segment.laneFrame) + output - static_cast<double>(segment.output.value);
}

double TakeCutter::inputFrameAt(const Fit& fit, std::int64_t laneFrame) const {
    const double behind = static_cast<double>(laneFrame) - laneFrameAt(fit, run->begin);
    return static_cast<double>(run->begin) + behind / fit.slope;
}

std::int64_t TakeCutter::wholeMargin() const {
    return run->first.outputRate.outputFrames(wholeSeconds).value;
}

bool TakeCutter::startsItsPass(std::int64_t laneFrame) const {
    const TimeTags& tags = run->first.segment.tags;
    const double missed = (tags.placeAt(laneFrame) - tags.loopBegin()) / tags.framesPerOutput();
    return std::abs(missed) < static_cast<double>(wholeMargin());
}

void TakeCutter::cutPassesUpTo(std::int64_t laneFrame) {
    const TimeTags& tags = run->first.segment.tags;
    if (!tags.isLooped()) return;
    while (run->cutTo < laneFrame && tags.passAt(run->cutTo) < tags.passAt(laneFrame)) {
        const std::int64_t passes = tags.passAt(run->cutTo) - tags.passAt(tags.laneFrameOf(0.0));
        const std::int64_t seam = std::max(tags.laneFrameOf(tags.passEnd(passes)), run->cutTo + 1);
        cut(run->cutTo, seam, startsItsPass(run->cutTo));
        run->cutTo = seam;
    }
}

void TakeCutter::cut(std::int64_t fromLane, std::int64_t toLane, bool isWholePass) {
    const TimeTags& tags = run->first.segment.tags;
    const Fit fit = exactFit();
    // The first report alone may have been early: nothing was played before the run began.
    fromLane = std::max(fromLane, static_cast<std::int64_t>(std::ceil(laneFrameAt(fit, run->begin))));
    CutTake take;
    take.framesPerInput = tags.framesPerOutput() * fit.slope;
    // To the nearest frame of the recording and of the input.
    const double place = tags.placeAt(fromLane);
    take.at = Frames(std::llround(place));
    const double later = (static_cast<double>(take.at.value) - place) / take.framesPerInput;
    const std::int64_t begin = std::max<std::int64_t>(std::llround(inputFrameAt(fit, fromLane) + later), 0);
    const std::int64_t end = std::llround(inputFrameAt(fit, toLane));
    take.part = {InputFrames(begin), InputFrames(end)};
    take.semitones = run->first.segment.semitones;
    take.isWholePass = isWholePass;
    const bool isLong = static_cast<double>(end - begin) >= shortestSeconds * run->inputRate;
    if (isLong && peakIn(begin, end) >= softestPeak) ready.push_back(take);
}

float TakeCutter::peakIn(std::int64_t from, std::int64_t to) const {
    const auto count = static_cast<std::int64_t>(run->peaks.size());
    const auto first = std::clamp<std::int64_t>((from - run->begin) / blockFrames, 0, count);
    const auto last =
        std::clamp<std::int64_t>((to - run->begin + blockFrames - 1) / blockFrames, first, count);
    float peak = 0;
    for (auto i = first; i < last; ++i)
        peak = std::max(peak, run->peaks[static_cast<std::size_t>(i)]);
    return peak;
}

void TakeCutter::finish() {
    if (!run) return;
    const TimeTags& tags = run->first.segment.tags;
    const auto end = static_cast<std::int64_t>(std::floor(laneFrameAt(exactFit(), run->end)));
    cutPassesUpTo(end);
    const bool isWhole = tags.isLooped() && startsItsPass(run->cutTo) &&
                         tags.passAt(end + wholeMargin()) > tags.passAt(run->cutTo);
    cut(run->cutTo, end, isWhole);
    run.reset();
}

std::vector<CutTake> TakeCutter::take() {
    return std::exchange(ready, {});
}

} // namespace earwright
