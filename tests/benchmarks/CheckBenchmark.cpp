// What listening and checking cost: the tuning of a long recording, the onsets of a mix, and the check of
// notes in a passage that was listened to before, for the first time and after one was corrected. A chorus of
// twelve bars has some 66 of them, five to six a bar; a hundred are eighths all through. What is played and
// not written is listened to as well, so that a chorus that is half written takes longer than a finished one.
// "Time" is what the user waits; "CPU" is that of all threads together, which holds on a busy machine too.
#include "core/check/NoteCheck.h"
#include "core/listening/OnsetListener.h"
#include "core/listening/RecordingEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <benchmark/benchmark.h>
#include <vector>

namespace earwright {
namespace {

constexpr int mostNotes = 100;
constexpr Range<Seconds> passage{Seconds(0), Seconds(25)};

/// So that they fill the passage.
Seconds lengthOf(int notes) {
    return Seconds(23.0 / notes);
}

int midiOf(int note) {
    return 55 + (note * 7) % 24;
}

/// A line left of the middle, and low tones on the right.
AnalysisSound lineAndBass(double seconds, int notesOfPassage = mostNotes) {
    const Seconds noteLength = lengthOf(notesOfPassage);
    AnalysisSound sound;
    sound.left = tests::silence(Seconds(seconds));
    std::vector<float> low = tests::silence(Seconds(seconds));
    const int notes = static_cast<int>(seconds / noteLength.value) - 1;
    for (int note = 0; note < notes; ++note) {
        const Seconds at = noteLength * note + Seconds(0.5);
        tests::addTone(sound.left, {at, at + noteLength}, midiOf(note));
        if (note % 2 == 0) tests::addTone(low, {at, at + noteLength * 2}, 36 + note % 9);
    }
    sound.right = low;
    for (std::size_t i = 0; i < low.size(); ++i) {
        sound.right[i] += 0.3f * sound.left[i];
        sound.left[i] += 0.5f * low[i];
    }
    return sound;
}

std::vector<Claim> claims(int notesOfPassage = mostNotes) {
    std::vector<Claim> all;
    for (int note = 0; note < notesOfPassage; ++note) {
        const Seconds noteLength = lengthOf(notesOfPassage);
        const Seconds at = noteLength * note + Seconds(0.5);
        all.push_back({{at, at + noteLength}, midiOf(note)});
    }
    return all;
}

void tuningOfTenMinutes(benchmark::State& state) {
    const std::vector<float> minute = lineAndBass(60).mid();
    std::vector<float> sound;
    for (int i = 0; i < 10; ++i)
        sound.insert(sound.end(), minute.begin(), minute.end());
    const auto timeOf = [](std::size_t sample) {
        return analysisRate.seconds(Frames(static_cast<std::int64_t>(sample)));
    };
    for (auto _ : state)
        benchmark::DoNotOptimize(HeardTuning::of(sound, timeOf, Seconds(600)));
}

void onsetsOfTheMixOfOneMinute(benchmark::State& state) {
    AnalysisSound sound = lineAndBass(60);
    sound.left = sound.mid();
    sound.right.clear();
    const Range<Seconds> minute{Seconds(0), Seconds(60)};
    const StereoViews views(sound, minute);
    for (auto _ : state)
        benchmark::DoNotOptimize(listenForOnsets(views, 0, 0, minute, {}, {}));
}

/// As somebody writes them down: one in seven a semitone off, one in eleven 150 ms late, one in nine left
/// out.
std::vector<Claim> claimsWithMistakes(int notesOfPassage) {
    std::vector<Claim> all = claims(notesOfPassage);
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (i % 7 == 3) all[i].midi += 1;
        if (i % 11 == 5) all[i].range = all[i].range.shifted(Seconds(0.15));
    }
    std::vector<Claim> written;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (i % 9 != 4) written.push_back(all[i]);
    return written;
}

void firstCheck(benchmark::State& state, const AnalysisSound& sound, const std::vector<Claim>& written) {
    const auto heard = PassageEvidence::listen(sound, 0, passage);
    std::vector<OnsetTrack> tracks;
    for (std::size_t view = 0; view < heard->viewCount(); ++view)
        tracks.push_back(heard->onsets(view));
    for (auto _ : state) {
        state.PauseTiming();
        const auto evidence = PassageEvidence::recalled(sound, 0, passage, tracks);
        state.ResumeTiming();
        benchmark::DoNotOptimize(checkNotes(*evidence, written));
    }
}

/// How many notes are played.
int notesOf(const benchmark::State& state) {
    return static_cast<int>(state.range(0));
}

/// Left, right, centre, sides and both together.
void firstCheckInFiveViews(benchmark::State& state) {
    firstCheck(state, lineAndBass(26, notesOf(state)), claims(notesOf(state)));
}

void firstCheckWithMistakes(benchmark::State& state) {
    firstCheck(state, lineAndBass(26, notesOf(state)), claimsWithMistakes(notesOf(state)));
}

void firstCheckOfTwoThirds(benchmark::State& state) {
    std::vector<Claim> written = claims(notesOf(state));
    written.resize(written.size() * 2 / 3);
    firstCheck(state, lineAndBass(26, notesOf(state)), written);
}

/// Six notes in the middle stand one note late: judged once more as a run.
void firstCheckWithAMovedBar(benchmark::State& state) {
    std::vector<Claim> written = claims(notesOf(state));
    for (std::size_t i = written.size() / 2; i < written.size() / 2 + 6; ++i)
        written[i].range = written[i].range.shifted(lengthOf(notesOf(state)));
    firstCheck(state, lineAndBass(26, notesOf(state)), written);
}

void firstCheckOfAMonoRecording(benchmark::State& state) {
    AnalysisSound sound = lineAndBass(26, notesOf(state));
    sound.left = sound.mid();
    sound.right.clear();
    firstCheck(state, sound, claims(notesOf(state)));
}

void checkAfterOneWasCorrected(benchmark::State& state) {
    const auto evidence = PassageEvidence::listen(lineAndBass(26), 0, passage);
    std::vector<Claim> written = claims();
    checkNotes(*evidence, written);
    int last = mostNotes / 2;
    for (auto _ : state) {
        written[static_cast<std::size_t>(last)].midi ^= 1;
        last = (last + 1) % mostNotes;
        benchmark::DoNotOptimize(checkNotes(*evidence, written));
    }
}

BENCHMARK(tuningOfTenMinutes)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();
BENCHMARK(onsetsOfTheMixOfOneMinute)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();
BENCHMARK(firstCheckInFiveViews)
    ->Arg(66)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(firstCheckWithMistakes)
    ->Arg(66)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(firstCheckOfTwoThirds)
    ->Arg(66)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(firstCheckWithAMovedBar)
    ->Arg(66)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(firstCheckOfAMonoRecording)
    ->Arg(66)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(checkAfterOneWasCorrected)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

} // namespace
} // namespace earwright
