// How much room the numbers of tablature need, with what stands beside them.
#pragma once

#include "core/engraving/FontMetrics.h"
#include "core/engraving/LaidPiece.h"
#include "core/engraving/TabPlace.h"

#include <map>
#include <string>
#include <vector>

namespace earwright {

inline constexpr double fretSize = 1.9;
inline constexpr double graceFretSize = 1.4;
inline constexpr double tabSlideLength = 1.3;
/// Between a number and what stands beside it: the cut ends of the line, a slide, a grace note.
inline constexpr double besideNumber = 0.2;

/// "(7)", the fret a trill goes to; empty where there is none.
std::string trillFretText(const StaffHead& head, const std::map<NoteId, TabPlace>& places);
/// Frets of the grace notes before a head, on its own string; those below the nut are left out.
std::vector<int> graceFrets(const LaidPiece& laid, const StaffHead& head,
                            const std::map<NoteId, TabPlace>& places);
double graceWidth(const std::vector<int>& frets);

/// Staff spaces to the left and to the right.
struct FretReach {
    double left = 0;
    double right = 0;
};

/// How far a number reaches from its middle, with what stands beside it on its string.
FretReach reachOnString(const LaidPiece& laid, const StaffHead& head,
                        const std::map<NoteId, TabPlace>& places);
/// The same of all numbers of a piece. Scoops and falls, which are higher than the room between two strings,
/// stand outside of it.
FretReach reachOfNumbers(const LaidPiece& laid, const std::map<NoteId, TabPlace>& places);
/// Room for scoops before the numbers of a piece; 0 where there are none.
double scoopRoom(const LaidPiece& laid, const FontMetrics& font);
/// The room of a piece's numbers with all that stands beside them, from the left edge of its heads.
FretReach fretReach(const LaidPiece& laid, const std::map<NoteId, TabPlace>& places, const FontMetrics& font);

} // namespace earwright
