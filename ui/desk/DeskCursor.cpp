#include "ui/desk/DeskCursor.h"

#include <cmath>

namespace earwright::ui {

namespace {

constexpr std::int64_t barsWithoutPhrase = 2;
/// The ear stands on a frame of the recording, which may lie a hair before the place that was meant.
constexpr Seconds aHair{0.002};

GridPage barsAround(const Study& study, Seconds ear) {
    const MeterMap meters = study.meters();
    const std::int64_t bar = std::llround(std::floor(meters.barsAt(study.beatMap.beatsAt(ear)))) + 1;
    const std::int64_t intoPair = ((bar - 1) % barsWithoutPhrase + barsWithoutPhrase) % barsWithoutPhrase;
    // A bar with which the recording begins, as a pickup, goes with the one it leads to, and with none
    // before.
    const bool isHalfBefore = intoPair > 0 && study.beatMap.seconds(meters.barStart(bar)) < aHair &&
                              meters.barStart(bar) < Beats(0);
    const std::int64_t first = isHalfBefore ? bar : bar - intoPair;
    return {std::nullopt, {meters.barStart(first), meters.barStart(first + barsWithoutPhrase)}};
}

} // namespace

GridPage pageFor(const Study& study, Seconds ear) {
    if (!study.beatMap.hasTempo()) return {};
    ear += aHair;
    if (const Span* phrase = study.spanAt(SpanKind::Phrase, ear)) return {phrase->id, study.beatsOf(*phrase)};
    if (const auto& loop = study.practice.loop; loop && loop->contains(ear))
        return {std::nullopt, study.beatsOf(Span{{}, SpanKind::Phrase, {}, *loop})};
    return barsAround(study, ear);
}

bool DeskCursor::follow(const Study& study, Seconds ear) {
    const bool gone = shown.phrase && !study.span(*shown.phrase);
    if (held && !gone) {
        if (!shown.phrase || !study.beatMap.hasTempo()) return false;
        return turnTo({shown.phrase, study.beatsOf(*study.span(*shown.phrase))});
    }
    return turnTo(pageFor(study, ear));
}

bool DeskCursor::goTo(const Study& study, Seconds place) {
    held = false;
    return turnTo(pageFor(study, place));
}

bool DeskCursor::letGo() {
    const bool was = held;
    held = false;
    return was;
}

void DeskCursor::reset() {
    shown = {};
    held = false;
}

bool DeskCursor::turnTo(const GridPage& page) {
    if (page == shown) return false;
    shown = page;
    return true;
}

std::optional<SpanId> DeskCursor::phrase(const Study& study, Seconds ear) const {
    if (held && shown.phrase && study.span(*shown.phrase)) return shown.phrase;
    if (const Span* phrase = study.spanAt(SpanKind::Phrase, ear + aHair)) return phrase->id;
    return std::nullopt;
}

} // namespace earwright::ui
