// Plays a line on a physical model of the Synthesis ToolKit whose string or tube goes on under slurred notes:
// `phrases < notes > line`.
//
// In: model, seconds, colour (0 to 1), noise (0 to 1); then a note a row: onset and length in seconds, hertz,
// effort (0 to 1), whether it is slurred (0 or 1), seconds in which the pitch moves, kick (0 to 1: how hard
// the finger strikes or plucks the string, against a pick), seconds after its end in which it dies away, if
// nothing is slurred to it. Out: one channel of floats at 44.1 kHz.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>
#include <iostream>
#include <memory>
#include <stk/BlowHole.h>
#include <stk/Bowed.h>
#include <stk/Brass.h>
#include <stk/Noise.h>
#include <stk/OnePole.h>
#include <stk/Saxofony.h>
#include <stk/Twang.h>
#include <stk/VoicForm.h>
#include <string>
#include <vector>

namespace {

constexpr double rate = 44100;
constexpr double lowestHertz = 40;

struct Note {
    double onset, length, hertz, effort;
    int slurred;
    double moves, kick, tail;
};

/// What sounds, from a picked or tongued note on.
struct Player {
    std::function<void(double)> setHertz;
    std::function<void(double)> kick;
    std::function<void()> stop;
    std::function<double()> next;
    double before = 0; ///< seconds for which it sounds before it is let in
};

/// A string: excited by a short burst of noise, again and more darkly where a finger strikes it.
Player stringOf(const Note& n, double colour) {
    auto string = std::make_shared<stk::Twang>(lowestHertz);
    string->setFrequency(n.hertz);
    string->setPluckPosition(0.08 + 0.4 * colour);
    string->setLoopGain(0.985 + 0.0145 * n.effort);
    auto pick = std::make_shared<stk::OnePole>(0.97 - 0.5 * n.effort * colour);
    auto noise = std::make_shared<stk::Noise>();
    auto age = std::make_shared<int>(0);
    auto force = std::make_shared<double>(1.0);
    return {[string](double hertz) { string->setFrequency(hertz); },
            [=](double kick) {
                *age = 0;
                *force = kick;
                pick->setPole(0.975);
            },
            [] {},
            [=] {
                const double burst = *age < 220 ? *force * noise->tick() * (1 - *age / 220.0) : 0;
                ++*age;
                return string->tick(pick->tick(burst));
            }};
}

template <class Instrument>
Player blown(std::shared_ptr<Instrument> i, const Note& n, double before) {
    i->noteOn(n.hertz, n.effort);
    return {[i](double hertz) { i->setFrequency(hertz); }, [](double) {}, [i] { i->noteOff(0.5); },
            [i] { return i->tick(); }, before};
}

template <class Wind>
Player wind(const Note& n, double noise) {
    auto wind = std::make_shared<Wind>(lowestHertz);
    wind->controlChange(1, 0);
    wind->controlChange(4, 12 + 50 * noise);
    return blown(wind, n, 0.025);
}

Player sung(const Note& n, double colour) {
    static const char* const vowels[] = {"eee", "ihh", "ehh", "aaa", "ahh",
                                         "aww", "ohh", "uhh", "uuu", "ooo"};
    auto voice = std::make_shared<stk::VoicForm>();
    voice->setPhoneme(vowels[std::min(9, static_cast<int>(10 * colour))]);
    voice->controlChange(1, 0);
    Player p = blown(voice, n, 0.03);
    voice->setVoiced(1);
    return p;
}

Player playerOf(const std::string& name, const Note& n, double colour, double noise) {
    if (name == "saxofony") return wind<stk::Saxofony>(n, noise);
    if (name == "blowhole") return wind<stk::BlowHole>(n, noise);
    if (name == "brass") return blown(std::make_shared<stk::Brass>(lowestHertz), n, 0.03);
    if (name == "bowed") return blown(std::make_shared<stk::Bowed>(lowestHertz), n, 0.04);
    return name == "sung" ? sung(n, colour) : stringOf(n, colour);
}

/// The notes [first, last): the first is picked or tongued, the others slurred to it.
void play(const std::string& name, double colour, double noise, const std::vector<Note>& notes,
          std::size_t first, std::size_t last, std::vector<float>& line) {
    const Note& start = notes[first];
    Player p = playerOf(name, start, colour, noise);
    for (int i = 0; i < p.before * rate; ++i)
        p.next();
    const double end = notes[last - 1].onset + notes[last - 1].length;
    std::vector<double> y(static_cast<std::size_t>((end - start.onset + notes[last - 1].tail) * rate));
    std::size_t now = first;
    double hertz = start.hertz, from = hertz;
    for (std::size_t i = 0; i < y.size(); ++i) {
        const double t = start.onset + static_cast<double>(i) / rate;
        if (now + 1 < last && t >= notes[now + 1].onset - 0.5 * notes[now + 1].moves) {
            from = hertz;
            ++now;
            if (notes[now].kick > 0) p.kick(notes[now].kick);
        }
        const Note& n = notes[now];
        if (now > first && i % 16 == 0 && hertz != n.hertz) {
            const double way = (t - n.onset + 0.5 * n.moves) / std::max(n.moves, 0.001);
            hertz = way >= 1 ? n.hertz : from * std::pow(n.hertz / from, way);
            p.setHertz(hertz);
        }
        double v = p.next();
        if (!(std::abs(v) < 20)) v = 0;
        if (p.before > 0) v *= std::min(1.0, static_cast<double>(i) / rate / (0.006 + 0.02 * noise));
        if (t > end) v *= std::max(0.0, 1 - (t - end) / notes[last - 1].tail);
        y[i] = v;
    }
    double power = 0, mean = 0;
    const std::size_t heard = std::min<std::size_t>(y.size(), 0.15 * rate);
    for (const double v : y)
        mean += v / static_cast<double>(y.size());
    for (std::size_t i = 0; i < heard; ++i)
        power += (y[i] - mean) * (y[i] - mean) / static_cast<double>(heard);
    const double gain = 0.1 * std::pow(start.effort, 1.5) / std::sqrt(power + 1e-9);
    const std::size_t at = static_cast<std::size_t>(start.onset * rate);
    for (std::size_t i = 0; i < y.size() && at + i < line.size(); ++i)
        line[at + i] += static_cast<float>(gain * (y[i] - mean));
}

} // namespace

int main() {
    stk::Stk::setSampleRate(rate);
    stk::Stk::setRawwavePath("/usr/share/stk/rawwaves/");
    stk::Stk::showWarnings(false);
    std::string name;
    double seconds = 0, colour = 0, noise = 0;
    std::cin >> name >> seconds >> colour >> noise;
    std::vector<float> line(static_cast<std::size_t>(seconds * rate));
    std::vector<Note> notes;
    for (Note n{};
         std::cin >> n.onset >> n.length >> n.hertz >> n.effort >> n.slurred >> n.moves >> n.kick >> n.tail;)
        notes.push_back(n);
    for (std::size_t first = 0, last = 1; first < notes.size(); first = last) {
        for (last = first + 1; last < notes.size() && notes[last].slurred;)
            ++last;
        play(name, colour, noise, notes, first, last, line);
    }
    std::fwrite(line.data(), sizeof(float), line.size(), stdout);
}
