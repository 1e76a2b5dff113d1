// What the pointer and the wheel do on the chorus sheet; what shows under the pointer is in
// ChorusSheetPointing.cpp.
#include "ui/sheet/ChorusSheetView.h"

#include <QMouseEvent>
#include <QScrollBar>
#include <QVariantAnimation>
#include <QWheelEvent>

#include <algorithm>
#include <cstdlib>
#include <variant>

namespace earwright::ui {

namespace {

Catch catchingOf(const QMouseEvent& event) {
    return event.modifiers() & Qt::ControlModifier ? Catch::Onsets : Catch::BarLines;
}

} // namespace

void ChorusSheetView::wheelEvent(QWheelEvent* event) {
    if (!(event->modifiers() & Qt::ControlModifier)) {
        glide->stop();
        return QAbstractScrollArea::wheelEvent(event);
    }
    event->accept();
    const int notches = wheel.take(event->angleDelta().y());
    for (int i = 0; i < std::abs(notches); ++i)
        stepBarsPerLine(notches > 0 ? -1 : 1);
}

void ChorusSheetView::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || model.duration <= Seconds(0)) return;
    glide->stop();
    const QPointF point = onSheet(event->position());
    const SheetHit hit = hitAt(model, geometry, point);
    if (hit.part == SheetPart::PillClimb || hit.part == SheetPart::PillGap ||
        hit.part == SheetPart::PillTrade)
        return openPillMenu(hit.part);
    tool.press(hit, point, model);
}

void ChorusSheetView::mouseMoveEvent(QMouseEvent* event) {
    // The release was somebody else's, a menu's for instance.
    if (tool.isActive() && !(event->buttons() & Qt::LeftButton)) letGo();
    if (tool.isActive()) scrollTowards(event->position());
    const QPointF point = onSheet(event->position());
    if (tool.isActive()) {
        tool.move(point, catchingOf(*event), model, geometry);
        redraw();
        return;
    }
    const SheetHit hit = hitAt(model, geometry, point);
    reachFor(markUnder(model, geometry, point));
    showPointer(hit);
    showTip(hit);
}

void ChorusSheetView::scrollTowards(const QPointF& place) {
    QScrollBar* const bar = verticalScrollBar();
    if (place.y() < 0) bar->setValue(bar->value() - bar->singleStep());
    if (place.y() > viewport()->height()) bar->setValue(bar->value() + bar->singleStep());
}

void ChorusSheetView::reachFor(std::optional<std::size_t> mark) {
    if (mark == model.markInReach) return;
    model.markInReach = mark;
    viewport()->update();
}

bool ChorusSheetView::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::Leave) reachFor(std::nullopt);
    return QAbstractScrollArea::viewportEvent(event);
}

void ChorusSheetView::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || !tool.isActive()) return;
    const SheetWish wish = tool.release(onSheet(event->position()), catchingOf(*event), model, geometry);
    redraw();
    if (!std::holds_alternative<std::monostate>(wish)) emit wished(wish);
}

void ChorusSheetView::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return;
    const SheetHit hit = hitAt(model, geometry, onSheet(event->position()));
    // Two steps of the speed, quickly.
    if (hit.part == SheetPart::PillStep) return mousePressEvent(event);
    tool.cancel(model);
    if (hit.part == SheetPart::Chords) typeChords(*hit.bar);
    if (hit.span) typeNewName(*hit.span);
    if (hit.looseEnd) typeLooseEndAgain(*hit.looseEnd);
}

bool ChorusSheetView::letGo() {
    if (!tool.isActive()) return false;
    tool.cancel(model);
    redraw();
    return true;
}

} // namespace earwright::ui
