#include "core/midi/KeyStroke.h"

namespace earwright {

namespace {

constexpr std::uint8_t noteOff = 0x80;
constexpr std::uint8_t noteOn = 0x90;
constexpr std::uint8_t controlChange = 0xb0;
constexpr std::uint8_t systemReset = 0xff;
constexpr int allSoundOff = 120;
/// 123 is all notes off; omni off and on, mono and poly, 124 to 127, do the same besides.
constexpr int allNotesOff = 123;

bool isData(std::uint8_t byte) {
    return byte < 0x80;
}

} // namespace

std::optional<KeyStroke> keyStrokeOf(std::span<const std::uint8_t> message,
                                     std::chrono::steady_clock::time_point at) {
    using Kind = KeyStroke::Kind;
    if (message.size() == 1 && message[0] == systemReset) return KeyStroke{Kind::AllUp, 0, 0, at};
    if (message.size() != 3 || !isData(message[1]) || !isData(message[2])) return std::nullopt;
    const int first = message[1];
    const int second = message[2];
    switch (message[0] & 0xf0) {
    case noteOn:
        return KeyStroke{second > 0 ? Kind::Down : Kind::Up, first, second, at};
    case noteOff:
        return KeyStroke{Kind::Up, first, second, at};
    case controlChange:
        if (first == allSoundOff || first >= allNotesOff) return KeyStroke{Kind::AllUp, 0, 0, at};
        return std::nullopt;
    default:
        return std::nullopt;
    }
}

} // namespace earwright
