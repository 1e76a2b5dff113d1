#include "ui/sheet/SheetMenu.h"

#include "ui/theme/PlaceText.h"

#include <QCoreApplication>

namespace earwright::ui {

namespace {

using Wishing = std::function<void(const SheetWish&)>;

QString tr(const char* text) {
    return QCoreApplication::translate("ChorusSheet", text);
}

void addMarks(QMenu& menu, const SheetModel& model, const SheetHit& hit, const Wishing& wish) {
    if (hit.part == SheetPart::Mark) {
        const Beats position = model.study->beatMap.marks()[hit.mark].position;
        const QString place = placeText(position, model.study->meters());
        menu.addAction(tr("Remove the mark at %1").arg(place), [=] { wish(RemoveMarkAt{hit.mark}); });
        const Seconds time = model.study->beatMap.marks()[hit.mark].time;
        menu.addAction(tr("Bar 1 here"), [=] { wish(CountBarsFrom{time}); });
        return;
    }
    menu.addAction(tr("Bar here"), [=] { wish(MarkBarAt{hit.place}); });
    menu.addAction(tr("Beat here"), [=] { wish(MarkBeatAt{hit.place}); });
}

void addChords(QMenu& menu, const SheetModel& model, const SheetHit& hit, const SheetTyping& typing,
               const Wishing& wish) {
    if (!hit.bar) return;
    const std::int64_t bar = *hit.bar;
    menu.addSeparator();
    menu.addAction(chordsTitle(bar) + QStringLiteral("…"), [=, &typing] { typing.chords(bar); });
    if (model.study->chart.overrides.contains(bar))
        menu.addAction(tr("%1 as in the form").arg(chordsTitle(bar)), [=] { wish(KeepToForm{bar}); });
}

void addStretch(QMenu& menu, const SheetModel& model, const SheetHit& hit, const SheetTyping& typing,
                const Wishing& wish) {
    const bool inStretch = model.stretch && model.stretch->contains(hit.place);
    const bool inLoop = model.loop() && model.loop()->contains(hit.place);
    if (!inStretch && !inLoop) return;
    const Range<Seconds> stretch = inStretch ? *model.stretch : *model.loop();
    menu.addSeparator();
    if (inStretch) menu.addAction(tr("Loop"), [=] { wish(LoopOver{stretch}); });
    menu.addAction(tr("Phrase…"), [=, &typing] { typing.stretchName(SpanKind::Phrase, stretch); });
    menu.addAction(tr("Chorus…"), [=, &typing] { typing.stretchName(SpanKind::Chorus, stretch); });
    menu.addAction(tr("Section…"), [=, &typing] { typing.stretchName(SpanKind::Section, stretch); });
}

/// The name as an entry of a menu: an “&” is no mnemonic, and one without a name is called what it is.
QString entryOf(const Span& span) {
    if (!span.name.empty()) return QString::fromStdString(span.name).replace(u'&', QStringLiteral("&&"));
    return span.kind == SpanKind::Phrase   ? tr("Phrase")
           : span.kind == SpanKind::Chorus ? tr("Chorus")
                                           : tr("Section");
}

void addSpans(QMenu& menu, const SheetModel& model, const SheetHit& hit, const SheetTyping& typing,
              const Wishing& wish) {
    menu.addSeparator();
    for (const SpanKind kind : {SpanKind::Phrase, SpanKind::Chorus, SpanKind::Section}) {
        const Span* span = model.study->spanAt(kind, hit.place);
        if (!span) continue;
        const SpanId id = span->id;
        const Range<Seconds> range = span->range;
        QMenu* own = menu.addMenu(entryOf(*span));
        own->addAction(tr("Loop"), [=] { wish(LoopOver{range}); });
        own->addAction(tr("Another name…"), [=, &typing] { typing.spanName(id); });
        own->addAction(tr("Remove, keep its notes"), [=] { wish(DropSpan{id}); });
    }
}

void addLooseEnds(QMenu& menu, const SheetHit& hit, const SheetTyping& typing, const Wishing& wish) {
    menu.addSeparator();
    if (!hit.looseEnd) {
        menu.addAction(tr("Loose end here…"), [=, &typing] { typing.looseEnd(hit.place); });
        return;
    }
    const LooseEndId id = *hit.looseEnd;
    menu.addAction(tr("Tick off"), [=] { wish(TickLooseEnd{id}); });
    menu.addAction(tr("Other words…"), [=, &typing] { typing.looseEndText(id); });
}

} // namespace

void fillSheetMenu(QMenu& menu, const SheetModel& model, const SheetHit& hit, const SheetTyping& typing,
                   const Wishing& wish) {
    addMarks(menu, model, hit, wish);
    addChords(menu, model, hit, typing, wish);
    addStretch(menu, model, hit, typing, wish);
    addSpans(menu, model, hit, typing, wish);
    addLooseEnds(menu, hit, typing, wish);
}

} // namespace earwright::ui
