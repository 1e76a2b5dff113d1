// Words with the signs of music in them: "B♭m7♭5", "♯11".
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"

#include <string_view>

namespace earwright {

/// A row of words and glyphs on a base line at the origin, from x = 0 to `width`.
struct SignedText {
    PlacedShapes shapes;
    double width = 0;
};

/// ♭, ♯, ♮ and the signs for diminished (°), half-diminished (ø) and major seventh (Δ) chords become glyphs
/// of the music font, which fit a text whose em is four spaces and are scaled to `size`. Threads: any.
SignedText signedText(std::string_view text, double size, TextRole role, const FontMetrics& font);

} // namespace earwright
