#include "core/exchange/MidiText.h"

#include <algorithm>

namespace earwright {

namespace {

/// How many bytes follow the first one of a character; -1 where none begins so.
int bytesBehind(unsigned char first) {
    if (first < 0x80) return 0;
    if (first >= 0xC2 && first <= 0xDF) return 1;
    if (first >= 0xE0 && first <= 0xEF) return 2;
    return first >= 0xF0 && first <= 0xF4 ? 3 : -1;
}

/// The second byte tells what is longer than need be, a surrogate or beyond the last character.
bool isSecond(unsigned char first, unsigned char second) {
    const unsigned char lowest = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    const unsigned char highest = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    return second >= lowest && second <= highest;
}

bool isUtf8(std::string_view bytes) {
    while (!bytes.empty()) {
        const auto first = static_cast<unsigned char>(bytes.front());
        const int behind = bytesBehind(first);
        if (behind < 0 || bytes.size() <= static_cast<std::size_t>(behind)) return false;
        for (int i = 1; i <= behind; ++i) {
            const auto byte = static_cast<unsigned char>(bytes[static_cast<std::size_t>(i)]);
            if (i == 1 ? !isSecond(first, byte) : (byte & 0xC0) != 0x80) return false;
        }
        bytes.remove_prefix(static_cast<std::size_t>(behind) + 1);
    }
    return true;
}

std::string fromLatin1(std::string_view bytes) {
    std::string text;
    for (const char c : bytes) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x80) {
            text += c;
            continue;
        }
        text += static_cast<char>(0xC0 | byte >> 6);
        text += static_cast<char>(0x80 | (byte & 0x3F));
    }
    return text;
}

} // namespace

std::string midiText(std::string_view bytes) {
    std::string text = isUtf8(bytes) ? std::string(bytes) : fromLatin1(bytes);
    std::erase(text, '\0');
    return text;
}

} // namespace earwright
