#include "core/engraving/Engraving.h"

#include "core/engraving/ExcerptBars.h"
#include "core/engraving/LineBreaker.h"
#include "core/engraving/SystemLayout.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double leastWidth = 20;

std::optional<Error> wrong(const PageExcerpt& excerpt, const EngravingOptions& options) {
    const auto error = [](const char* message) { return Error{ErrorKind::OutOfRange, message, ""}; };
    if (!(options.pageWidth - 2 * options.margin >= leastWidth))
        return error("The paper leaves no room for music between its margins; choose smaller margins.");
    if (options.barsPerLine && *options.barsPerLine < 1)
        return error("A line of music needs at least one bar.");
    if (options.strings < 0 || options.strings > 8) return error("Tablature has one to eight strings.");
    if (!options.staff && options.strings == 0) return error("A page shows a staff, tablature or both.");
    if (excerpt.lastBar < excerpt.firstBar) return error("The excerpt ends before it begins.");
    return {};
}

/// A line that is only partly written may go on behind its last note: an excerpt shows the end of the piece
/// where the last chorus says that it is there.
LineEnd endOf(const Study& study, const PageExcerpt& excerpt) {
    const PageExcerpt whole = wholeStudy(study);
    if (excerpt.lastBar < whole.lastBar) return LineEnd::Open;
    const bool isWhole = !excerpt.only && excerpt.firstBar <= whole.firstBar;
    const auto choruses = study.chorusBars();
    const bool endsForm = std::any_of(choruses.begin(), choruses.end(), [&](const ChorusBars& chorus) {
        return chorus.firstBar + chorus.barCount - 1 == whole.lastBar;
    });
    return isWhole || endsForm ? LineEnd::Final : LineEnd::Open;
}

} // namespace

PageExcerpt barsAround(const Study& study, const Range<Beats>& stretch) {
    const MeterMap meters = study.meters();
    PageExcerpt excerpt;
    excerpt.firstBar = meters.barOf(stretch.begin);
    const std::int64_t last = meters.barOf(stretch.end);
    excerpt.lastBar = std::max(excerpt.firstBar, meters.barStart(last) == stretch.end ? last - 1 : last);
    return excerpt;
}

PageExcerpt wholeStudy(const Study& study) {
    PageExcerpt whole;
    const MeterMap meters = study.meters();
    if (study.page.pickup) whole.firstBar = 0;
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
    std::vector<EngravedSystem> systems;
    for (const SystemPlan& plan :
         LineBreaker(study, excerpt, *content, options, font).lines(endOf(study, excerpt)))
        systems.push_back(layOutSystem(plan, font));
    return systems;
}

} // namespace earwright
