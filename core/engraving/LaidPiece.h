// A note, double stop or rest that has found its place on the line.
#pragma once

#include "core/engraving/PieceShape.h"
#include "core/engraving/StaffBar.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// `x` is the middle of the stroke.
struct LaidStem {
    double x = 0;
    double headY = 0;
    double endY = 0;
};

struct LaidPiece {
    StaffPiece piece;
    PieceShape shape;
    /// Of the heads' left edge.
    double x = 0;
    /// Which bar of the system.
    std::size_t bar = 0;
    /// None for rests and whole notes.
    std::optional<LaidStem> stem;

    bool isRest() const { return piece.heads.empty(); }
    bool hasStem() const { return !isRest() && piece.page.value.denominator >= 2; }
    double middle() const { return x + shape.headWidth / 2; }
    double highestY() const { return yOfPosition(piece.heads.back().position); }
    double lowestY() const { return yOfPosition(piece.heads.front().position); }
    NoteId note() const { return piece.heads.front().note; }
};

using LaidLine = std::vector<LaidPiece>;

} // namespace earwright
