// What the chorus sheet shows under the pointer: its shape, a tip, and the menus that open there.
#include "ui/sheet/ChordAnswerText.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/sheet/ClimbMenu.h"
#include "ui/sheet/PillMenu.h"
#include "ui/theme/PlaceText.h"

#include <QContextMenuEvent>

namespace earwright::ui {

void ChorusSheetView::contextMenuEvent(QContextMenuEvent* event) {
    if (model.duration <= Seconds(0)) return;
    const QPointF ear(geometry.x(geometry.lineOf(model.heard), model.heard),
                      geometry.box(geometry.lineOf(model.heard)).center().y());
    const bool byKey = event->reason() == QContextMenuEvent::Keyboard;
    const QPointF at = byKey ? ear : onSheet(QPointF(event->pos()));
    openMenu(hitAt(model, geometry, at),
             byKey ? viewport()->mapToGlobal(inViewport({at, QSizeF(1, 1)}).topLeft()) : event->globalPos());
}

void ChorusSheetView::openMenu(const SheetHit& hit, const QPoint& at) {
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    fillSheetMenu(*menu, model, hit, typing, [this](const SheetWish& wish) { emit wished(wish); });
    menu->popup(at);
}

void ChorusSheetView::openClimbMenu() {
    if (const auto loop = model.loop()) reveal(loop->begin);
    openPillMenu(SheetPart::PillClimb);
}

void ChorusSheetView::openPillMenu(SheetPart kind) {
    const auto pill = LoopPill::on(model, geometry);
    const PillPart* part = pill ? pill->part(kind) : nullptr;
    if (!part) return;
    if (kind == SheetPart::PillClimb) {
        auto* menu = new ClimbMenu(model.climb, model.climbing, this);
        connect(menu, &ClimbMenu::chosen, this, &ChorusSheetView::climbChosen);
        connect(menu, &ClimbMenu::stepBackChosen, this, &ChorusSheetView::climbStepBackChosen);
        return popUpAt(*menu, *part);
    }
    if (kind == SheetPart::PillGap) {
        auto* menu = new PillMenu(tr("Silence after each pass"), gapChoices(), model.gapBeats, this);
        connect(menu, &PillMenu::chosen, this, &ChorusSheetView::gapChosen);
        return popUpAt(*menu, *part);
    }
    auto* menu = new PillMenu(tr("Yours in trade"), tradeChoices(model.speedSteps), model.yoursPercent, this);
    connect(menu, &PillMenu::chosen, this, &ChorusSheetView::yoursSpeedChosen);
    popUpAt(*menu, *part);
}

void ChorusSheetView::popUpAt(QMenu& menu, const PillPart& part) {
    menu.setAttribute(Qt::WA_DeleteOnClose);
    menu.popup(viewport()->mapToGlobal(inViewport(part.place).bottomLeft()));
}

void ChorusSheetView::showPointer(const SheetHit& hit) {
    switch (hit.part) {
    case SheetPart::LoopStart:
    case SheetPart::LoopEnd:
    case SheetPart::Mark:
        viewport()->setCursor(Qt::SizeHorCursor);
        return;
    case SheetPart::PillStep:
    case SheetPart::PillClimb:
    case SheetPart::PillGap:
    case SheetPart::PillTrade:
    case SheetPart::Phrase:
    case SheetPart::Heading:
    case SheetPart::LooseEnd:
        viewport()->setCursor(Qt::PointingHandCursor);
        return;
    case SheetPart::Chords:
        viewport()->setCursor(Qt::IBeamCursor);
        return;
    case SheetPart::Pill:
    case SheetPart::Ground:
    case SheetPart::Nothing:
        viewport()->setCursor(Qt::ArrowCursor);
        return;
    }
}

void ChorusSheetView::showTip(const SheetHit& hit) {
    QString tip;
    if (hit.part == SheetPart::Chords) {
        tip = tr("Double-click to type them. %1").arg(chordsTitle(*hit.bar));
        if (const CheckedChord* checked = model.chordAnswerAt(hit.place))
            tip = chordAnswerText(*checked) + QLatin1Char('\n') + tip;
    }
    if (hit.part == SheetPart::Mark)
        tip = tr("Mark at %1; drag to move it, Ctrl catches on onsets")
                  .arg(placeText(model.study->beatMap.marks()[hit.mark].position, model.study->meters()));
    if (hit.part == SheetPart::PillClimb) tip = climbTip(model.climb, model.climbing);
    if (hit.part == SheetPart::PillGap) tip = gapTip(model.gapBeats);
    if (hit.part == SheetPart::PillTrade) tip = tradeTip();
    if (hit.part == SheetPart::LooseEnd)
        for (const LooseEnd& end : model.study->looseEnds)
            if (end.id == *hit.looseEnd) tip = QString::fromStdString(end.text);
    viewport()->setToolTip(tip);
}

} // namespace earwright::ui
