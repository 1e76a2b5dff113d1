// What a page shows of a study, and how.
#pragma once

#include "core/engraving/PageView.h"
#include "core/engraving/TabPlace.h"
#include "core/music/Note.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// A stretch of the study on the page, with what is printed over it.
struct PageExcerpt {
    /// First and last bar; bars 0 and before are the pickup.
    std::int64_t firstBar = 1;
    std::int64_t lastBar = 1;
    /// Only notes that begin in here are shown; all where it is not set. For phrases that begin or end within
    /// a bar.
    std::optional<Range<Beats>> only;
    /// "Phrase 2"; may be empty.
    std::string heading;
    /// A line of text under the heading; may be empty.
    std::string words;
    /// Said over its first bar where no tempo mark stands there: beats a minute.
    std::optional<double> beatsPerMinute;
};

/// Lengths are in staff spaces.
struct EngravingOptions {
    /// A4 is 210 mm wide and 297 high: 120 by 169.7 where the staff is 7 mm high (common practice for parts).
    double pageWidth = 120;
    /// None: one page, as high as it comes out.
    std::optional<double> pageHeight;
    double margin = 8;
    /// From the lowest of one line of music to the highest of the next.
    double systemGap = 4;
    /// At most; none: as many as fit on each line.
    std::optional<int> barsPerLine = 4;
    /// Empty: the whole study.
    std::vector<PageExcerpt> excerpts;
    Reading reading = Reading::Concert;
    /// None: treble or bass, by where the line lies.
    std::optional<Clef> clef;
    /// Else rhythm stands over the tablature, without lines, clef and key.
    bool staff = true;
    /// Strings of the tablature under the staff, 1 to 8; 0 for none.
    int strings = 0;
    /// Where notes are played; one without a place has no number in the tablature.
    std::map<NoteId, TabPlace> places;
    bool title = true;
    bool chordSymbols = true;
    bool degrees = false;
    bool barNumbers = true;
    bool tempos = true;
    /// A slash for every beat in bars that have a chord and no note; else the rest of a whole bar.
    bool slashes = false;
};

} // namespace earwright
