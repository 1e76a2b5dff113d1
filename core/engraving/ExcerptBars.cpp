#include "core/engraving/ExcerptBars.h"

#include "core/engraving/PageLine.h"
#include "core/engraving/SlurString.h"

#include <algorithm>

namespace earwright {

namespace {

bool isEmpty(const PageBar& bar) {
    return std::none_of(bar.pieces.begin(), bar.pieces.end(),
                        [](const PagePiece& piece) { return piece.event.has_value(); });
}

/// Empty bars at either end belong to the stretch that was marked, not to its music.
void dropEmptyEnds(std::vector<PageBar>& bars) {
    if (std::all_of(bars.begin(), bars.end(), isEmpty)) return;
    bars.erase(bars.begin(), std::find_if_not(bars.begin(), bars.end(), isEmpty));
    while (isEmpty(bars.back()))
        bars.pop_back();
}

/// Music that begins late in its bar begins as a pickup does. Rests that end within a beat stay.
void trimLeadingRests(PageBar& bar) {
    const std::int64_t pulse = pulseBeats(bar.meter);
    auto first = bar.pieces.begin();
    for (auto piece = bar.pieces.begin(); piece != bar.pieces.end() && !piece->event; ++piece) {
        const bool endsOnPulse = (bar.ownBeats(piece->end) / pulse).denominator() == 1;
        const bool isHalf = (piece->end - bar.begin) * 2 >= bar.end - bar.begin;
        if (endsOnPulse && isHalf) first = std::next(piece);
    }
    if (first == bar.pieces.begin() || first == bar.pieces.end()) return;
    bar.begin = first->begin;
    bar.pieces.erase(bar.pieces.begin(), first);
}

} // namespace

Result<ExcerptBars> excerptBars(const Study& study, const PageExcerpt& excerpt,
                                const EngravingOptions& options) {
    Study shown = study;
    if (excerpt.only)
        std::erase_if(shown.notes, [&](const Note& note) { return !excerpt.only->contains(note.onset); });
    const std::vector<PageNotes> line = pageLine(shown);
    auto bars = pageBars(line, study.meters(), excerpt.lastBar, study.page.pickup);
    if (!bars) return bars.error();
    std::erase_if(*bars, [&](const PageBar& bar) {
        return bar.number < excerpt.firstBar || bar.number > excerpt.lastBar;
    });
    if (excerpt.only && !bars->empty()) {
        dropEmptyEnds(*bars);
        // A pickup is as long as the user made it.
        if (bars->front().number > 0 || !study.page.pickup) trimLeadingRests(bars->front());
    }
    ExcerptBars made;
    made.clef = options.clef.value_or(easiestClef(line, options.reading));
    // That clef says by itself that a guitar sounds an octave lower than it reads.
    const bool isSaidByClef =
        made.clef == Clef::TrebleOctaveLower && options.reading == Reading::GuitarOctave;
    made.bars = staffBars(study, line, *bars, isSaidByClef ? Reading::Concert : options.reading, made.clef);
    for (std::size_t i = 0; i < line.size(); ++i) {
        made.slurred.push_back(i > 0 && isUnderSlur(line[i]));
        made.slurredOnString.push_back(i > 0 && isSlurredOnString(line[i - 1], line[i], options.places));
    }
    return made;
}

} // namespace earwright
