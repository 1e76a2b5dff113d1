#include "ui/desk/MarkingDesk.h"

#include "core/study/ChartEdits.h"
#include "core/study/LooseEndEdits.h"
#include "core/study/MarkEdits.h"
#include "core/study/MeterEdits.h"
#include "core/study/PlayedTime.h"
#include "core/study/SpanEdits.h"
#include "core/study/WrittenRun.h"
#include "ui/desk/EarSteps.h"
#include "ui/desk/StudyDialog.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/sheet/FormEditor.h"
#include "ui/theme/PlaceText.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr Seconds markReach{0.25};

QString nameOf(SpanKind kind) {
    switch (kind) {
    case SpanKind::Phrase:
        return MarkingDesk::tr("mark phrase");
    case SpanKind::Chorus:
        return MarkingDesk::tr("mark chorus");
    case SpanKind::Section:
        return MarkingDesk::tr("mark section");
    }
    return {};
}

/// The bar that is heard at a place. The ear stands on a frame, which may lie a hair before a bar line.
std::int64_t barAt(const Study& study, Seconds place) {
    constexpr double hair = 1e-4;
    return std::llround(std::floor(study.meters().barsAt(study.beatMap.beatsAt(place)) + hair)) + 1;
}

/// Where the ear stands, finely enough for any division of a beat.
constexpr int finest = 12;

QString barsOf(const Study& study, const Range<Beats>& range) {
    const MeterMap meters = study.meters();
    const std::int64_t behind = meters.barOf(range.end);
    return barsText(meters.barOf(range.begin), meters.isBarLine(range.end) ? behind - 1 : behind);
}

} // namespace

/// One answer for each kind of wish.
struct MarkingDesk::Granting {
    MarkingDesk& desk;
    const Study& study = desk.session.study();

    void operator()(std::monostate) const {}
    void operator()(const HearFrom& wish) const {
        desk.sheet.setStretch(std::nullopt);
        emit desk.placeChosen(wish.place);
    }
    void operator()(const ChooseStretch& wish) const { desk.sheet.setStretch(wish.stretch); }
    void operator()(const LoopOver& wish) const {
        desk.sheet.setStretch(std::nullopt);
        desk.listening.loopOver(wish.loop);
    }
    void operator()(const PlayAt& wish) const { desk.listening.playAt(wish.percent / 100.0); }
    void operator()(const MoveMarkTo& wish) const {
        desk.session.apply(tr("move mark"), moveMark(study, wish.index, wish.place));
    }
    void operator()(const RemoveMarkAt& wish) const {
        desk.session.apply(tr("remove mark"), earwright::removeMark(study, wish.index));
    }
    void operator()(const MarkBarAt& wish) const {
        desk.session.apply(tr("mark bar"), earwright::tapBar(study, wish.place));
    }
    void operator()(const MarkBeatAt& wish) const {
        desk.session.apply(tr("mark beat"), insertMark(study, wish.place));
    }
    void operator()(const CountBarsFrom& wish) const {
        desk.session.apply(tr("count bars from here"), startBarOneAt(study, wish.place));
    }
    void operator()(const NameStretch& wish) const {
        desk.sheet.setStretch(std::nullopt);
        desk.session.apply(nameOf(wish.kind),
                           addSpan(study, wish.kind, wish.name.toStdString(), wish.stretch).study);
    }
    void operator()(const NameSpan& wish) const {
        desk.session.apply(tr("rename"), earwright::renameSpan(study, wish.span, wish.name.toStdString()));
    }
    void operator()(const DropSpan& wish) const {
        desk.session.apply(tr("remove name"), removeSpan(study, wish.span));
    }
    void operator()(const ChooseSpan& wish) const {
        const Span* span = study.span(wish.span);
        if (!span) return;
        desk.sheet.setStretch(span->range);
        emit desk.placeChosen(span->range.begin);
    }
    void operator()(const TypeChords& wish) const {
        desk.session.apply(tr("chords"), overrideBars(study, wish.bar, wish.text.toStdString()));
    }
    void operator()(const KeepToForm& wish) const {
        desk.session.apply(tr("chords as in the form"), clearOverride(study, wish.bar));
    }
    void operator()(const KeepLooseEnd& wish) const {
        desk.session.apply(tr("loose end"), addLooseEnd(study, wish.place, wish.text.toStdString()).study);
    }
    void operator()(const RewordLooseEnd& wish) const {
        desk.session.apply(tr("word of a loose end"),
                           retextLooseEnd(study, wish.looseEnd, wish.text.toStdString()));
    }
    void operator()(const TickLooseEnd& wish) const {
        desk.session.apply(tr("tick off"), setLooseEndDone(study, wish.looseEnd, true));
    }
};

MarkingDesk::MarkingDesk(DeskSession& desk, ListeningDesk& ears, ChorusSheetView& view, QObject* parent)
    : QObject(parent), session(desk), listening(ears), sheet(view) {
    connect(&sheet, &ChorusSheetView::wished, this, &MarkingDesk::grant);
}

void MarkingDesk::grant(const SheetWish& wish) {
    if (session.isOpen()) std::visit(Granting{*this}, wish);
}

void MarkingDesk::tapBar() {
    session.apply(tr("bar"), earwright::tapBar(session.study(), listening.ear()));
}

void MarkingDesk::tapBeat() {
    session.apply(tr("beat"), earwright::tapBeat(session.study(), listening.ear()));
}

std::optional<std::size_t> MarkingDesk::markHere(Seconds ear) const {
    return session.study().beatMap.markNear(ear, markReach);
}

void MarkingDesk::removeMark() {
    if (const auto index = markHere(listening.place())) grant(RemoveMarkAt{*index});
}

void MarkingDesk::barOneHere() {
    grant(CountBarsFrom{listening.place()});
}

void MarkingDesk::askForPassage(PassageDialog::Subject subject, QWidget* window) {
    const Study& study = session.study();
    const MeterMap meters = study.meters();
    const bool isAtEar = study.beatMap.hasTempo() && subject != PassageDialog::Subject::Pickup;
    const auto chosen = isAtEar ? sheet.stretch() : std::nullopt;
    std::int64_t bar = 1;
    std::optional<std::int64_t> bars;
    if (chosen) {
        bar = meters.nearestBar(study.beatMap.beatsAt(chosen->begin));
        bars = std::max<std::int64_t>(meters.nearestBar(study.beatMap.beatsAt(chosen->end)) - bar, 1);
    } else if (isAtEar) {
        bar = barAt(study, listening.place());
    }
    const auto apply = [this](const PassageChange& change) -> std::optional<QString> {
        Result<Study> changed = changePassage(session.study(), change);
        if (!changed) return QString::fromStdString(changed.error().message);
        session.apply(tr("meter, key, swing, tempo"), std::move(*changed));
        return std::nullopt;
    };
    auto* dialog = new PassageDialog(study, std::max<std::int64_t>(bar, 1), bars, subject, apply, window);
    openForThisStudy(*dialog, session);
}

std::optional<Range<Seconds>> MarkingDesk::stretch() const {
    if (sheet.stretch()) return sheet.stretch();
    return session.study().practice.loop;
}

void MarkingDesk::nameStretch(SpanKind kind) {
    if (const auto chosen = stretch()) sheet.typeName(kind, *chosen);
}

std::optional<Range<Beats>> MarkingDesk::writtenRunHere(const std::optional<Beats>& inGrid) const {
    const Study& study = session.study();
    if (!study.beatMap.hasTempo()) return std::nullopt;
    const Beats ear = Beats::nearest(study.beatMap.beatsAt(listening.place()), finest);
    return writtenRunAt(study, inGrid.value_or(ear));
}

void MarkingDesk::markWrittenRuns(const Range<Seconds>& stretch) {
    Study study = session.study();
    bool isAny = false;
    for (const Note& note : notesPlayedIn(study, stretch)) {
        if (study.spanAt(SpanKind::Phrase, study.beatMap.seconds(note.onset))) continue;
        const auto run = writtenRunAt(study, note.onset);
        if (!run) continue;
        study =
            addSpan(study, SpanKind::Phrase, barsOf(study, *run).toStdString(), study.beatMap.seconds(*run))
                .study;
        isAny = true;
    }
    if (isAny) session.apply(nameOf(SpanKind::Phrase), std::move(study));
}

std::optional<SpanId> MarkingDesk::markWrittenRun(const std::optional<Beats>& inGrid) {
    const auto run = writtenRunHere(inGrid);
    if (!run) return std::nullopt;
    const Study& study = session.study();
    StudyWithSpan marked =
        addSpan(study, SpanKind::Phrase, barsOf(study, *run).toStdString(), study.beatMap.seconds(*run));
    session.apply(nameOf(SpanKind::Phrase), std::move(marked.study));
    return marked.id;
}

void MarkingDesk::renameSpan() {
    if (const Span* span = innermostSpan(session.study(), listening.place())) sheet.typeNewName(span->id);
}

void MarkingDesk::removeSpanHere() {
    if (const Span* span = innermostSpan(session.study(), listening.place())) grant(DropSpan{span->id});
}

void MarkingDesk::toPhrase(int step) {
    const Span* phrase = step > 0 ? nextPhrase(session.study(), listening.place())
                                  : previousPhrase(session.study(), listening.place());
    if (phrase) emit placeChosen(phrase->range.begin);
}

void MarkingDesk::chordsHere() {
    const Study& study = session.study();
    sheet.typeChords(barAt(study, listening.place()));
}

void MarkingDesk::askForForm(QWidget* window) {
    auto* dialog = new FormEditor(session.study(), window);
    connect(dialog, &QDialog::accepted, this, [this, dialog] {
        Study next = setForm(session.study(), dialog->text().toStdString());
        if (const auto layout = dialog->chorusLayout())
            next = layOutChoruses(next, layout->firstBar, layout->barCount, layout->count);
        session.apply(tr("form"), std::move(next));
    });
    openForThisStudy(*dialog, session);
}

void MarkingDesk::looseEndHere() {
    sheet.typeLooseEnd(listening.ear());
}

void MarkingDesk::nextLooseEnd() {
    if (const LooseEnd* end = nextOpenLooseEnd(session.study(), listening.place()))
        emit placeChosen(end->time);
}

void MarkingDesk::tickLooseEnd() {
    if (const LooseEnd* end = looseEndNear(session.study(), listening.place()))
        session.apply(tr("tick off"), setLooseEndDone(session.study(), end->id, !end->done));
}

} // namespace earwright::ui
