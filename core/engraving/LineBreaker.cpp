#include "core/engraving/LineBreaker.h"

#include "core/engraving/SystemLayout.h"

#include <algorithm>
#include <cstdint>
#include <set>
#include <tuple>

namespace earwright {

namespace {

/// A line that has fewer bars than the others keeps their spacing; this where there is none above.
constexpr double defaultQuarter = 6;

/// Marks that stand in the plan's bars; an excerpt begins with the one that stands there already.
template <typename Mark>
std::vector<Mark> standing(const std::vector<Mark>& marks, const SystemPlan& plan, bool isFirst) {
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

/// Marks that hold for a place only.
template <typename Mark>
std::vector<Mark> within(const std::vector<Mark>& marks, const SystemPlan& plan) {
    std::vector<Mark> made;
    for (const Mark& mark : marks)
        if (mark.at >= plan.bars.front().begin && mark.at < plan.bars.back().end) made.push_back(mark);
    return made;
}

std::vector<LineHairpin> hairpinsOf(const std::vector<Hairpin>& hairpins, const SystemPlan& plan) {
    const Beats begin = plan.bars.front().begin;
    const Beats end = plan.bars.back().end;
    std::vector<LineHairpin> made;
    for (const Hairpin& hairpin : hairpins) {
        if (hairpin.range.end <= begin || hairpin.range.begin >= end) continue;
        made.push_back({{std::max(hairpin.range.begin, begin), std::min(hairpin.range.end, end)},
                        hairpin.kind,
                        hairpin.range.begin<begin, hairpin.range.end> end});
    }
    return made;
}

/// `count` in so many nearly equal parts, the larger ones first.
std::vector<std::size_t> sharedOut(std::size_t count, std::size_t parts) {
    std::vector<std::size_t> sizes(parts, count / parts);
    for (std::size_t i = 0; i < count % parts; ++i)
        ++sizes[i];
    return sizes;
}

} // namespace

std::size_t LineBreaker::pickupFrom(std::size_t first) const {
    std::size_t pickup = 0;
    while (first + pickup < excerpt.bars.size() &&
           (excerpt.bars[first + pickup].number < 1 || excerpt.bars[first + pickup].isPartial))
        ++pickup;
    return pickup;
}

std::size_t LineBreaker::blockFrom(std::size_t first) const {
    // Bars before the first whole one come with the first full line.
    const std::size_t left = excerpt.bars.size() - first;
    return std::min(pickupFrom(first) + static_cast<std::size_t>(*options.barsPerLine), left);
}

bool LineBreaker::fits(std::size_t first, std::size_t count) const {
    if (count == 1) return true;
    const SystemPlan plan = planOf(first, count);
    return comfortableWidth(plan, font) <= plan.width;
}

std::vector<std::size_t> LineBreaker::wantedLines() const {
    std::vector<std::size_t> sizes;
    for (std::size_t first = 0; first < excerpt.bars.size();) {
        const std::size_t block = blockFrom(first);
        const std::vector<std::size_t> parts = fittingLines(first, block);
        sizes.insert(sizes.end(), parts.begin(), parts.end());
        first += block;
    }
    return sizes;
}

std::vector<std::size_t> LineBreaker::fittingLines(std::size_t first, std::size_t count) const {
    for (std::size_t parts = 1; parts < count; ++parts) {
        const std::vector<std::size_t> sizes = sharedOut(count, parts);
        std::size_t end = first;
        const bool allFit = std::all_of(sizes.begin(), sizes.end(), [&](std::size_t size) {
            end += size;
            return fits(end - size, size);
        });
        if (allFit) return sizes;
    }
    return sharedOut(count, count);
}

std::vector<std::size_t> LineBreaker::mostOnLines() const {
    const std::size_t count = excerpt.bars.size();
    std::vector<std::size_t> most;
    for (std::size_t first = 0; first < count; ++first) {
        // What has room with a bar before it has room without.
        std::size_t size = first == 0 ? 1 : std::max<std::size_t>(1, most.back() - 1);
        while (!fits(first, size))
            --size;
        while (first + size < count && fits(first, size + 1))
            ++size;
        most.push_back(size);
    }
    return most;
}

std::vector<bool> LineBreaker::isPartBegun() const {
    std::set<std::int64_t> begun;
    for (const Repeat& repeat : study.page.repeats)
        begun.insert({repeat.firstBar, repeat.lastBar + 1});
    const MeterMap meters = study.meters();
    for (const Span& span : study.spans) {
        if (span.kind == SpanKind::Phrase || !study.beatMap.hasTempo()) continue;
        const Range<Beats> beats = study.beatsOf(span);
        for (const Beats& place : {beats.begin, beats.end})
            begun.insert(meters.barOf(place + meters.barLength(meters.barOf(place)) / 2));
    }
    std::vector<bool> isBegun;
    for (const StaffBar& bar : excerpt.bars)
        isBegun.push_back(begun.contains(bar.number));
    return isBegun;
}

/// Dynamic programming from the last bar to the first: the fewest lines; of those the ones with the fewest
/// beginnings of choruses and the like within a line; of those the most even ones, whose squares have the
/// least sum; the larger ones first.
std::vector<std::size_t> LineBreaker::filledLines() const {
    struct Rest {
        std::size_t lines = 0;
        std::size_t crossed = 0;
        std::size_t squares = 0;
        std::size_t size = 0;
    };
    const std::vector<std::size_t> most = mostOnLines();
    const std::vector<bool> isBegun = isPartBegun();
    const std::size_t count = most.size();
    const std::size_t pickup = pickupFrom(0);
    std::vector<Rest> rests(count + 1);
    for (std::size_t first = count; first-- > 0;) {
        std::size_t crossed = 0;
        Rest& best = rests[first];
        for (std::size_t size = 1; size <= most[first]; ++size) {
            const std::size_t end = first + size;
            // What begins behind a pickup stands on its line.
            if (end - 1 > std::max(first, pickup) && isBegun[end - 1]) ++crossed;
            const std::size_t whole = end - std::min(std::max(first, pickup), end);
            const Rest& behind = rests[end];
            const Rest here{behind.lines + 1, behind.crossed + crossed, behind.squares + whole * whole, size};
            if (best.size == 0 || std::tie(here.lines, here.crossed, here.squares) <=
                                      std::tie(best.lines, best.crossed, best.squares))
                best = here;
        }
    }
    std::vector<std::size_t> sizes;
    for (std::size_t first = 0; first < count; first += sizes.back())
        sizes.push_back(rests[first].size);
    return sizes;
}

bool LineBreaker::isShort(std::size_t count, std::optional<std::size_t> before) const {
    const bool isWanted = options.barsPerLine && count >= static_cast<std::size_t>(*options.barsPerLine);
    return !isWanted && (!before || count < *before);
}

std::vector<SystemPlan> LineBreaker::lines(LineEnd end) {
    std::vector<SystemPlan> made;
    std::optional<double> usual;
    std::optional<std::size_t> before;
    std::size_t first = 0;
    for (const std::size_t count : options.barsPerLine ? wantedLines() : filledLines()) {
        SystemPlan plan = planOf(first, count);
        first += count;
        const bool isLast = first == excerpt.bars.size();
        if (isLast) plan.end = end;
        const double own = quarterSpacesOf(plan, font);
        if (isLast && isShort(count, before))
            plan.quarterSpaces = std::min(own, usual.value_or(defaultQuarter));
        usual = std::min(usual.value_or(own), own);
        before = count;
        made.push_back(std::move(plan));
    }
    return made;
}

SystemPlan LineBreaker::planOf(std::size_t first, std::size_t count) const {
    SystemPlan plan;
    const auto begin = excerpt.bars.begin() + static_cast<std::ptrdiff_t>(first);
    plan.bars.assign(begin, begin + static_cast<std::ptrdiff_t>(count));
    plan.style = {.clef = excerpt.clef,
                  .chordSymbols = options.chordSymbols,
                  .degrees = options.degrees,
                  .barNumbers = options.barNumbers,
                  .slashes = options.slashes,
                  .staff = options.staff};
    if (first > 0) {
        plan.meterBefore = excerpt.bars[first - 1].meter;
        plan.keyBefore = excerpt.bars[first - 1].key;
    }
    if (first + count < excerpt.bars.size()) {
        plan.meterAfter = excerpt.bars[first + count].meter;
        plan.keyAfter = excerpt.bars[first + count].key;
    }
    plan.beatUnit = study.meter.beatUnit;
    plan.slurred = excerpt.slurred;
    plan.slurredOnString = excerpt.slurredOnString;
    plan.strings = options.strings;
    plan.places = options.places;
    plan.width = options.pageWidth - 2 * options.margin;
    addMarks(first, plan);
    return plan;
}

void LineBreaker::addMarks(std::size_t first, SystemPlan& plan) const {
    plan.swings = standing(study.page.swings, plan, first == 0);
    // Even notes need no word unless they follow swung ones.
    if (first == 0 && !plan.swings.empty() && plan.swings.front().swing.isEven())
        plan.swings.erase(plan.swings.begin());
    if (options.tempos) addTempos(first == 0, plan);
    plan.dynamics = within(study.page.dynamics, plan);
    plan.texts = within(study.page.texts, plan);
    plan.hairpins = hairpinsOf(study.page.hairpins, plan);
}

void LineBreaker::addTempos(bool isFirst, SystemPlan& plan) const {
    plan.tempos = standing(study.page.tempos, plan, isFirst);
    const Beats begin = plan.bars.front().begin;
    // A mark at the first whole bar stands over the pickup as well.
    const auto whole =
        std::find_if(plan.bars.begin(), plan.bars.end(), [](const StaffBar& bar) { return bar.number >= 1; });
    const Beats start = whole == plan.bars.end() ? begin : whole->begin;
    const bool isSaid = !plan.tempos.empty() && plan.tempos.front().at <= start;
    if (!isFirst || isSaid || !about.beatsPerMinute) return;
    const double quarters = *about.beatsPerMinute * 4 / study.meter.beatUnit;
    plan.tempos.insert(plan.tempos.begin(), {begin, "", quarters});
}

} // namespace earwright
