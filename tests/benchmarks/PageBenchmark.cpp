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

/// The same with a chord in every bar, and marks of each kind that a page searches room for.
Study markedLineOf(int bars) {
    Study study = lineOf(bars);
    const Meter meter;
    study.chart.form = parseBars("Gm7 C7 | FM7 | Am7b5 D7b9 | Gm7", meter);
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4 * bars), Seconds(2.0 * bars)}});
    study.spans.push_back({{study.nextId++}, SpanKind::Chorus, "", {Seconds(0), Seconds(2.0 * bars)}});
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
        Phrasing& phrasing = study.notes[i].phrasing;
        phrasing.accented = i % 5 == 0;
        phrasing.staccato = i % 7 == 0;
        phrasing.vibrato = i % 11 == 0;
        if (i % 13 == 0) phrasing.graceNotes = {study.notes[i].pitch.midi - 1};
        if (i % 17 == 0) phrasing.trill = 2;
    }
    for (int bar = 0; bar < bars; bar += 4) {
        study.page.dynamics.push_back({Beats(4 * bar), bar % 8 == 0 ? Dynamic::mf : Dynamic::f});
        study.page.hairpins.push_back({{Beats(4 * bar + 1), Beats(4 * bar + 7)}, HairpinKind::Louder});
        study.page.texts.push_back({Beats(4 * bar + 8), "lazily", false});
    }
    return study;
}

FontMetrics fontOf() {
    return *FontMetrics::read(EARWRIGHT_MUSIC_FONT "/metadata.json");
}

void placesOnTheNeck(benchmark::State& state) {
    const Study study = lineOf(static_cast<int>(state.range(0)));
    for (auto _ : state)
        benchmark::DoNotOptimize(fingered(study.notes, study.tuning, LineTime(study)));
}

void linesOfMusic(benchmark::State& state) {
    const Study study = lineOf(static_cast<int>(state.range(0)));
    const FontMetrics font = fontOf();
    EngravingOptions options;
    options.strings = 6;
    options.places = fingered(study.notes, study.tuning, LineTime(study)).places;
    for (auto _ : state)
        benchmark::DoNotOptimize(engraveSystems(study, wholeStudy(study), options, font));
}

/// What one edit costs the page under the grid: all of it.
void pageOfAnEdit(benchmark::State& state) {
    const Study study = markedLineOf(static_cast<int>(state.range(0)));
    const FontMetrics font = fontOf();
    EngravingOptions options;
    options.strings = 6;
    options.degrees = true;
    for (auto _ : state) {
        options.places = fingered(study.notes, study.tuning, LineTime(study)).places;
        benchmark::DoNotOptimize(engraveSystems(study, wholeStudy(study), options, font));
    }
}

BENCHMARK(placesOnTheNeck)->Arg(4)->Arg(32)->Arg(128)->Unit(benchmark::kMillisecond);
BENCHMARK(linesOfMusic)->Arg(4)->Arg(32)->Arg(128)->Unit(benchmark::kMillisecond);
BENCHMARK(pageOfAnEdit)->Arg(4)->Arg(36)->Arg(128)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace earwright
