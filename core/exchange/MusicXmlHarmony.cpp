#include "core/exchange/MusicXmlHarmony.h"

#include "core/exchange/HarmonyKind.h"
#include "core/exchange/MusicXmlNote.h"
#include "core/music/NoChord.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

namespace earwright {

namespace {

/// Of kind-value in MusicXML 4.0; sixth chords of classical harmony, and those without tones of their own.
constexpr std::array<std::string_view, 7> namedKinds{"Neapolitan", "Italian", "French", "German",
                                                     "pedal",      "Tristan", "other"};
constexpr std::string_view otherKind = "other";

void addName(pugi::xml_node harmony, const PitchName& name, const std::string& part) {
    pugi::xml_node root = harmony.append_child(part.c_str());
    addText(root, (part + "-step").c_str(), toString(PitchName{name.step, 0}));
    if (name.alter != 0) addText(root, (part + "-alter").c_str(), std::to_string(name.alter));
}

/// What is printed behind the root: "m7♭5" of "Fm7♭5/C♭".
std::string kindText(const ChordSymbol& symbol) {
    std::string text = toString(symbol).substr(toString(symbol.chord->root).size());
    if (symbol.chord->bass) text = text.substr(0, text.rfind('/'));
    return text;
}

void addChord(pugi::xml_node harmony, const ChordSymbol& symbol) {
    const HarmonyKind kind = harmonyKind(*symbol.chord);
    addName(harmony, symbol.chord->root, "root");
    addText(harmony, "kind", kind.kind).append_attribute("text") = kindText(symbol).c_str();
    if (symbol.chord->bass) addName(harmony, *symbol.chord->bass, "bass");
    for (const HarmonyDegree& change : kind.degrees) {
        pugi::xml_node degree = harmony.append_child("degree");
        // The kind's text has the degree already.
        degree.append_attribute("print-object") = "no";
        addText(degree, "degree-value", std::to_string(change.value));
        addText(degree, "degree-alter", std::to_string(change.alter));
        addText(degree, "degree-type", change.type);
    }
}

void addNoChord(pugi::xml_node harmony) {
    addText(harmony.append_child("root"), "root-step", "C").append_attribute("text") = "";
    addText(harmony, "kind", "none").append_attribute("text") = "N.C.";
}

void addNamed(pugi::xml_node harmony, const NamedHarmony& named) {
    addName(harmony, named.root, "root");
    pugi::xml_node kind = addText(harmony, "kind", named.kind);
    if (!named.text.empty()) kind.append_attribute("text") = named.text.c_str();
}

/// The letter and accidentals a text begins with; they are taken off it.
std::optional<PitchName> takeRoot(std::string_view& text) {
    static constexpr std::string_view letters = "CDEFGAB";
    const std::size_t step = text.empty() ? std::string_view::npos : letters.find(text.front());
    if (step == std::string_view::npos) return std::nullopt;
    text.remove_prefix(1);
    PitchName name{static_cast<Step>(step), 0};
    for (;;) {
        for (const auto& [sign, alter] :
             {std::pair<std::string_view, int>{"♭", -1}, {"b", -1}, {"♯", 1}, {"#", 1}, {"", 0}}) {
            if (!text.starts_with(sign)) continue;
            if (sign.empty()) return name;
            text.remove_prefix(sign.size());
            name.alter += alter;
            break;
        }
        if (std::abs(name.alter) > 2) return std::nullopt;
    }
}

/// "7(omit3)": printed right behind the root. A symbol of a study has no blanks and no strokes.
bool isSuffix(std::string_view text) {
    const auto isDigit = [](unsigned char c) { return std::isdigit(c) != 0; };
    return std::any_of(text.begin(), text.end(), isDigit) && text.find('/') == std::string_view::npos;
}

std::string withoutBlanks(std::string text) {
    std::erase_if(text, [](unsigned char c) { return c <= ' ' || c == '|'; });
    return text;
}

} // namespace

std::optional<NamedHarmony> namedHarmony(const ChordSymbol& symbol) {
    if (isRead(symbol)) return std::nullopt;
    std::string_view text = symbol.text;
    const auto root = takeRoot(text);
    if (!root) return std::nullopt;
    if (isSuffix(text) && !text.starts_with("(other:"))
        return NamedHarmony{*root, std::string(otherKind), std::string(text)};
    if (!text.starts_with('(') || !text.ends_with(')')) return std::nullopt;
    text = text.substr(1, text.size() - 2);
    const std::string_view kind = text.substr(0, text.find(':'));
    if (std::find(namedKinds.begin(), namedKinds.end(), kind) == namedKinds.end()) return std::nullopt;
    if (kind != otherKind)
        return text == kind ? std::optional(NamedHarmony{*root, std::string(kind), ""}) : std::nullopt;
    text.remove_prefix(std::min(text.size(), kind.size() + 1));
    return NamedHarmony{*root, std::string(kind), std::string(text)};
}

std::optional<ChordSymbol> namedSymbol(const NamedHarmony& harmony) {
    if (std::find(namedKinds.begin(), namedKinds.end(), harmony.kind) == namedKinds.end())
        return std::nullopt;
    const std::string said = withoutBlanks(harmony.text);
    std::string text = toString(harmony.root);
    if (harmony.kind != otherKind)
        text += "(" + harmony.kind + ")";
    else if (isSuffix(said))
        text += said;
    else
        text += "(other" + (said.empty() ? "" : ":" + said) + ")";
    const ChordSymbol symbol = parseChordSymbol(text);
    return isRead(symbol) ? std::nullopt : std::optional(symbol);
}

void addSymbol(pugi::xml_node measure, const ChordSymbol& symbol, std::int64_t offset, std::size_t index) {
    const auto named = namedHarmony(symbol);
    const bool isHarmony = isRead(symbol) || named;
    pugi::xml_node element = measure.append_child(isHarmony ? "harmony" : "direction");
    if (symbol.chord)
        addChord(element, symbol);
    else if (named)
        addNamed(element, *named);
    else if (isHarmony)
        addNoChord(element);
    else {
        element.append_attribute("placement") = "above";
        addText(element.append_child("direction-type"), "words", symbol.text).append_attribute("id") =
            (symbolIdPrefix + std::to_string(index)).c_str();
    }
    if (offset > 0) addText(element, "offset", std::to_string(offset));
}

} // namespace earwright
