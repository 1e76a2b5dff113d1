// Whether the record, the written notes and the time tags stay together in a loop, however long it goes
// round: each pass has a click with a note written on it, and a swell, in which there is no attack that the
// engine could set in its place. Errors are milliseconds of the recording.
#include "core/engine/Lane.h"
#include "tests/core/engine/HeldRecording.h"

#include <algorithm>
#include <benchmark/benchmark.h>
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

namespace earwright {
namespace {

constexpr int rate = 44100;
constexpr long click = rate;
constexpr Range<Frames> loop{Frames(rate / 2), Frames(rate / 2 + 48510)};

constexpr long swell = rate + 15000;
constexpr long swellReach = 6000;

std::vector<float> clickAndSwell() {
    std::vector<float> samples = tests::clicksAt({click}, 3 * rate);
    for (long i = -swellReach; i <= swellReach; ++i) {
        const double rise = 0.5 + 0.5 * std::cos(M_PI * static_cast<double>(i) / swellReach);
        const double tone = std::sin(2 * M_PI * 1500 * static_cast<double>(i) / rate);
        samples[static_cast<std::size_t>(swell + i)] += static_cast<float>(0.4 * rise * tone);
    }
    return samples;
}

Lane::Start clickedLoop(double speed) {
    TimedNote note;
    note.onset = Frames(click);
    note.end = Frames(click + rate / 10);
    note.midi = 72;
    Lane::Start start;
    start.record.recording = tests::held(clickAndSwell(), rate);
    start.record.from = loop.begin;
    start.record.loop = loop;
    start.record.speed = speed;
    start.record.outputRate = SampleRate{rate};
    start.notes = noteListOf({note});
    return start;
}

/// What a lane plays, a stretch at a time; what is over is forgotten.
class Listener {
public:
    explicit Listener(const Lane::Start& start) { lane.start(start); }
    void hearUntil(std::int64_t frame) {
        std::vector<SoundFrame> frames(1024);
        while (first + static_cast<std::int64_t>(record.size()) < frame) {
            lane.fill(frames.size(), false);
            lane.ring().read(frames);
            for (const SoundFrame& each : frames) {
                record.push_back(each.left);
                yours.push_back(each.yours);
            }
        }
    }
    void forgetBefore(std::int64_t frame) {
        const auto count =
            std::clamp<std::int64_t>(frame - first, 0, static_cast<std::int64_t>(record.size()));
        record.erase(record.begin(), record.begin() + count);
        yours.erase(yours.begin(), yours.begin() + count);
        first += count;
    }
    std::int64_t clickNear(std::int64_t frame) const {
        const auto at = static_cast<long>(frame - first);
        return first + tests::loudestIn(record, at - reach, at + reach);
    }
    /// Where the written note comes out of silence.
    std::int64_t noteNear(std::int64_t frame) const {
        const auto at = static_cast<long>(frame - first);
        const float loudest =
            std::abs(yours[static_cast<std::size_t>(tests::loudestIn(yours, at - reach, at + reach))]);
        auto from = static_cast<std::size_t>(std::max(0L, at - reach));
        while (std::abs(yours[from]) < 0.05f * loudest)
            ++from;
        return first + static_cast<std::int64_t>(from);
    }
    /// The middle of the energy within so many frames.
    double middleNear(std::int64_t frame, std::int64_t within) const {
        double sum = 0;
        double moment = 0;
        for (std::int64_t i = -within; i <= within; ++i) {
            const auto sample = static_cast<double>(record[static_cast<std::size_t>(frame - first + i)]);
            sum += sample * sample;
            moment += static_cast<double>(i) * sample * sample;
        }
        return static_cast<double>(frame) + moment / sum;
    }
    const TimeTags& tags() const { return lane.tags(); }

    static constexpr long reach = rate / 20;

private:
    Lane lane;
    std::vector<float> record;
    std::vector<float> yours;
    std::int64_t first = 0;
};

double meanOf(std::vector<double>::const_iterator from, std::size_t count) {
    return std::accumulate(from, from + static_cast<std::ptrdiff_t>(count), 0.0) / static_cast<double>(count);
}

void report(benchmark::State& state, const std::string& name, const std::vector<double>& errors) {
    std::vector<double> sizes;
    for (const double error : errors)
        sizes.push_back(std::abs(error));
    std::sort(sizes.begin(), sizes.end());
    state.counters[name + "_median"] = sizes[sizes.size() / 2];
    state.counters[name + "_95"] = sizes[sizes.size() * 95 / 100];
    const std::size_t some = std::min<std::size_t>(20, errors.size());
    state.counters[name + "_drift"] =
        meanOf(errors.end() - static_cast<std::ptrdiff_t>(some), some) - meanOf(errors.begin(), some);
}

/// Arguments: speed in percent, minutes heard. `click`: against its time tag. `note`: against the click.
/// `swell`: its middle against its time tag. `drift`: the last twenty passes against the first twenty.
void StaysTogether(benchmark::State& state) {
    const double speed = static_cast<double>(state.range(0)) / 100;
    const double perFrame = speed * 1000 / rate;
    const std::int64_t end = state.range(1) * 60 * rate;
    const std::int64_t within = std::llround(1.1 * swellReach / speed);
    std::vector<double> clicks;
    std::vector<double> notes;
    std::vector<double> swells;
    for ([[maybe_unused]] auto _ : state) {
        Listener listener(clickedLoop(speed));
        for (std::int64_t pass = 0;; ++pass) {
            const TimeTags& tags = listener.tags();
            const double begins = pass == 0 ? 0 : tags.passEnd(pass - 1);
            const auto frameOf = [&](long place) {
                return tags.laneFrameOf(begins + static_cast<double>(place - loop.begin.value));
            };
            if (frameOf(swell) > end) break;
            listener.hearUntil(frameOf(swell) + within + 1);
            const std::int64_t heard = listener.clickNear(frameOf(click));
            clicks.push_back(static_cast<double>(heard - frameOf(click)) * perFrame);
            notes.push_back(static_cast<double>(listener.noteNear(frameOf(click)) - heard) * perFrame);
            swells.push_back(
                (listener.middleNear(frameOf(swell), within) - static_cast<double>(frameOf(swell))) *
                perFrame);
            listener.forgetBefore(frameOf(swell));
        }
    }
    report(state, "click", clicks);
    report(state, "note", notes);
    report(state, "swell", swells);
    state.counters["passes"] = static_cast<double>(clicks.size());
}

BENCHMARK(StaysTogether)
    ->ArgNames({"speed", "minutes"})
    ->ArgsProduct({{25, 70, 200}, {10}})
    ->ArgsProduct({{50, 137}, {30}})
    ->Iterations(1)
    ->Unit(benchmark::kSecond);

} // namespace
} // namespace earwright
