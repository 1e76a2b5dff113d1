// One bar as signs on a staff, before anything has a place: heads, accidentals, stem directions.
#pragma once

#include "core/engraving/PageBars.h"
#include "core/engraving/PageLine.h"
#include "core/engraving/PageView.h"
#include "core/engraving/RepeatSigns.h"
#include "core/study/Study.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace earwright {

/// A notehead and the accidental before it.
struct StaffHead {
    NoteId note;
    int midi = 60;
    /// Half spaces above the middle line.
    int position = 0;
    /// Semitones of the sign shown: −2 to 2, 0 for a natural. None where nothing has to be shown.
    std::optional<int> accidental;
    /// Its note's; a grace note has none.
    Phrasing phrasing;
    /// What it is on the chord under it, "♭9"; empty where there is none.
    std::string degree;
    /// The accidental is a reminder, in parentheses.
    bool isCautionary = false;
    /// Semitones up to the note it slides on to; none where it slides to none, or a rest comes between.
    std::optional<int> slidesBy = {};
};

/// A note, double stop or rest.
struct StaffPiece {
    PagePiece page;
    /// Rising; none for a rest.
    std::vector<StaffHead> heads;
    /// In the order they are played.
    std::vector<StaffHead> graces;
    /// As pageBeams() gives them.
    std::vector<std::string> beams;
    bool stemUp = true;
    /// What stands once for all heads, if any of them has it: slurs, articulations, ornaments, let ring. What
    /// stands at a head (slides, bends, falls, scoops) is that head's alone.
    Phrasing phrasing;
    /// The sign its trill needs for the upper note; semitones as above.
    std::optional<int> trillAccidental;
    /// The upper note of a trill wider than a second, which has to be shown.
    std::optional<StaffHead> trillHead;

    bool slidesToNext() const {
        return std::any_of(heads.begin(), heads.end(),
                           [](const StaffHead& head) { return head.phrasing.slidesToNext; });
    }
};

struct StaffBar {
    std::int64_t number = 1;
    Beats begin;
    Beats end;
    std::vector<StaffPiece> pieces;
    /// In order; places from the start of bar 1. As the player reads them.
    std::vector<std::pair<Beats, ChordSymbol>> chords;
    Meter meter;
    /// As the player reads it.
    KeySignature key;
    RepeatSigns repeat;
    /// Begins behind its bar line: a pickup.
    bool isPartial = false;
};

/// The bars of a study's line, in their keys and with the signs of BarAccidentals. Beamed notes share a stem
/// direction: away from the one that lies farthest from the middle line, or where two do from most of them;
/// on the middle line stems go down (Gould, "Behind Bars", from memory). Requires: `bars` are those of
/// `line`. Threads: any.
std::vector<StaffBar> staffBars(const Study& study, const std::vector<PageNotes>& line,
                                const std::vector<PageBar>& bars, Reading reading, Clef clef);

/// The clef in which most notes need the fewest ledger lines.
Clef easiestClef(const std::vector<PageNotes>& line, Reading reading);

/// First and one past the last index of the pieces that hang on one beam with piece `index`.
std::pair<std::size_t, std::size_t> beamGroup(const std::vector<StaffPiece>& pieces, std::size_t index);

} // namespace earwright
