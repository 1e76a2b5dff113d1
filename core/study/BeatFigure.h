// The ways to place so many onsets on the lines of one counted beat, and what each costs as notation.
#pragma once

#include "core/study/Study.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// Rising lines of one division for the onsets of a beat.
struct BeatFigure {
    BeatDivision division = BeatDivision::One;
    /// For each onset, the line it falls on: 0 on the beat, as many as parts on the next beat.
    std::vector<int> lines;
    /// The negative natural logarithm of how common it is, up to a constant.
    double cost = 0;

    bool beginsOnBeat() const { return !lines.empty() && lines.front() == 0; }
    bool reachesNextBeat() const { return !lines.empty() && lines.back() == static_cast<int>(division); }
};

/// What of a beat decides how common a figure is in it.
enum class BeatKind {
    /// One unit, eighths even.
    Plain,
    /// One unit, eighths swung.
    Swung,
    /// Three units are counted as one beat (6/8).
    OfThree
};

inline constexpr int mostBeatParts = 8;

/// All of them for so many onsets, simpler divisions first, 1 to 8 parts; none twice: what a simpler division
/// has is not there in a finer one. None for no onsets, or more than a beat in eight has lines. Threads: any.
const std::vector<BeatFigure>& beatFigures(std::size_t onsets, BeatKind kind);

} // namespace earwright
