#include "core/study/PageEdits.h"

#include "core/study/PageOrder.h"

#include <algorithm>

namespace earwright {

namespace {

/// The study with page marks changed by `change(PageMarks&)`.
template <class Change>
Study withPage(const Study& study, Change change) {
    Study edited = study;
    change(edited.page);
    edited.page = settled(std::move(edited.page));
    return edited;
}

template <class Change>
void changePlaces(PageMarks& page, Change change) {
    for (SwingChange& swing : page.swings)
        change(swing.at);
    for (TempoMark& mark : page.tempos)
        change(mark.at);
    for (DynamicMark& mark : page.dynamics)
        change(mark.at);
    for (TextMark& mark : page.texts)
        change(mark.at);
    for (Hairpin& hairpin : page.hairpins) {
        change(hairpin.range.begin);
        change(hairpin.range.end);
    }
}

bool isTouched(const Repeat& repeat, std::int64_t first, std::int64_t last) {
    return repeat.firstBar <= last && repeat.lastBar >= first;
}

} // namespace

Study setKey(const Study& study, std::int64_t bar, std::optional<KeySignature> key) {
    return withPage(study, [&](PageMarks& page) {
        if (key)
            page.keys.push_back({bar, *key});
        else
            std::erase_if(page.keys, [&](const KeyChange& change) { return change.bar == bar; });
    });
}

Study setSwing(const Study& study, const Beats& at, std::optional<Swing> swing) {
    return withPage(study, [&](PageMarks& page) {
        if (swing)
            page.swings.push_back({at, *swing});
        else
            std::erase_if(page.swings, [&](const SwingChange& change) { return change.at == at; });
    });
}

Study setTempoMark(const Study& study, const TempoMark& mark) {
    return withPage(study, [&](PageMarks& page) {
        if (mark.words.empty() && !mark.quartersPerMinute)
            std::erase_if(page.tempos, [&](const TempoMark& other) { return other.at == mark.at; });
        else
            page.tempos.push_back(mark);
    });
}

Study setDynamic(const Study& study, const Beats& at, std::optional<Dynamic> level) {
    return withPage(study, [&](PageMarks& page) {
        if (level)
            page.dynamics.push_back({at, *level});
        else
            std::erase_if(page.dynamics, [&](const DynamicMark& mark) { return mark.at == at; });
    });
}

Study setHairpin(const Study& study, const Range<Beats>& range, std::optional<HairpinKind> kind) {
    return withPage(study, [&](PageMarks& page) {
        if (kind)
            page.hairpins.push_back({range, *kind});
        else
            std::erase_if(page.hairpins, [&](const Hairpin& other) { return other.range.overlaps(range); });
    });
}

Study setText(const Study& study, const TextMark& mark) {
    return withPage(study, [&](PageMarks& page) {
        std::erase_if(page.texts, [&](const TextMark& other) {
            return other.at == mark.at && other.below == mark.below;
        });
        if (!mark.text.empty()) page.texts.push_back(mark);
    });
}

Study setRepeat(const Study& study, const Repeat& repeat) {
    return withPage(study, [&](PageMarks& page) { page.repeats.push_back(repeat); });
}

Study removeRepeat(const Study& study, std::int64_t bar) {
    return withPage(study, [&](PageMarks& page) {
        std::erase_if(page.repeats, [&](const Repeat& repeat) { return isTouched(repeat, bar, bar); });
    });
}

Study setPickup(const Study& study, std::optional<Beats> length) {
    if (length && !isUsablePickup(*length, study.meter)) return study;
    return withPage(study, [&](PageMarks& page) { page.pickup = length; });
}

PageMarks recountedPage(PageMarks page, const Recounting& recounting) {
    for (KeyChange& change : page.keys)
        change.bar = recounting.newBar(change.bar);
    for (Repeat& repeat : page.repeats) {
        const std::int64_t behind = recounting.newBar(repeat.lastBar + 1);
        const std::int64_t endings = recounting.newBar(repeat.lastBar + 1 - repeat.endingBars);
        repeat.firstBar = recounting.newBar(repeat.firstBar);
        repeat.lastBar = behind - 1;
        repeat.endingBars = static_cast<int>(behind - endings);
    }
    page.meters = recounting.changes;
    if (page.pickup) page.pickup = -recounting.newPlace(-*page.pickup);
    if (page.pickup && !isUsablePickup(*page.pickup, recounting.first)) page.pickup.reset();
    changePlaces(page, [&](Beats& place) { place = recounting.newPlace(place); });
    return settled(std::move(page));
}

} // namespace earwright
