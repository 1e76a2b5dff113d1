// What stands over a whole line of music: chord symbols, endings, tempo, swing and words.
#pragma once

#include "core/engraving/LineMoments.h"
#include "core/engraving/Sketch.h"
#include "core/engraving/SystemColumns.h"
#include "core/engraving/SystemPlan.h"

#include <vector>

namespace earwright {

/// All symbols of a line stand on one base line. `places` are the columns' x. After everything at notes.
void layOutChords(const std::vector<ColumnChord>& chords, const std::vector<double>& places, Sketch& sketch);

/// Brackets over the bars of an ending, on one height, and how often a repeat is played where that is more
/// than twice. Over the chord symbols (common practice).
void layOutEndings(const SystemPlan& plan, const std::vector<PlacedBar>& bars, Sketch& sketch);

/// Swing, tempo and words, the later over the earlier where they begin in one place. After endings. `right`
/// is where they have to end.
void layOutWordsAbove(const SystemPlan& plan, const LineMoments& moments, double right, Sketch& sketch);

} // namespace earwright
