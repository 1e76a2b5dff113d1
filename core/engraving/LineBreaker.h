// The bars of an excerpt broken into lines of music.
#pragma once

#include "core/engraving/EngravingOptions.h"
#include "core/engraving/ExcerptBars.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/SystemPlan.h"

#include <optional>
#include <vector>

namespace earwright {

/// Lines have the wanted number of bars. Where those have no room, they become two lines or more with nearly
/// as many bars each, so that the lines behind them begin where the form's do. Where as many bars are wanted
/// as fit, there are no more lines than filled ones would be, and they share the bars as evenly as fits: 4, 4
/// and 4 rather than 5, 5 and 2. Choruses, sections and repeats begin lines where that costs none.
///
/// Threads: any.
class LineBreaker {
public:
    /// Requires: everything outlives this.
    LineBreaker(const Study& toShow, const PageExcerpt& which, const ExcerptBars& content,
                const EngravingOptions& wanted, const FontMetrics& metrics)
        : study(toShow), about(which), excerpt(content), options(wanted), font(metrics) {}

    /// In order; each stands for its bars with everything on it.
    std::vector<SystemPlan> lines(LineEnd end);

private:
    /// How many bars stand on each line, in order: where a number of them is wanted, and where as many are as
    /// fit.
    std::vector<std::size_t> wantedLines() const;
    std::vector<std::size_t> filledLines() const;
    /// How many bars from `first` on are wanted on a line, and are there. Requires: a number is wanted.
    std::size_t blockFrom(std::size_t first) const;
    std::vector<std::size_t> fittingLines(std::size_t first, std::size_t count) const;
    /// By bar: how many from there on fit on a line, at least one.
    std::vector<std::size_t> mostOnLines() const;
    /// By bar: whether a chorus, a section or a repeat begins there, or what follows one.
    std::vector<bool> isPartBegun() const;
    /// How many bars from `first` on are before the first whole one.
    std::size_t pickupFrom(std::size_t first) const;
    bool fits(std::size_t first, std::size_t count) const;
    /// Whether a last line of so many bars, after one of `before`, would stand out if it were filled.
    bool isShort(std::size_t count, std::optional<std::size_t> before) const;
    SystemPlan planOf(std::size_t first, std::size_t count) const;
    void addMarks(std::size_t first, SystemPlan& plan) const;
    void addTempos(bool isFirst, SystemPlan& plan) const;

    const Study& study;
    const PageExcerpt& about;
    const ExcerptBars& excerpt;
    const EngravingOptions& options;
    const FontMetrics& font;
};

} // namespace earwright
