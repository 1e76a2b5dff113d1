// What can be changed of the page by key, one step at a time.
#pragma once

#include "ui/page/PageOrder.h"

#include <QString>

namespace earwright::ui {

/// What comes next, and what is said of it: "Notes on the page: For B♭ instruments."
struct PageStep {
    PageWish wish;
    QString said;
};

/// In the order of readingChoices(); behind the last one the first.
PageStep nextReading(const PageWish& wish);
/// In the order of clefChoices(); behind the last one the one that fits.
PageStep nextClef(const PageWish& wish);
PageStep tablatureInOrOut(const PageWish& wish);
PageStep chordSymbolsInOrOut(const PageWish& wish);
PageStep degreesInOrOut(const PageWish& wish);
/// In the order of barsPerLineChoices(), whose ends they do not pass.
PageStep moreBars(const PageWish& wish);
PageStep fewerBars(const PageWish& wish);
/// As nextZoom() has it.
PageStep larger(const PageWish& wish);
PageStep smaller(const PageWish& wish);

} // namespace earwright::ui
