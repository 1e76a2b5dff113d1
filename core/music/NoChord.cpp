#include "core/music/NoChord.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace earwright {

bool isNoChord(const ChordSymbol& symbol) {
    static constexpr std::array<std::string_view, 5> words{"N.C.", "N.C", "NC", "n.c.", "n.c"};
    return std::find(words.begin(), words.end(), symbol.text) != words.end();
}

bool isRead(const ChordSymbol& symbol) {
    return symbol.chord.has_value() || isNoChord(symbol);
}

} // namespace earwright
