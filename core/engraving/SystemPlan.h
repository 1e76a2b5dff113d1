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

/// What a line of music ends with.
enum class LineEnd {
    Open, ///< a plain bar line: the music goes on, on the next line or behind an excerpt (common practice)
    Final ///< the end of the piece
};

/// A hairpin as far as it is on this line.
struct LineHairpin {
    Range<Beats> range;
    HairpinKind kind = HairpinKind::Louder;
    /// It came from the line before; it goes on in the next.
    bool fromBefore = false;
    bool goesOn = false;
};

/// Staff spaces and switches that hold for every line of a page.
struct SystemStyle {
    Clef clef = Clef::Treble;
    bool chordSymbols = true;
    bool degrees = false;
    bool barNumbers = true;
    bool slashes = false;
    /// Else a row of rhythm over the tablature.
    bool staff = true;
};

struct SystemPlan {
    /// At least one.
    std::vector<StaffBar> bars;
    SystemStyle style;
    /// Of the bar before; no meter before the first bar of all, which then shows its own.
    std::optional<Meter> meterBefore;
    KeySignature keyBefore;
    /// Of the bar behind the line, which is announced where it changes; none behind the last line.
    std::optional<Meter> meterAfter;
    std::optional<KeySignature> keyAfter;
    /// The unit that places are counted in.
    int beatUnit = 4;
    /// By event of the line: it stands under one slur with the one before.
    std::vector<bool> slurred;
    /// The same of slurs that stay on a string.
    std::vector<bool> slurredOnString;
    /// Strings of the tablature under the staff; 0 for none.
    int strings = 0;
    std::map<NoteId, TabPlace> places;
    /// What is said over this line, in order: each stands in one of its bars.
    std::vector<SwingChange> swings;
    std::vector<TempoMark> tempos;
    std::vector<DynamicMark> dynamics;
    std::vector<LineHairpin> hairpins;
    std::vector<TextMark> texts;
    LineEnd end = LineEnd::Open;
    double width = 100;
    /// Staff spaces a quarter gets where the line is not to reach the full width.
    std::optional<double> quarterSpaces;
};

} // namespace earwright
