// How much of one core the engine takes at each speed, beside bare RubberBand fed the same blocks in the same
// run.
#include "core/engine/Lane.h"
#include "core/engine/LoopedSource.h"
#include "core/engine/Mixer.h"
#include "core/engine/Stretcher.h"
#include "tests/core/engine/HeldRecording.h"

#include <array>
#include <benchmark/benchmark.h>
#include <cmath>
#include <ctime>
#include <rubberband/RubberBandStretcher.h>
#include <vector>

namespace earwright {
namespace {

using RubberBand::RubberBandStretcher;

constexpr SampleRate rate{44100};
constexpr std::size_t blockFrames = 256;
constexpr int outputSeconds = 4;
constexpr std::size_t outputFrames = outputSeconds * 44100;

/// A plucked chord twice a second over a bass, panned: strong attacks and many partials, as in band music.
std::shared_ptr<Recording> bandMusic() {
    static const auto made = [] {
        std::vector<float> samples(2 * 12 * 44100);
        unsigned random = 3;
        for (std::size_t i = 0; i < samples.size() / 2; ++i) {
            const double since = static_cast<double>(i % 22050) / rate.hertz;
            double chord = 0;
            for (const double hertz : {220.0, 277.2, 329.6, 440.0})
                for (int partial = 1; partial <= 8; ++partial)
                    chord += std::sin(2 * M_PI * hertz * partial * since) *
                             std::exp(-since * (3.0 + partial)) / partial;
            random = random * 1664525u + 1013904223u;
            const double cymbal = (static_cast<double>(random >> 8) / 8388608.0 - 1) * std::exp(-since * 30);
            const double bass = std::sin(2 * M_PI * 55 * static_cast<double>(i) / rate.hertz);
            samples[2 * i] = static_cast<float>(0.12 * chord + 0.1 * bass + 0.02 * cymbal);
            samples[2 * i + 1] = static_cast<float>(0.06 * chord + 0.1 * bass + 0.1 * cymbal);
        }
        return tests::held(std::move(samples), rate.hertz, 2);
    }();
    return made;
}

/// CPU time of this thread alone, whatever else the machine does.
double threadSeconds() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + static_cast<double>(now.tv_nsec) * 1e-9;
}

Range<Frames> wholeLoop() {
    return {Frames(4410), Frames(11 * 44100)};
}

/// Worker and callback of one lane, one block after the other, with the written notes silent.
double engineSeconds(double speed, double semitones) {
    Lane::Start start;
    start.record.recording = bandMusic();
    start.record.from = wholeLoop().begin;
    start.record.loop = wholeLoop();
    start.record.speed = speed;
    start.record.semitones = semitones;
    start.record.outputRate = rate;
    start.notes = noteListOf({});
    Lane lane;
    lane.start(start);
    Mixer mixer;
    mixer.lanes().order(&lane, 0);
    mixer.setPlaying(true);
    std::vector<float> heard(2 * blockFrames);
    const double before = threadSeconds();
    for (std::size_t done = 0; done < outputFrames; done += blockFrames) {
        lane.fill(blockFrames, false);
        mixer.render(heard, rate, 0, false);
    }
    benchmark::DoNotOptimize(heard.data());
    return threadSeconds() - before;
}

/// The blocks that the engine would feed, made before the clock starts.
std::vector<float> planarBlocks(int chunk, double speed) {
    LoopedSource source(bandMusic(), wholeLoop().begin, wholeLoop());
    const auto frames = static_cast<std::size_t>(static_cast<double>(outputFrames) * speed) + 8192;
    const std::size_t blocks = frames / static_cast<std::size_t>(chunk) + 1;
    std::vector<float> planar;
    std::vector<float> block(2 * static_cast<std::size_t>(chunk));
    for (std::size_t i = 0; i < blocks; ++i) {
        source.read(block);
        for (const std::size_t channel : {0u, 1u})
            for (std::size_t frame = 0; frame < block.size() / 2; ++frame)
                planar.push_back(block[2 * frame + channel]);
    }
    return planar;
}

double bareSeconds(double speed, double semitones) {
    Stretcher ours(rate, 2);
    ours.start(speed, semitones);
    const auto chunk = static_cast<std::size_t>(ours.chunk());
    const std::vector<float> planar = planarBlocks(ours.chunk(), speed);
    RubberBandStretcher bare(
        44100, 2,
        RubberBandStretcher::OptionProcessRealTime | RubberBandStretcher::OptionEngineFiner |
            RubberBandStretcher::OptionPitchHighConsistency | RubberBandStretcher::OptionChannelsTogether,
        1.0 / speed, std::exp2(semitones / 12.0));
    bare.setMaxProcessSize(chunk);
    std::vector<float> left(65536);
    std::vector<float> right(left.size());
    const std::array<float*, 2> out{left.data(), right.data()};
    std::size_t made = 0;
    const double before = threadSeconds();
    for (std::size_t at = 0; made < outputFrames && at + 2 * chunk <= planar.size(); at += 2 * chunk) {
        const std::array<const float*, 2> in{planar.data() + at, planar.data() + at + chunk};
        bare.process(in.data(), chunk, false);
        const auto ready = std::min(static_cast<std::size_t>(std::max(0, bare.available())), left.size());
        made += bare.retrieve(out.data(), ready);
    }
    return threadSeconds() - before;
}

/// Argument: speed in percent, semitones.
void EngineBesideBareRubberBand(benchmark::State& state) {
    const double speed = static_cast<double>(state.range(0)) / 100.0;
    const auto semitones = static_cast<double>(state.range(1));
    double engine = 0;
    double bare = 0;
    for ([[maybe_unused]] auto _ : state) {
        engine += engineSeconds(speed, semitones);
        bare += bareSeconds(speed, semitones);
    }
    const double heard = outputSeconds * static_cast<double>(state.iterations());
    state.counters["engine_percent"] = 100 * engine / heard;
    state.counters["bare_percent"] = 100 * bare / heard;
    state.counters["times_bare"] = engine / bare;
}

BENCHMARK(EngineBesideBareRubberBand)
    ->ArgNames({"speed", "semitones"})
    ->ArgsProduct({{10, 25, 50, 75, 100, 150, 200}, {0}})
    ->Args({50, 5})
    ->Args({100, -5})
    ->Iterations(2)
    ->Unit(benchmark::kMillisecond);

/// What a pass over the seam of a short loop costs, in microseconds a second of recording. Argument: length
/// of the loop in milliseconds.
void SeamOfALoop(benchmark::State& state) {
    const Frames length(state.range(0) * rate.hertz / 1000);
    LoopedSource source(bandMusic(), Frames(44100), Range{Frames(44100), Frames(44100) + length});
    std::vector<float> block(2 * blockFrames);
    for ([[maybe_unused]] auto _ : state)
        for (std::size_t done = 0; done < 44100; done += blockFrames) {
            source.read(block);
            benchmark::DoNotOptimize(block.data());
        }
}

BENCHMARK(SeamOfALoop)->ArgName("loop_ms")->Arg(50)->Arg(500)->Arg(5000)->Unit(benchmark::kMicrosecond);

} // namespace
} // namespace earwright
