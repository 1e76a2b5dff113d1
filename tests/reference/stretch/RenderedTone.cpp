#include "tests/reference/stretch/RenderedTone.h"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <string>

namespace earwright::tests {

namespace {

/// Standard MIDI File 1.0, format 0, 480 ticks a quarter; at the usual 120 quarters a minute 960 ticks a
/// second.
std::string midiFile(int program, int note, double seconds) {
    const auto ticks = static_cast<unsigned>(std::lround(seconds * 960));
    const auto byte = [](unsigned value) { return static_cast<char>(value & 0xff); };
    std::string track;
    const auto add = [&](std::initializer_list<unsigned> bytes) {
        for (const unsigned value : bytes)
            track += byte(value);
    };
    add({0, 0xc0, static_cast<unsigned>(program)});
    add({0, 0x90, static_cast<unsigned>(note), 100});
    add({0x80 | (ticks >> 14 & 0x7f), 0x80 | (ticks >> 7 & 0x7f), ticks & 0x7f});
    add({0x80, static_cast<unsigned>(note), 0});
    add({0, 0xff, 0x2f, 0});
    std::string file = "MThd";
    for (const unsigned value : {0, 0, 0, 6, 0, 0, 0, 1, 480 >> 8, 480 & 0xff})
        file += byte(value);
    file += "MTrk";
    const auto size = static_cast<unsigned>(track.size());
    for (const unsigned value : {size >> 24, size >> 16, size >> 8, size})
        file += byte(value);
    return file + track;
}

} // namespace

std::shared_ptr<Recording> renderedTone(const std::filesystem::path& wav, int program, int midi,
                                        double seconds) {
    std::filesystem::path score = wav;
    score.replace_extension(".mid");
    std::ofstream(score, std::ios::binary) << midiFile(program, midi, seconds);
    const std::string command = "fluidsynth -ni -q -g 0.8 -r 44100 -O s16 -T wav -o synth.chorus.active=0 "
                                "-o synth.reverb.active=0 -F '" +
                                wav.string() + "' /usr/share/sounds/sf2/FluidR3_GM.sf2 '" + score.string() +
                                "' >/dev/null 2>&1";
    if (std::system(command.c_str()) != 0) return nullptr;
    const auto opened = Recording::open(wav);
    return opened ? *opened : nullptr;
}

} // namespace earwright::tests
