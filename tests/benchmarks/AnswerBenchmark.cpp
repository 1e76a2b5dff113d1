// How soon what the user asks for is heard: from the call to the sound in the recorded monitor of a real
// device, less the delay of marked samples (auditioned notes, which the callback plays at once) through the
// same device in the same run. The time shown is the median.
#include "core/engine/Engine.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/PrivateSound.h"

#include <algorithm>
#include <benchmark/benchmark.h>
#include <chrono>
#include <cmath>
#include <functional>
#include <map>
#include <string>
#include <thread>
#include <vector>

namespace earwright {
namespace {

constexpr int rate = 44100;
constexpr int repetitions = 5;

/// By what an answer is known.
enum class Sign { Level, Pitch, Glide };

struct Posted {
    std::string command;
    Sign sign;
    /// On the steady clock.
    double milliseconds;
    /// In the sound so far.
    int gaps;
};

struct Answer {
    double milliseconds;
    /// The largest step from sample to sample about the change, by the largest of the sound on either side.
    double step;
};

double steadyMilliseconds() {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

void wait(int milliseconds) {
    std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds));
}

double medianOf(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values.empty() ? 0 : values[values.size() / 2];
}

/// Two steady tones of 40 s, louder on the left, then a tone that rises by 300 Hz a second.
std::shared_ptr<Recording> tonesAndGlide() {
    std::vector<float> samples;
    double phase = 0;
    for (int frame = 0; frame < 92 * rate; ++frame) {
        const double second = static_cast<double>(frame) / rate;
        const double hertz = second < 40 ? 500 : second < 80 ? 750 : 400 + 300 * (second - 80);
        phase += hertz / rate;
        const double tone = std::sin(2 * M_PI * phase);
        samples.push_back(static_cast<float>(0.3 * tone));
        samples.push_back(static_cast<float>(0.1 * tone));
    }
    return tests::held(std::move(samples), rate, 2);
}

/// So close that there is always one sounding.
std::vector<TimedNote> manyNotes() {
    std::vector<TimedNote> notes;
    for (int onset = 0; onset < 40 * rate; onset += rate / 20) {
        TimedNote note;
        note.onset = Frames(onset);
        note.end = Frames(onset + rate / 20);
        note.midi = 69;
        notes.push_back(note);
    }
    return notes;
}

/// The monitor's left channel, by milliseconds from the start of the recording.
class Monitor {
public:
    explicit Monitor(const std::vector<float>& stereo) {
        for (std::size_t i = 0; i < stereo.size(); i += 2)
            left.push_back(stereo[i]);
    }
    double length() const { return static_cast<double>(left.size()) * 1000 / rate; }
    /// Decibels over 2 ms: a period of the lower tone.
    double level(double at) const {
        const std::size_t from = sampleAt(at);
        double sum = 0;
        for (std::size_t i = from; i < from + 88 && i < left.size(); ++i)
            sum += static_cast<double>(left[i]) * left[i];
        return 10 * std::log10(sum / 88 + 1e-9);
    }
    /// Hertz of the period there, from one upward crossing of zero to the next.
    double pitch(double at) const {
        std::size_t i = sampleAt(at);
        const double from = crossingAfter(i);
        const double to = crossingAfter(i);
        return to > from ? rate / (to - from) : 0;
    }
    /// The largest step in a stretch.
    double step(double from, double to) const {
        double most = 0;
        for (std::size_t i = sampleAt(from) + 1; i < sampleAt(to); ++i)
            most = std::max(most, static_cast<double>(std::abs(left[i] - left[i - 1])));
        return most;
    }
    /// Where something comes out of silence, or the end.
    double soundAfter(double at) const {
        std::size_t i = sampleAt(at);
        while (i < left.size() && std::abs(left[i]) < 1e-3f)
            ++i;
        return static_cast<double>(i) * 1000 / rate;
    }

private:
    std::size_t sampleAt(double at) const {
        const auto sample = std::llround(std::max(at, 0.0) * rate / 1000);
        return std::min(static_cast<std::size_t>(sample), left.size() - 1);
    }
    double crossingAfter(std::size_t& i) const {
        for (++i; i < left.size(); ++i)
            if (left[i - 1] < 0 && left[i] >= 0)
                return static_cast<double>(i) -
                       static_cast<double>(left[i]) / static_cast<double>(left[i] - left[i - 1]);
        return 0;
    }

    std::vector<float> left;
};

/// Milliseconds from `due` to where the value is nearer to what it becomes than to what it was, for 3 ms.
double turnAfter(double due, const std::function<double(double)>& value) {
    std::vector<double> before;
    std::vector<double> after;
    for (int i = 0; i < 80; ++i) {
        before.push_back(value(due - 100 + i));
        after.push_back(value(due + 500 + i));
    }
    const double was = medianOf(before);
    const double becomes = medianOf(after);
    int turned = 0;
    for (double late = -20; late < 600; late += 0.5) {
        const double now = value(due + late);
        turned = std::abs(now - becomes) < std::abs(now - was) ? turned + 1 : 0;
        if (turned == 6) return late - 2.5;
    }
    return 600;
}

/// How badly a straight line fits values 1 ms apart; what lies off by more than 8 Hz counts as if by that.
double misfit(const std::vector<double>& values, std::size_t from, std::size_t to) {
    const auto count = static_cast<double>(to - from);
    double sum = 0;
    double moment = 0;
    for (std::size_t i = from; i < to; ++i) {
        sum += values[i];
        moment += (static_cast<double>(i - from) - (count - 1) / 2) * values[i];
    }
    const double slope = moment * 12 / (count * (count * count - 1));
    double total = 0;
    for (std::size_t i = from; i < to; ++i) {
        const double line = sum / count + slope * (static_cast<double>(i - from) - (count - 1) / 2);
        total += std::min(64.0, (values[i] - line) * (values[i] - line));
    }
    return total;
}

/// Milliseconds from `due` to where the glide changes its slope.
double kneeAfter(double due, const Monitor& monitor) {
    constexpr std::size_t lead = 150;
    std::vector<double> hertz;
    for (std::size_t i = 0; i < 500; ++i) {
        std::vector<double> near;
        for (int j = -2; j <= 2; ++j)
            near.push_back(monitor.pitch(due + static_cast<double>(i) - static_cast<double>(lead) + 2 * j));
        hertz.push_back(medianOf(near));
    }
    std::size_t best = 0;
    double least = 1e30;
    for (std::size_t knee = lead - 30; knee < 450; ++knee) {
        const double off = misfit(hertz, 0, knee) + misfit(hertz, knee, hertz.size());
        if (off >= least) continue;
        least = off;
        best = knee;
    }
    return static_cast<double>(best) - static_cast<double>(lead);
}

/// Plays through a private server and looks for the answers afterwards.
class Session {
public:
    Session() {
        engine.setRecording(tonesAndGlide());
        for (int i = 0; i < 500 && engine.device().state != DeviceState::Running; ++i)
            wait(20);
        sound.record();
        began = steadyMilliseconds();
        wait(500);
    }

    std::map<std::string, std::vector<Answer>> measure() {
        for (round = 0; round < repetitions; ++round) {
            start();
            mark();
            picture();
            mark();
            places(1, "");
            mark();
            places(0.5, " at half speed");
            mark();
            glide();
            mark();
            written();
            mark();
        }
        return found();
    }
    int gaps() { return engine.device().underruns; }

private:
    void post(const std::string& command, Sign sign, const std::function<void()>& call) {
        // Not in step with the callbacks.
        wait(700 + (round * 37 + static_cast<int>(posted.size()) * 13) % 100);
        posted.push_back({command, sign, steadyMilliseconds() - began, engine.device().underruns});
        call();
    }
    void rest() {
        wait(700);
        engine.pause();
        engine.setLoop({});
        engine.setPlaying({1, 0, 0});
    }
    /// From silence into silence: what was paused has to be out of the device first.
    void mark() {
        wait(1200 + (round * 23 + static_cast<int>(marks.size()) * 7) % 50);
        marks.push_back(steadyMilliseconds() - began);
        engine.audition(69, 0.8);
        wait(1500);
    }
    void start() {
        engine.seek(Frames(rate));
        post("start", Sign::Level, [&] { engine.play(); });
        rest();
    }
    void picture() {
        engine.seek(Frames(rate));
        engine.play();
        post("focus", Sign::Level, [&] { engine.setFocus(Focus::Right); });
        post("focus", Sign::Level, [&] { engine.setFocus(Focus::All); });
        post("band", Sign::Level, [&] { engine.setBand(Band{1000, 8000, false}); });
        post("band", Sign::Level, [&] { engine.setBand({}); });
        rest();
    }
    void places(double speed, const std::string& suffix) {
        const auto second = [](int at) { return Frames(at * rate); };
        engine.seek(second(1));
        engine.setPlaying({speed, 0, 0});
        engine.play();
        post("transpose" + suffix, Sign::Pitch, [&] { engine.setPlaying({speed, 5, 0}); });
        post("transpose" + suffix, Sign::Pitch, [&] { engine.setPlaying({speed, 0, 0}); });
        post("seek" + suffix, Sign::Pitch, [&] { engine.seek(second(50)); });
        post("seek" + suffix, Sign::Pitch, [&] { engine.seek(second(2)); });
        post("loop" + suffix, Sign::Pitch, [&] { engine.setLoop(Range{second(60), second(70)}); });
        post("loop" + suffix, Sign::Pitch, [&] { engine.setLoop(Range{second(10), second(20)}); });
        rest();
    }
    void glide() {
        engine.seek(Frames(80 * rate));
        engine.play();
        post("speed", Sign::Glide, [&] { engine.setPlaying({0.5, 0, 0}); });
        post("speed", Sign::Glide, [&] { engine.setPlaying({1, 0, 0}); });
        rest();
    }
    void written() {
        engine.setNotes(manyNotes());
        engine.setHearing(Hearing::Yours);
        engine.seek(Frames(rate));
        engine.play();
        post("balance", Sign::Level, [&] { engine.setBalance(-18); });
        post("balance", Sign::Level, [&] { engine.setBalance(0); });
        post("notes", Sign::Level, [&] { engine.setNotes({}); });
        post("notes", Sign::Level, [&] { engine.setNotes(manyNotes()); });
        rest();
        engine.setNotes({});
        engine.setHearing(Hearing::Record);
    }

    std::map<std::string, std::vector<Answer>> found() {
        const Monitor monitor(sound.recorded());
        std::vector<double> delays;
        for (const double at : marks)
            delays.push_back(monitor.soundAfter(at) - at);
        std::map<std::string, std::vector<Answer>> answers;
        for (std::size_t i = 0; i < marks.size(); ++i)
            answers["mark"].push_back({delays[i] - delayNear(marks[i], delays), 0});
        for (std::size_t i = 0; i < posted.size(); ++i) {
            const Posted& one = posted[i];
            // Where the machine was too busy for the device, the sound has steps of other reasons.
            if (one.gaps != (i + 1 < posted.size() ? posted[i + 1].gaps : engine.device().underruns))
                continue;
            answers[one.command].push_back(
                answerTo(one, one.milliseconds + delayNear(one.milliseconds, delays), monitor));
        }
        return answers;
    }
    /// The median of the five marks nearest in time: a device that ran dry is given more room.
    double delayNear(double at, const std::vector<double>& delays) const {
        const auto next = std::lower_bound(marks.begin(), marks.end(), at) - marks.begin();
        const auto last = static_cast<std::ptrdiff_t>(marks.size()) - 5;
        const auto from = delays.begin() + std::clamp<std::ptrdiff_t>(next - 2, 0, last);
        return medianOf({from, from + 5});
    }
    static Answer answerTo(const Posted& one, double due, const Monitor& monitor) {
        double late = 0;
        if (one.sign == Sign::Glide) late = kneeAfter(due, monitor);
        if (one.sign == Sign::Level) late = turnAfter(due, [&](double at) { return monitor.level(at - 1); });
        if (one.sign == Sign::Pitch) late = turnAfter(due, [&](double at) { return monitor.pitch(at - 2); });
        const double at = due + late;
        const double steady = std::max(monitor.step(at - 300, at - 60), monitor.step(at + 60, at + 300));
        return {late, monitor.step(at - 60, at + 60) / std::max(steady, 1e-6)};
    }

    tests::PrivateSound sound;
    Engine engine;
    double began = 0;
    int round = 0;
    std::vector<double> marks;
    std::vector<Posted> posted;
};

void Answered(benchmark::State& state, const std::string& command) {
    static std::map<std::string, std::vector<Answer>> answers;
    if (!tests::PrivateSound::isAvailable()) return state.SkipWithError("pulseaudio is not installed");
    static int gaps = 0;
    if (answers.empty()) {
        Session session;
        answers = session.measure();
        gaps = session.gaps();
    }
    std::vector<double> late;
    double step = 0;
    for (const Answer& answer : answers[command]) {
        late.push_back(answer.milliseconds);
        step = std::max(step, answer.step);
    }
    if (late.empty()) return state.SkipWithError("the machine is too busy for sound without gaps");
    for ([[maybe_unused]] auto _ : state)
        state.SetIterationTime(std::max(0.0, medianOf(late)) / 1000);
    state.counters["most_ms"] = *std::max_element(late.begin(), late.end());
    state.counters["least_ms"] = *std::min_element(late.begin(), late.end());
    state.counters["times"] = static_cast<double>(late.size());
    state.counters["step"] = step;
    state.counters["gaps"] = gaps;
}

const int registered = [] {
    for (const std::string command :
         {"mark", "start", "seek", "seek at half speed", "loop", "loop at half speed", "speed", "transpose",
          "transpose at half speed", "balance", "focus", "band", "notes"})
        benchmark::RegisterBenchmark(command.c_str(), Answered, command)
            ->Iterations(1)
            ->UseManualTime()
            ->Unit(benchmark::kMillisecond);
    return 0;
}();

} // namespace
} // namespace earwright
