#include "core/exchange/MidiText.h"

#include "core/exchange/Encoding.h"

namespace earwright {

std::string midiText(std::string_view bytes) {
    auto text = inUtf8(bytes, "UTF-8");
    if (!text) text = inUtf8(bytes, "ISO-8859-1");
    std::string words = text.value_or("");
    std::erase(words, '\0');
    return words;
}

} // namespace earwright
