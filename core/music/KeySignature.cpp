#include "core/music/KeySignature.h"

#include <algorithm>
#include <array>

namespace earwright {

namespace {

/// The order in which sharps are added; flats come in the opposite one (common practice).
constexpr std::array sharpOrder{Step::F, Step::C, Step::G, Step::D, Step::A, Step::E, Step::B};

} // namespace

int KeySignature::alterOf(Step step) const {
    const auto place =
        static_cast<int>(std::find(sharpOrder.begin(), sharpOrder.end(), step) - sharpOrder.begin());
    if (fifths > 0) return place < fifths ? 1 : 0;
    return 6 - place < -fifths ? -1 : 0;
}

PitchName KeySignature::tonic() const {
    // A fifth is four letters up; the relative minor lies two letters below its major.
    const int letters = 4 * fifths - (mode == Mode::Minor ? 2 : 0);
    const auto step = static_cast<Step>(((letters % 7) + 7) % 7);
    return {step, alterOf(step)};
}

bool KeySignature::contains(int midi) const {
    for (int letter = 0; letter < 7; ++letter) {
        const auto step = static_cast<Step>(letter);
        if (PitchName{step, alterOf(step)}.pitchClass() == pitchClassOf(midi)) return true;
    }
    return false;
}

int KeySignature::upperNeighbour(int midi) const {
    int other = midi + 1;
    while (!contains(other))
        ++other;
    return other;
}

int KeySignature::lowerNeighbour(int midi) const {
    int other = midi - 1;
    while (!contains(other))
        --other;
    return other;
}

} // namespace earwright
