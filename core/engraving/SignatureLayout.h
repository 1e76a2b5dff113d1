// Key and time signatures.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/PageView.h"
#include "core/music/KeySignature.h"
#include "core/music/Meter.h"

#include <optional>

namespace earwright {

/// Glyphs from x = 0 to `width`.
struct SignatureShapes {
    PlacedShapes shapes;
    double width = 0;
};

/// Accidentals in the order and places of common practice; naturals cancel `before` only where the new key
/// has no accidentals of its own (Gould, "Behind Bars", from memory).
SignatureShapes keyShapes(const KeySignature& key, const KeySignature& before, Clef clef,
                          const FontMetrics& font);
/// About the middle of the staff, or of another one whose digits are `scale` as large.
SignatureShapes meterShapes(const Meter& meter, double scale, const FontMetrics& font);

/// Where in the staff the n-th sharp (or flat) stands, in half spaces above the middle line, in the treble
/// clef. 0 ≤ n < 7.
int keyPosition(int n, bool isSharp);

} // namespace earwright
