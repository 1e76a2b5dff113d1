#include "core/music/PitchNames.h"

#include <array>
#include <cstdlib>
#include <utility>

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

std::optional<PitchName> nameOn(int letter, int midi) {
    const auto step = static_cast<Step>((letter + 70) % 7);
    int alter = pitchClassOf(midi - PitchName{step, 0}.pitchClass());
    if (alter > 6) alter -= 12;
    if (std::abs(alter) > 2) return std::nullopt;
    return PitchName{step, alter};
}

std::optional<PitchName> takeName(std::string_view& text, int mostSigns) {
    constexpr std::string_view letters = "CDEFGABcdefgab";
    const std::size_t step = text.empty() ? std::string_view::npos : letters.find(text.front());
    if (step == std::string_view::npos) return std::nullopt;
    text.remove_prefix(1);
    PitchName name{static_cast<Step>(step % 7), 0};
    constexpr std::array<std::pair<std::string_view, int>, 4> signs{
        {{"#", 1}, {"♯", 1}, {"b", -1}, {"♭", -1}}};
    const auto takeSign = [&] {
        for (const auto& [sign, by] : signs) {
            if (!text.starts_with(sign)) continue;
            text.remove_prefix(sign.size());
            name.alter += by;
            return true;
        }
        return false;
    };
    while (mostSigns > 0 && takeSign())
        --mostSigns;
    return name;
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
