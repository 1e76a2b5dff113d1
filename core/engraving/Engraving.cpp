#include "core/engraving/Engraving.h"

#include "core/engraving/PageBars.h"
#include "core/engraving/PageLine.h"
#include "core/engraving/StaffBar.h"
#include "core/engraving/SystemLayout.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double leastWidth = 20;

std::optional<Error> wrong(const PageExcerpt& excerpt, const EngravingOptions& options) {
    const auto error = [](const char* message) { return Error{ErrorKind::OutOfRange, message, ""}; };
    if (!(options.pageWidth - 2 * options.margin >= leastWidth))
        return error("The paper leaves no room for music between its margins; choose smaller margins.");
    if (options.barsPerLine < 1) return error("A line of music needs at least one bar.");
    if (options.strings < 0 || options.strings > 8) return error("Tablature has one to eight strings.");
    if (excerpt.lastBar < excerpt.firstBar) return error("The excerpt ends before it begins.");
    return {};
}

/// The excerpt's bars, ready to be broken into lines.
struct ExcerptBars {
    std::vector<StaffBar> bars;
    std::vector<bool> slurred;
    Clef clef = Clef::Treble;
};

Result<ExcerptBars> excerptBars(const Study& study, const PageExcerpt& excerpt,
                                const EngravingOptions& options) {
    Study shown = study;
    if (excerpt.only)
        std::erase_if(shown.notes, [&](const Note& note) { return !excerpt.only->contains(note.onset); });
    const std::vector<PageNotes> line = pageLine(shown);
    auto bars = pageBars(line, study.meters(), excerpt.lastBar);
    if (!bars) return bars.error();
    std::erase_if(*bars, [&](const PageBar& bar) {
        return bar.number < excerpt.firstBar || bar.number > excerpt.lastBar;
    });
    ExcerptBars made;
    made.clef = options.clef.value_or(easiestClef(line, options.reading));
    made.bars = staffBars(study, line, *bars, options.reading, made.clef);
    for (const PageNotes& together : line)
        made.slurred.push_back(together.notes.front().phrasing.slurred);
    if (!made.slurred.empty()) made.slurred.front() = false;
    return made;
}

class LineBreaker {
public:
    LineBreaker(const Study& toShow, ExcerptBars content, const EngravingOptions& wanted,
                const FontMetrics& metrics)
        : study(toShow), excerpt(std::move(content)), options(wanted), font(metrics) {}

    std::vector<EngravedSystem> make() {
        std::vector<EngravedSystem> systems;
        for (std::size_t first = 0; first < excerpt.bars.size();) {
            SystemPlan plan = fitting(first);
            const std::size_t count = plan.bars.size();
            plan.isLast = first + count == excerpt.bars.size();
            // A last line with few bars has them as wide as those above.
            const double own = quarterSpacesOf(plan, font);
            const bool isShort = wantedBars(first) > count && plan.isLast;
            if (isShort) plan.quarterSpaces = std::min(own, usual.value_or(defaultQuarter));
            usual = std::min(usual.value_or(own), own);
            systems.push_back(layOutSystem(plan, font));
            first += count;
        }
        return systems;
    }

private:
    static constexpr double defaultQuarter = 6;

    /// Bars before bar 1 come with the first full line.
    std::size_t wantedBars(std::size_t first) const {
        std::size_t pickup = 0;
        while (first + pickup < excerpt.bars.size() && excerpt.bars[first + pickup].number < 1)
            ++pickup;
        return pickup + static_cast<std::size_t>(options.barsPerLine);
    }

    SystemPlan planOf(std::size_t first, std::size_t count) const {
        SystemPlan plan;
        const auto begin = excerpt.bars.begin() + static_cast<std::ptrdiff_t>(first);
        plan.bars.assign(begin, begin + static_cast<std::ptrdiff_t>(count));
        plan.style = {excerpt.clef, options.chordSymbols, options.degrees, options.barNumbers};
        if (first > 0) {
            plan.meterBefore = excerpt.bars[first - 1].meter;
            plan.keyBefore = excerpt.bars[first - 1].key;
        }
        plan.beatUnit = study.meter.beatUnit;
        plan.slurred = excerpt.slurred;
        plan.strings = options.strings;
        plan.places = options.places;
        plan.width = options.pageWidth - 2 * options.margin;
        plan.swings = spoken(study.page.swings, plan, first == 0);
        plan.tempos = spoken(study.page.tempos, plan, first == 0);
        // Even notes need no word unless they follow swung ones.
        if (first == 0 && !plan.swings.empty() && plan.swings.front().swing.isEven())
            plan.swings.erase(plan.swings.begin());
        return plan;
    }

    /// Marks that stand in the plan's bars; an excerpt begins with the one that stands there already.
    template <typename Mark>
    static std::vector<Mark> spoken(const std::vector<Mark>& marks, const SystemPlan& plan, bool isFirst) {
        const Beats begin = plan.bars.front().begin;
        std::vector<Mark> made;
        for (Mark mark : marks) {
            if (mark.at >= plan.bars.back().end || (mark.at < begin && !isFirst)) continue;
            if (mark.at <= begin) made.clear();
            mark.at = std::max(mark.at, begin);
            made.push_back(mark);
        }
        return made;
    }

    /// As many bars as are wanted and have room.
    SystemPlan fitting(std::size_t first) const {
        std::size_t count = std::min(wantedBars(first), excerpt.bars.size() - first);
        SystemPlan plan = planOf(first, count);
        while (count > 1 && comfortableWidth(plan, font) > plan.width)
            plan = planOf(first, --count);
        return plan;
    }

    const Study& study;
    ExcerptBars excerpt;
    const EngravingOptions& options;
    const FontMetrics& font;
    std::optional<double> usual;
};

} // namespace

PageExcerpt wholeStudy(const Study& study) {
    PageExcerpt whole;
    const MeterMap meters = study.meters();
    for (const ChorusBars& chorus : study.chorusBars())
        whole.lastBar = std::max(whole.lastBar, chorus.firstBar + chorus.barCount - 1);
    for (const Note& note : study.notes) {
        whole.firstBar = std::min(whole.firstBar, meters.barOf(note.onset));
        const std::int64_t ends = meters.barOf(note.end());
        whole.lastBar = std::max(whole.lastBar, meters.barStart(ends) == note.end() ? ends - 1 : ends);
    }
    return whole;
}

Result<std::vector<EngravedSystem>> engraveSystems(const Study& study, const PageExcerpt& excerpt,
                                                   const EngravingOptions& options, const FontMetrics& font) {
    if (auto error = wrong(excerpt, options)) return *error;
    auto content = excerptBars(study, excerpt, options);
    if (!content) return content.error();
    return LineBreaker(study, std::move(*content), options, font).make();
}

} // namespace earwright
