#include "core/engraving/TuningWords.h"

#include <string_view>

namespace earwright {

namespace {

/// With the signs of music in place of the ones on keyboards.
std::string withSigns(std::string_view plain) {
    std::string text;
    for (const char letter : plain) {
        if (letter == 'b')
            text += "♭";
        else if (letter == '#')
            text += "♯";
        else
            text += letter;
    }
    return text;
}

} // namespace

std::string tuningWords(const StringTuning& tuning) {
    std::string words;
    if (tuning.strings != StringTuning{}.strings)
        words = "Strings " + withSigns(writtenStrings(tuning.strings));
    if (tuning.capo == 0) return words;
    if (!words.empty()) words += " · ";
    return words + "Capo at fret " + std::to_string(tuning.capo);
}

} // namespace earwright
