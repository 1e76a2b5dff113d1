#include "ui/page/PageCanvas.h"

#include "ui/page/PagePainter.h"
#include "ui/theme/Theme.h"

#include <QMouseEvent>
#include <QPainter>

#include <cmath>

namespace earwright::ui {

namespace {

constexpr double gap = 2;

QRectF rectOf(const PageBox& box) {
    return {box.left, box.top, box.width(), box.height()};
}

} // namespace

PageCanvas::PageCanvas(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Staff and tablature"));
    setToolTip(tr("Press a note to choose it in the grid"));
}

void PageCanvas::show(std::shared_ptr<MusicFont> with, std::vector<EngravedSystem> systems) {
    font = std::move(with);
    lines.clear();
    double y = gap / 2;
    double width = 0;
    for (EngravedSystem& system : systems) {
        const PageBox extent = system.extent;
        lines.push_back({std::move(system), {0.5 - std::min(0.0, extent.left), y - extent.top}});
        y += extent.height() + gap;
        width = std::max(width, extent.right);
    }
    setFixedHeight(static_cast<int>(std::ceil(y * pixelsOfSpace)));
    setMinimumWidth(static_cast<int>(std::ceil(width * pixelsOfSpace)));
    update();
}

void PageCanvas::select(const std::optional<NoteId>& note) {
    if (note == selected) return;
    selected = note;
    update();
}

void PageCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), color(Role::Page));
    if (!font) return;
    painter.scale(pixelsOfSpace, pixelsOfSpace);
    PageLook look{color(Role::Ink), color(Role::Page), color(Role::Written), color(Role::Shade)};
    std::set<NoteId> chosen;
    if (selected) chosen.insert(*selected);
    for (const Line& line : lines) {
        painter.save();
        painter.translate(line.origin.x, line.origin.y);
        // The selected note differs by its ground as well, not by its colour alone.
        for (const NoteBox& note : line.system.notes)
            if (chosen.contains(note.note))
                painter.fillRect(rectOf(note.box).adjusted(-0.4, -0.4, 0.4, 0.4), look.ground);
        paintShapes(painter, line.system.shapes, *font, look, chosen);
        painter.restore();
    }
}

QRect PageCanvas::pixelsOf(const PageBox& box) {
    const QRectF place = rectOf(box);
    return QRectF(place.topLeft() * pixelsOfSpace, place.size() * pixelsOfSpace).toAlignedRect();
}

QRect PageCanvas::placeOf(NoteId note) const {
    for (const Line& line : lines)
        for (const NoteBox& box : line.system.notes)
            if (box.note == note) return pixelsOf(box.box.moved(line.origin));
    return {};
}

QRect PageCanvas::lineOf(NoteId note) const {
    for (const Line& line : lines)
        for (const NoteBox& box : line.system.notes)
            if (box.note == note) return pixelsOf(line.system.extent.moved(line.origin));
    return {};
}

std::optional<NoteId> PageCanvas::noteAt(const QPointF& pixel) const {
    const PagePoint at{pixel.x() / pixelsOfSpace, pixel.y() / pixelsOfSpace};
    std::optional<NoteId> nearest;
    double least = 1.2; // staff spaces beside a note
    for (const Line& line : lines)
        for (const NoteBox& note : line.system.notes) {
            const PageBox box = note.box.moved(line.origin);
            const double dx = std::max({box.left - at.x, at.x - box.right, 0.0});
            const double dy = std::max({box.top - at.y, at.y - box.bottom, 0.0});
            if (const double apart = std::hypot(dx, dy); apart < least) {
                least = apart;
                nearest = note.note;
            }
        }
    return nearest;
}

void PageCanvas::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return QWidget::mousePressEvent(event);
    if (const auto note = noteAt(event->position())) emit noteChosen(*note);
}

} // namespace earwright::ui
