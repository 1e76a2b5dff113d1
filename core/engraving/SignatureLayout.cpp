#include "core/engraving/SignatureLayout.h"

#include "core/engraving/PieceShape.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>

namespace earwright {

namespace {

/// F C G D A E B, and from the other end.
constexpr std::array sharpPlaces{4, 1, 5, 2, -1, 3, 0};
constexpr std::array flatPlaces{0, 3, -1, 2, -2, 1, -3};
constexpr double gap = 0.12;

double digitsWidth(const std::string& digits, const FontMetrics& font) {
    double width = 0;
    for (const char digit : digits)
        width += font.box(digitOf(Smufl::TimeSig0, digit - '0')).right;
    return width;
}

void addDigits(const std::string& digits, const PagePoint& middle, double scale, const FontMetrics& font,
               PlacedShapes& shapes) {
    double x = middle.x - digitsWidth(digits, font) * scale / 2;
    for (const char letter : digits) {
        const Smufl digit = digitOf(Smufl::TimeSig0, letter - '0');
        shapes.glyphs.push_back({digit, {x, middle.y}, scale, {}});
        x += font.box(digit).right * scale;
    }
}

} // namespace

int keyPosition(int n, bool isSharp) {
    return (isSharp ? sharpPlaces : flatPlaces)[static_cast<std::size_t>(n)];
}

SignatureShapes keyShapes(const KeySignature& key, const KeySignature& before, Clef clef,
                          const FontMetrics& font) {
    const bool cancels = key.fifths == 0;
    const int fifths = cancels ? before.fifths : key.fifths;
    const int alter = cancels ? 0 : fifths > 0 ? 1 : -1;
    SignatureShapes made;
    for (int n = 0; n < std::min(7, std::abs(fifths)); ++n) {
        const int position = keyPosition(n, fifths > 0) - (clef == Clef::Bass ? 2 : 0);
        const Smufl glyph = accidentalGlyph(alter);
        made.shapes.glyphs.push_back({glyph, {made.width, yOfPosition(position)}, 1, {}});
        made.width += font.box(glyph).right + gap;
    }
    return made;
}

SignatureShapes meterShapes(const Meter& meter, double scale, const FontMetrics& font) {
    constexpr double middleLine = 2;
    const std::string upper = std::to_string(meter.beatsPerBar);
    const std::string lower = std::to_string(meter.beatUnit);
    SignatureShapes made;
    made.width = std::max(digitsWidth(upper, font), digitsWidth(lower, font)) * scale;
    addDigits(upper, {made.width / 2, middleLine - scale}, scale, font, made.shapes);
    addDigits(lower, {made.width / 2, middleLine + scale}, scale, font, made.shapes);
    return made;
}

} // namespace earwright
