#include "core/exchange/HarmonyReading.h"

#include "core/exchange/MusicXmlHarmony.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

namespace earwright {

namespace {

struct KindWord {
    std::string_view kind;
    const char* suffix;
};

/// The kind-values of MusicXML 4.0 that a symbol can say.
constexpr std::array<KindWord, 25> kinds{{{"major", ""},
                                          {"minor", "m"},
                                          {"augmented", "+"},
                                          {"diminished", "dim"},
                                          {"dominant", "7"},
                                          {"major-seventh", "maj7"},
                                          {"minor-seventh", "m7"},
                                          {"diminished-seventh", "dim7"},
                                          {"augmented-seventh", "+7"},
                                          {"half-diminished", "m7b5"},
                                          {"major-minor", "m(maj7)"},
                                          {"major-sixth", "6"},
                                          {"minor-sixth", "m6"},
                                          {"dominant-ninth", "9"},
                                          {"major-ninth", "maj9"},
                                          {"minor-ninth", "m9"},
                                          {"dominant-11th", "11"},
                                          {"major-11th", "maj11"},
                                          {"minor-11th", "m11"},
                                          {"dominant-13th", "13"},
                                          {"major-13th", "maj13"},
                                          {"minor-13th", "m13"},
                                          {"suspended-second", "sus2"},
                                          {"suspended-fourth", "sus4"},
                                          {"power", "5"}}};

std::string signs(int alter) {
    return std::string(static_cast<std::size_t>(alter < 0 ? -alter : alter), alter < 0 ? 'b' : '#');
}

std::optional<PitchName> nameIn(pugi::xml_node node, const std::string& part, const Transposition& by) {
    static constexpr std::string_view letters = "CDEFGAB";
    const std::string_view step = node.child_value((part + "-step").c_str());
    const int alter = node.child((part + "-alter").c_str()).text().as_int();
    if (step.size() != 1 || letters.find(step) == std::string_view::npos || alter < -2 || alter > 2)
        return std::nullopt;
    const PitchName read{static_cast<Step>(letters.find(step)), alter};
    const PitchName sounding = by.sounding(read).value_or(plainName(read.pitchClass() + by.semitones));
    if (!by.isOctaves() && (sounding.alter < -1 || sounding.alter > 1))
        return plainName(sounding.pitchClass());
    return sounding;
}

std::string typed(const PitchName& name) {
    return toString(PitchName{name.step, 0}) + signs(name.alter);
}

std::string degreesOf(pugi::xml_node harmony) {
    std::string text;
    for (const pugi::xml_node degree : harmony.children("degree")) {
        const std::string value = degree.child_value("degree-value");
        const int alter = degree.child("degree-alter").text().as_int();
        const bool isLacking = std::string_view(degree.child_value("degree-type")) == "subtract";
        if (isLacking || value.size() > 2 || alter < -2 || alter > 2) continue;
        if (alter != 0)
            text += "(" + signs(alter) + value + ")";
        else if (std::string_view(degree.child_value("degree-type")) == "add")
            text += "(add" + value + ")";
    }
    return text;
}

} // namespace

std::optional<ChordSymbol> harmonySymbol(pugi::xml_node harmony, const Transposition& transposition) {
    const std::string_view kind = harmony.child_value("kind");
    if (kind == "none") return parseChordSymbol("N.C.");
    const auto root = nameIn(harmony.child("root"), "root", transposition);
    if (!root) return std::nullopt;
    for (const KindWord& word : kinds) {
        if (word.kind != kind) continue;
        const auto bass = nameIn(harmony.child("bass"), "bass", transposition);
        ChordSymbol symbol = parseChordSymbol(typed(*root) + word.suffix + degreesOf(harmony) +
                                              (bass ? "/" + typed(*bass) : ""));
        if (symbol.chord) return symbol;
    }
    const bool isKnown =
        std::any_of(kinds.begin(), kinds.end(), [&](const KindWord& word) { return word.kind == kind; });
    const std::string text = harmony.child("kind").attribute("text").value();
    return namedSymbol({*root, isKnown ? "other" : std::string(kind), text});
}

} // namespace earwright
