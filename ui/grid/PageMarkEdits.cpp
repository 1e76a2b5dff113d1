#include "ui/grid/PageMarkEdits.h"

#include "core/study/PageEdits.h"

#include <QCoreApplication>

#include <algorithm>

namespace earwright::ui {

namespace {

std::optional<GridEdit> edit(const Study& before, Study after, const char* name) {
    if (after == before) return std::nullopt;
    return GridEdit{std::move(after), QCoreApplication::translate("GridEdits", name), {}, {}, false};
}

const DynamicMark* dynamicAt(const Study& study, const Beats& at) {
    for (const DynamicMark& mark : study.page.dynamics)
        if (mark.at == at) return &mark;
    return nullptr;
}

/// The last level said before a place; a sforzato is one note's only.
Dynamic standingBefore(const Study& study, const Beats& at) {
    Dynamic level = Dynamic::mf;
    for (const DynamicMark& mark : study.page.dynamics)
        if (mark.at < at && mark.level != Dynamic::sfz) level = mark.level;
    return level;
}

} // namespace

QString dynamicText(Dynamic level) {
    static const char* const words[] = {"ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "sfz"};
    return QLatin1String(words[static_cast<std::size_t>(level)]);
}

std::optional<GridEdit> dynamicStepped(const Study& study, const Beats& at, int by) {
    const DynamicMark* there = dynamicAt(study, at);
    // A sforzato is no step between two levels: the line goes on from what stands before it.
    const bool isLevel = there && there->level != Dynamic::sfz;
    const int now = static_cast<int>(isLevel ? there->level : standingBefore(study, at));
    const int wanted = std::clamp(there ? now + by : now, 0, static_cast<int>(Dynamic::fff));
    return dynamicSet(study, at, static_cast<Dynamic>(wanted));
}

std::optional<GridEdit> dynamicSet(const Study& study, const Beats& at, std::optional<Dynamic> level) {
    return edit(study, setDynamic(study, at, level), QT_TRANSLATE_NOOP("GridEdits", "dynamic"));
}

std::optional<GridEdit> hairpinToggled(const Study& study, const Range<Beats>& range, HairpinKind kind) {
    if (range.isEmpty()) return std::nullopt;
    const bool isThere =
        std::any_of(study.page.hairpins.begin(), study.page.hairpins.end(),
                    [&](const Hairpin& hairpin) { return hairpin.range == range && hairpin.kind == kind; });
    // One of another kind over these notes makes room.
    const Study cleared = setHairpin(study, range, std::nullopt);
    return edit(study, isThere ? cleared : setHairpin(cleared, range, kind),
                QT_TRANSLATE_NOOP("GridEdits", "hairpin"));
}

std::optional<GridEdit> wordsSet(const Study& study, const Beats& at, const QString& words, bool below) {
    return edit(study, setText(study, {at, words.trimmed().toStdString(), below}),
                QT_TRANSLATE_NOOP("GridEdits", "words"));
}

std::optional<GridEdit> pageMarksCleared(const Study& study, const Range<Beats>& range) {
    Study cleared = setHairpin(study, range, std::nullopt);
    for (const DynamicMark& mark : study.page.dynamics)
        if (range.contains(mark.at)) cleared = setDynamic(cleared, mark.at, std::nullopt);
    for (const TextMark& mark : study.page.texts)
        if (range.contains(mark.at)) cleared = setText(cleared, {mark.at, {}, mark.below});
    return edit(study, std::move(cleared), QT_TRANSLATE_NOOP("GridEdits", "take marks away"));
}

QString wordsAt(const Study& study, const Beats& at, bool below) {
    for (const TextMark& mark : study.page.texts)
        if (mark.at == at && mark.below == below) return QString::fromStdString(mark.text);
    return {};
}

} // namespace earwright::ui
