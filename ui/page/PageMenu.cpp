#include "ui/page/PageMenu.h"

#include "core/engraving/Fingering.h"
#include "ui/page/ReadingChoices.h"

#include <QAction>
#include <QActionGroup>
#include <QCoreApplication>
#include <QMenu>

#include <algorithm>
#include <array>
#include <iterator>

namespace earwright::ui {

namespace {

constexpr std::array zooms{0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5};

QString say(const char* words) {
    return QCoreApplication::translate("PageMenu", words);
}

/// One of several, of which one is chosen.
template <typename Value>
void addChoices(QMenu& menu, const QString& name, const std::vector<std::pair<QString, Value>>& choices,
                const Value& now, const std::function<void(const Value&)>& chosen) {
    QMenu* part = menu.addMenu(name);
    auto* group = new QActionGroup(part);
    for (const auto& [text, value] : choices) {
        QAction* action = part->addAction(text);
        action->setCheckable(true);
        action->setChecked(value == now);
        group->addAction(action);
        QObject::connect(action, &QAction::triggered, &menu, [chosen, value = value] { chosen(value); });
    }
}

template <typename Value>
std::vector<std::pair<QString, Value>> namesOf(const std::vector<NamedChoice<Value>>& choices) {
    std::vector<std::pair<QString, Value>> names;
    for (const NamedChoice<Value>& choice : choices)
        names.emplace_back(choice.name, choice.value);
    return names;
}

int fretOf(const Note& note, const StringTuning& tuning, int string) {
    return note.pitch.midi - tuning.openPitch(string);
}

} // namespace

void addPageWishes(QMenu& menu, const PageWish& wish, const std::function<void(const PageWish&)>& chosen) {
    const auto with = [wish, chosen](auto PageWish::*member) {
        return [wish, chosen, member](const auto& value) {
            PageWish next = wish;
            next.*member = value;
            chosen(next);
        };
    };
    addChoices<Reading>(menu, say("Notes"), namesOf(readingChoices()), wish.reading,
                        with(&PageWish::reading));
    addChoices<std::optional<Clef>>(menu, say("Clef"), namesOf(clefChoices()), wish.clef,
                                    with(&PageWish::clef));
    for (const auto& [name, member] : {std::pair{say("Tablature"), &PageWish::tablature},
                                       std::pair{say("Chord symbols"), &PageWish::chordSymbols},
                                       std::pair{say("Degrees on the chords"), &PageWish::degrees}}) {
        QAction* action = menu.addAction(name);
        action->setCheckable(true);
        action->setChecked(wish.*member);
        QObject::connect(action, &QAction::toggled, &menu, with(member));
    }
    addChoices<std::optional<int>>(menu, say("Bars to a line"), namesOf(barsPerLineChoices()),
                                   wish.barsPerLine, with(&PageWish::barsPerLine));
    menu.addSeparator();
    const auto zoomTo = with(&PageWish::zoom);
    QObject::connect(menu.addAction(say("Larger")), &QAction::triggered, &menu,
                     [zoomTo, wish] { zoomTo(nextZoom(wish.zoom, true)); });
    QObject::connect(menu.addAction(say("Smaller")), &QAction::triggered, &menu,
                     [zoomTo, wish] { zoomTo(nextZoom(wish.zoom, false)); });
}

void addStringsOf(QMenu& menu, const Note& note, const StringTuning& tuning,
                  const std::function<void(std::optional<int>)>& pinned) {
    std::vector<std::pair<QString, std::optional<int>>> choices{{say("Where it lies best"), std::nullopt}};
    for (int string = 0; string < static_cast<int>(tuning.strings.size()); ++string)
        if (isOnString(note, tuning, string))
            choices.emplace_back(say("String %1, fret %2").arg(string + 1).arg(fretOf(note, tuning, string)),
                                 string);
    addChoices<std::optional<int>>(menu, say("Played on"), choices, note.pinnedString, pinned);
}

double nextZoom(double zoom, bool larger) {
    if (larger) {
        const auto next =
            std::find_if(zooms.begin(), zooms.end(), [&](double one) { return one > zoom + 0.01; });
        return next == zooms.end() ? zooms.back() : *next;
    }
    const auto next =
        std::find_if(zooms.rbegin(), zooms.rend(), [&](double one) { return one < zoom - 0.01; });
    return next == zooms.rend() ? zooms.front() : *next;
}

} // namespace earwright::ui
