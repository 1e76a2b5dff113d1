#include "core/engraving/SignedText.h"

#include "core/engraving/TextWidth.h"

#include <array>
#include <optional>
#include <string>
#include <utility>

namespace earwright {

namespace {

constexpr double emOfFont = 4;
/// Between a word and a sign.
constexpr double gap = 0.18;
/// Two signs in a row, as in C♯°7: a circle close to a sharp reads as one blot.
constexpr double betweenSigns = 0.5;
/// Circles stand high beside the letter; in ems.
constexpr double raise = 0.3;

constexpr std::array<std::pair<std::string_view, Smufl>, 8> signs{{
    {"♭♭", Smufl::CsymAccidentalDoubleFlat},
    {"♭", Smufl::CsymAccidentalFlat},
    {"♯♯", Smufl::CsymAccidentalDoubleSharp},
    {"♯", Smufl::CsymAccidentalSharp},
    {"♮", Smufl::CsymAccidentalNatural},
    {"°", Smufl::CsymDiminished},
    {"ø", Smufl::CsymHalfDiminished},
    {"Δ", Smufl::CsymMajorSeventh},
}};

bool isRaised(Smufl sign) {
    return sign == Smufl::CsymDiminished || sign == Smufl::CsymHalfDiminished;
}

std::optional<std::pair<std::string_view, Smufl>> signAt(std::string_view text) {
    for (const auto& sign : signs)
        if (text.starts_with(sign.first)) return sign;
    return {};
}

} // namespace

SignedText signedText(std::string_view text, double size, TextRole role, const FontMetrics& font) {
    SignedText made;
    std::string word;
    bool isBehindSign = false;
    const auto endWord = [&] {
        if (word.empty()) return;
        made.shapes.texts.push_back({word, {made.width, 0}, size, role, TextAnchor::Left, {}});
        made.width += textWidth(word) * size + gap * size / emOfFont;
        word.clear();
    };
    while (!text.empty()) {
        if (const auto sign = signAt(text)) {
            endWord();
            const double scale = size / emOfFont;
            if (isBehindSign) made.width += (betweenSigns - gap) * scale;
            const double y = isRaised(sign->second) ? -raise * size : 0;
            made.shapes.glyphs.push_back({sign->second, {made.width, y}, scale, {}});
            made.width += (font.box(sign->second).right + gap) * scale;
            text.remove_prefix(sign->first.size());
            isBehindSign = true;
        } else {
            isBehindSign = false;
            word += text.front();
            text.remove_prefix(1);
        }
    }
    endWord();
    return made;
}

} // namespace earwright
