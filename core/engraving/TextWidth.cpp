#include "core/engraving/TextWidth.h"

#include <array>
#include <cstddef>

namespace earwright {

namespace {

/// Thousandths of the em from space to tilde.
constexpr std::array<int, 95> widths{
    278,  278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, // space to /
    556,  556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, // 0 to ?
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, // @ to O
    667,  778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, // P to _
    333,  556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, // ` to o
    556,  556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584};     // p to ~
constexpr int others = 722;

bool continuesACharacter(unsigned char c) {
    return (c & 0xC0U) == 0x80U;
}

} // namespace

double textWidth(std::string_view text) {
    int thousandths = 0;
    for (const char letter : text) {
        const auto c = static_cast<unsigned char>(letter);
        if (c >= 32 && c < 127)
            thousandths += widths[static_cast<std::size_t>(c - 32)];
        else if (!continuesACharacter(c))
            thousandths += others;
    }
    return thousandths / 1000.0;
}

} // namespace earwright
