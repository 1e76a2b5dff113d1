// Plays a line on a physical model of the Synthesis ToolKit, for training: `models < notes > line`.
//
// In: name, seconds; then a note a row: onset and length in seconds, frequency in hertz, effort (0 to 1, how hard it
// is played), level, cents and seconds of the slide into it, hertz and cents of vibrato, growl (0 to 1), noise (0 to 1,
// breath, or the pick's), colour (0 to 1, of the model's own kind), ring (seconds for which it dies away after its end).
// Out: one channel of floats at 44.1 kHz. Every note is a model of its own and as loud as its level says over its first
// 150 ms, so that what overlaps is added as strings are.
#include <stk/BiQuad.h>
#include <stk/BlowHole.h>
#include <stk/Bowed.h>
#include <stk/Brass.h>
#include <stk/HevyMetl.h>
#include <stk/Noise.h>
#include <stk/OnePole.h>
#include <stk/Saxofony.h>
#include <stk/Sitar.h>
#include <stk/Twang.h>
#include <stk/VoicForm.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>
#include <iostream>
#include <memory>
#include <string>
#include <vector>

namespace {

constexpr double rate = 44100;
constexpr double lowestHertz = 40;

struct Note {
    double onset, length, hertz, effort, level, slide, slideSeconds, vibratoHertz, vibrato, growl, noise, colour, ring;
};

/// A sounding note: what it can be asked.
struct Player {
    std::function<void(double)> setHertz;
    std::function<void()> stop;
    std::function<double()> next;
    double blownBefore = 0; ///< seconds for which it sounds before it is let in
};

template <class Instrument> Player played(std::shared_ptr<Instrument> i, const Note& n, double before) {
    i->noteOn(n.hertz, n.effort);
    return {[i](double hertz) { i->setFrequency(hertz); }, [i] { i->noteOff(0.5); }, [i] { return i->tick(); }, before};
}

/// A plucked string: a burst of noise through a soft or hard pick, sent round the string.
Player string(const Note& n) {
    auto string = std::make_shared<stk::Twang>(lowestHertz);
    string->setFrequency(n.hertz);
    string->setPluckPosition(0.08 + 0.4 * n.colour);
    string->setLoopGain(0.985 + 0.0145 * n.effort);
    auto pick = std::make_shared<stk::OnePole>(0.97 - 0.5 * n.effort * n.colour);
    auto noise = std::make_shared<stk::Noise>();
    auto age = std::make_shared<int>(0);
    return {[string](double hertz) { string->setFrequency(hertz); }, [] {}, [=] {
                const double burst = *age < 220 ? noise->tick() * (1 - *age / 220.0) : 0;
                ++*age;
                return string->tick(pick->tick(burst));
            }};
}

Player sung(const Note& n) {
    static const char* const vowels[] = {"eee", "ihh", "ehh", "aaa", "ahh", "aww", "ohh", "uhh", "uuu", "ooo"};
    auto voice = std::make_shared<stk::VoicForm>();
    voice->setPhoneme(vowels[std::min(9, static_cast<int>(10 * n.colour))]);
    voice->controlChange(1, 0);
    Player p = played(voice, n, 0.03);
    voice->setVoiced(1);
    voice->setUnVoiced(0.02 * n.noise);
    return p;
}

template <class Wind> Player blown(const Note& n, double before) {
    auto wind = std::make_shared<Wind>(lowestHertz);
    wind->controlChange(1, 0);
    wind->controlChange(4, 12 + 50 * n.noise);
    return played(wind, n, before);
}

Player made(const std::string& name, const Note& n) {
    if (name == "saxofony")
        return blown<stk::Saxofony>(n, 0.025);
    if (name == "blowhole")
        return blown<stk::BlowHole>(n, 0.025);
    if (name == "brass" || name == "bowed") {
        const bool brass = name == "brass";
        Player p = brass ? played(std::make_shared<stk::Brass>(lowestHertz), n, 0.03)
                         : played(std::make_shared<stk::Bowed>(lowestHertz), n, 0.04);
        return p;
    }
    if (name == "sitar")
        return played(std::make_shared<stk::Sitar>(lowestHertz), n, 0);
    if (name == "metal")
        return played(std::make_shared<stk::HevyMetl>(), n, 0);
    return name == "sung" ? sung(n) : string(n);
}

double hertzAt(const Note& n, double t) {
    double cents = 0;
    if (n.slide != 0 && t < n.slideSeconds)
        cents -= n.slide * (t < 0 ? 1 : 1 - t / n.slideSeconds);
    if (n.vibrato > 0 && t > 0.12)
        cents += n.vibrato * std::min(1.0, (t - 0.12) / 0.15) * std::sin(2 * M_PI * n.vibratoHertz * (t - 0.12));
    if (n.growl > 0)
        cents += 25 * n.growl * std::sin(2 * M_PI * 31 * t);
    return n.hertz * std::pow(2, cents / 1200);
}

/// The tongue's, lips' or pick's noise at the beginning.
void addAttackNoise(const Note& n, std::vector<double>& y) {
    stk::Noise noise;
    stk::BiQuad band;
    band.setResonance(900 + 4500 * n.colour, 0.93, true);
    const double seconds = 0.006 + 0.03 * n.noise;
    for (std::size_t i = 0; i < y.size() && i < 0.2 * rate; ++i)
        y[i] += 0.5 * n.noise * band.tick(noise.tick()) * std::exp(-(i / rate) / seconds);
}

std::vector<double> sound(const std::string& name, const Note& n) {
    Player p = made(name, n);
    const bool bends = n.slide != 0 || n.vibrato > 0 || n.growl > 0;
    for (long i = std::lround(-p.blownBefore * rate); i < 0; ++i)
        p.next();
    const long end = std::lround(n.length * rate), tail = std::lround(n.ring * rate);
    std::vector<double> y(static_cast<std::size_t>(end + tail));
    for (long i = 0; i < end + tail; ++i) {
        const double t = i / rate;
        if (bends && i % 64 == 0 && i < end)
            p.setHertz(hertzAt(n, t));
        if (i == end && n.ring < 0.13)
            p.stop();
        double v = p.next();
        if (!(std::abs(v) < 20))
            v = 0;
        if (p.blownBefore > 0)
            v *= std::min(1.0, t / 0.012);
        if (n.growl > 0)
            v *= 1 - 0.45 * n.growl * (0.5 + 0.5 * std::sin(2 * M_PI * 31 * t));
        if (i > end)
            v *= 0.5 + 0.5 * std::cos(M_PI * (i - end) / tail);
        y[static_cast<std::size_t>(i)] = v;
    }
    double mean = 0, power = 0;
    const long heard = std::min(end, std::lround(0.15 * rate));
    for (long i = 0; i < heard; ++i)
        mean += y[static_cast<std::size_t>(i)] / heard;
    for (double& v : y)
        v -= mean;
    for (long i = 0; i < heard; ++i)
        power += y[static_cast<std::size_t>(i)] * y[static_cast<std::size_t>(i)] / heard;
    const double gain = 0.1 / std::sqrt(power + 1e-9);
    for (double& v : y)
        v *= gain;
    if (n.noise > 0)
        addAttackNoise(n, y);
    for (double& v : y)
        v *= n.level;
    return y;
}

} // namespace

int main() {
    stk::Stk::setSampleRate(rate);
    stk::Stk::setRawwavePath("/usr/share/stk/rawwaves/");
    stk::Stk::showWarnings(false);
    std::string name;
    double seconds = 0;
    std::cin >> name >> seconds;
    std::vector<float> line(static_cast<std::size_t>(seconds * rate));
    Note n{};
    while (std::cin >> n.onset >> n.length >> n.hertz >> n.effort >> n.level >> n.slide >> n.slideSeconds >>
           n.vibratoHertz >> n.vibrato >> n.growl >> n.noise >> n.colour >> n.ring) {
        const std::vector<double> y = sound(name, n);
        const std::size_t first = static_cast<std::size_t>(n.onset * rate);
        for (std::size_t i = 0; i < y.size() && first + i < line.size(); ++i)
            line[first + i] += static_cast<float>(y[i]);
    }
    std::fwrite(line.data(), sizeof(float), line.size(), stdout);
}
