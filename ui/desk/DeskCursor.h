// Which phrase is meant: the one where the ear is, or the one in the grid while the keyboard is there.
#pragma once

#include "core/study/Study.h"

#include <optional>

namespace earwright::ui {

/// What the note grid shows: a phrase, or bars without one; nothing before bars are marked.
struct GridPage {
    std::optional<SpanId> phrase;
    Range<Beats> bars;
    friend bool operator==(const GridPage&, const GridPage&) = default;
};

/// The page for a place of the ear: its phrase; else the bars of a loop around it; else two bars from a
/// pair's first, so that pages turn as a reader's eye moves.
GridPage pageFor(const Study& study, Seconds ear);

/// Keeps the page of the grid. It follows the ear, until the user works in the grid; then it stays until it
/// is let go, or another place is chosen by hand.
class DeskCursor {
public:
    const GridPage& page() const { return shown; }
    /// The ear moved by itself, or the study changed. True if the page turned.
    bool follow(const Study& study, Seconds ear);
    /// The user went somewhere: the page turns there at once. True if it turned.
    bool goTo(const Study& study, Seconds place);
    /// The user works in the grid: the page stays.
    void hold() { held = true; }
    /// True if it was held.
    bool letGo();
    bool isHeld() const { return held; }
    void reset();

    /// The phrase that C, P and trade mean; none where the cursor is in no phrase.
    std::optional<SpanId> phrase(const Study& study, Seconds ear) const;

private:
    bool turnTo(const GridPage& page);

    GridPage shown;
    bool held = false;
};

} // namespace earwright::ui
