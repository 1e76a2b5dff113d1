// What the page under the grid is to show, and its layout, which needs no window.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/PageView.h"
#include "core/study/Study.h"

#include <memory>
#include <optional>
#include <vector>

namespace earwright::ui {

/// What can be chosen for a line under the grid, where as many as fit may be more.
inline constexpr int mostBarsOfPageLine = 8;

/// How the user wants to read the line; kept from one day to the next.
struct PageWish {
    Reading reading = Reading::Concert;
    /// None: treble or bass, by where the line lies.
    std::optional<Clef> clef;
    bool tablature = true;
    bool degrees = false;
    bool chordSymbols = true;
    /// At most, 1 to mostBarsOfPageLine; none: as many as fit.
    std::optional<int> barsPerLine = 4;
    /// 1 is as large as the heads of the grid; 0.6 to 2.5.
    double zoom = 1;
    friend bool operator==(const PageWish&, const PageWish&) = default;
};

/// A value: it can be laid out on any thread while the study goes on.
struct PageOrder {
    std::shared_ptr<const Study> study;
    Range<Beats> bars;
    PageWish wish;
    /// Of a line, in staff spaces.
    double width = 100;
    std::shared_ptr<const FontMetrics> font;
};

/// Errors: of engraveSystems(). Threads: any.
Result<std::vector<EngravedSystem>> laidOut(const PageOrder& order);

} // namespace earwright::ui
