// What a page costs that is laid out while the line is written: places on the neck and the engraving of so
// many bars of eighths with triplets. Times are CPU time of the thread, so that they hold on a busy machine
// too.
#include "core/engraving/Engraving.h"
#include "core/engraving/Fingering.h"

#include <benchmark/benchmark.h>

namespace earwright {
namespace {

Study lineOf(int bars) {
    Study study;
    for (int beat = 0; beat < 4 * bars; ++beat) {
        const int parts = beat % 5 == 0 ? 3 : 2;
        for (int part = 0; part < parts; ++part) {
            Note note;
            note.id = {study.nextId++};
            note.onset = Beats(beat) + Beats(part, parts);
            note.length = Beats(1, parts);
            note.pitch.midi = 55 + (beat * 7 + part * 3) % 24;
            note.phrasing.slurred = beat % 3 == 1;
            study.notes.push_back(note);
        }
    }
    return study;
}

FontMetrics fontOf() {
    return *FontMetrics::read(EARWRIGHT_MUSIC_FONT "/metadata.json");
}

void placesOnTheNeck(benchmark::State& state) {
    const Study study = lineOf(static_cast<int>(state.range(0)));
    for (auto _ : state)
        benchmark::DoNotOptimize(fingered(study.notes, study.tuning));
}

void linesOfMusic(benchmark::State& state) {
    const Study study = lineOf(static_cast<int>(state.range(0)));
    const FontMetrics font = fontOf();
    EngravingOptions options;
    options.strings = 6;
    options.places = fingered(study.notes, study.tuning).places;
    for (auto _ : state)
        benchmark::DoNotOptimize(engraveSystems(study, wholeStudy(study), options, font));
}

BENCHMARK(placesOnTheNeck)->Arg(4)->Arg(32)->Arg(128)->Unit(benchmark::kMillisecond);
BENCHMARK(linesOfMusic)->Arg(4)->Arg(32)->Arg(128)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace earwright
