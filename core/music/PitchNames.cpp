#include "core/music/PitchNames.h"

#include <cstdlib>

namespace earwright {

std::vector<PitchName> namesOf(int midi) {
    std::vector<PitchName> names;
    for (const int alter : {0, 1, -1, 2, -2})
        for (int letter = 0; letter < 7; ++letter)
            if (const PitchName name{static_cast<Step>(letter), alter};
                name.pitchClass() == pitchClassOf(midi))
                names.push_back(name);
    return names;
}

bool isWhiteWithAccidental(const PitchName& name) {
    return name.alter != 0 && plainName(name.pitchClass()).alter == 0;
}

PitchName withoutDoubles(const PitchName& name) {
    if (std::abs(name.alter) < 2) return name;
    const int wanted = isWhiteWithAccidental(name) ? 0 : name.alter / 2;
    for (const PitchName& other : namesOf(name.pitchClass()))
        if (other.alter == wanted) return other;
    return name;
}

} // namespace earwright
