#include "ui/page/PageSteps.h"

#include "ui/page/PageMenu.h"
#include "ui/page/ReadingChoices.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>

namespace earwright::ui {

namespace {

QString say(const char* words) {
    return QCoreApplication::translate("PageSteps", words);
}

/// The choice behind the one that holds now.
template <typename Value>
PageStep stepped(const PageWish& wish, Value PageWish::*member,
                 const std::vector<NamedChoice<Value>>& choices, const QString& sentence) {
    std::size_t next = 0;
    for (std::size_t i = 0; i < choices.size(); ++i)
        if (choices[i].value == wish.*member) next = (i + 1) % choices.size();
    PageStep step{wish, sentence.arg(choices[next].name)};
    step.wish.*member = choices[next].value;
    return step;
}

PageStep switched(const PageWish& wish, bool PageWish::*member, const QString& shown, const QString& hidden) {
    PageStep step{wish, {}};
    step.wish.*member = !(wish.*member);
    step.said = step.wish.*member ? shown : hidden;
    return step;
}

PageStep zoomed(const PageWish& wish, bool isLarger) {
    PageStep step{wish, {}};
    step.wish.zoom = nextZoom(wish.zoom, isLarger);
    step.said = say("The page is drawn at %1 %.").arg(std::lround(step.wish.zoom * 100));
    return step;
}

/// `by` places along the choices.
PageStep withBars(const PageWish& wish, int by) {
    const auto choices = barsPerLineChoices();
    const auto now = std::find_if(choices.begin(), choices.end(),
                                  [&](const auto& choice) { return choice.value == wish.barsPerLine; });
    const auto last = static_cast<std::ptrdiff_t>(choices.size()) - 1;
    const auto& next = choices[static_cast<std::size_t>(
        std::clamp(std::distance(choices.begin(), now) + by, std::ptrdiff_t{0}, last))];
    PageStep step{wish, say("Bars to a line of the page: %1.").arg(next.name)};
    step.wish.barsPerLine = next.value;
    return step;
}

} // namespace

PageStep nextReading(const PageWish& wish) {
    return stepped(wish, &PageWish::reading, readingChoices(), say("Notes on the page: %1."));
}

PageStep nextClef(const PageWish& wish) {
    return stepped(wish, &PageWish::clef, clefChoices(), say("Clef on the page: %1."));
}

PageStep tablatureInOrOut(const PageWish& wish) {
    return switched(wish, &PageWish::tablature, say("The page shows staff and tablature."),
                    say("The page shows the staff alone."));
}

PageStep chordSymbolsInOrOut(const PageWish& wish) {
    return switched(wish, &PageWish::chordSymbols, say("The page shows chord symbols."),
                    say("The page shows no chord symbols."));
}

PageStep degreesInOrOut(const PageWish& wish) {
    return switched(wish, &PageWish::degrees, say("The page shows what each note is on its chord."),
                    say("The page shows no degrees on the chords."));
}

PageStep moreBars(const PageWish& wish) {
    return withBars(wish, 1);
}

PageStep fewerBars(const PageWish& wish) {
    return withBars(wish, -1);
}

PageStep larger(const PageWish& wish) {
    return zoomed(wish, true);
}

PageStep smaller(const PageWish& wish) {
    return zoomed(wish, false);
}

} // namespace earwright::ui
