#include "core/music/Pitch.h"

#include <array>
#include <cmath>

namespace earwright {

namespace {

constexpr std::array<int, 7> naturalPitchClass{0, 2, 4, 5, 7, 9, 11};
constexpr std::array<char, 7> letters{'C', 'D', 'E', 'F', 'G', 'A', 'B'};

} // namespace

int pitchClassOf(int midi) {
    return ((midi % 12) + 12) % 12;
}

int PitchName::pitchClass() const {
    return pitchClassOf(naturalPitchClass[static_cast<std::size_t>(step)] + alter);
}

std::string toString(const PitchName& name) {
    std::string text(1, letters[static_cast<std::size_t>(name.step)]);
    for (int flat = name.alter; flat < 0; ++flat)
        text += "♭";
    for (int sharp = 0; sharp < name.alter; ++sharp)
        text += "♯";
    return text;
}

double hertzOf(double midi) {
    return 440 * std::exp2((midi - 69) / 12);
}

PitchName plainName(int midi) {
    static constexpr std::array<PitchName, 12> names{{{Step::C, 0},
                                                      {Step::D, -1},
                                                      {Step::D, 0},
                                                      {Step::E, -1},
                                                      {Step::E, 0},
                                                      {Step::F, 0},
                                                      {Step::F, 1},
                                                      {Step::G, 0},
                                                      {Step::A, -1},
                                                      {Step::A, 0},
                                                      {Step::B, -1},
                                                      {Step::B, 0}}};
    return names[static_cast<std::size_t>(pitchClassOf(midi))];
}

std::string toString(const PitchName& name, int midi) {
    // The octave belongs to the letter, not to the sound: take the accidental off before counting.
    const int natural = midi - name.alter;
    const int octave = (natural - pitchClassOf(natural)) / 12 - 1;
    return toString(name) + std::to_string(octave);
}

std::string toString(const Pitch& pitch) {
    return toString(pitch.spelling.value_or(plainName(pitch.midi)), pitch.midi);
}

} // namespace earwright
