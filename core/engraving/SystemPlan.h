// What stands on one line of music, and how it is to look.
#pragma once

#include "core/engraving/PageView.h"
#include "core/engraving/StaffBar.h"
#include "core/engraving/TabPlace.h"
#include "core/music/Meter.h"
#include "core/music/PageMarks.h"

#include <map>
#include <optional>
#include <vector>

namespace earwright {

/// Staff spaces and switches that hold for every line of a page.
struct SystemStyle {
    Clef clef = Clef::Treble;
    bool chordSymbols = true;
    bool degrees = false;
    bool barNumbers = true;
};

struct SystemPlan {
    /// At least one.
    std::vector<StaffBar> bars;
    SystemStyle style;
    /// Of the bar before; no meter before the first bar of all, which then shows its own.
    std::optional<Meter> meterBefore;
    KeySignature keyBefore;
    /// The unit that places are counted in.
    int beatUnit = 4;
    /// By event of the line: it is slurred from the one before.
    std::vector<bool> slurred;
    /// Strings of the tablature under the staff; 0 for none.
    int strings = 0;
    std::map<NoteId, TabPlace> places;
    /// What is said over this line, in order: each stands in one of its bars.
    std::vector<SwingChange> swings;
    std::vector<TempoMark> tempos;
    /// Closes with a final bar line.
    bool isLast = false;
    double width = 100;
    /// Staff spaces a quarter gets where the line is not to reach the full width.
    std::optional<double> quarterSpaces;
};

} // namespace earwright
