#include "ui/page/PageCanvas.h"

#include "core/engraving/Extent.h"
#include "core/engraving/LineMoments.h"
#include "ui/page/PagePainter.h"
#include "ui/theme/Theme.h"

#include <QMouseEvent>
#include <QPaintEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double gap = 2;
constexpr double usualPixels = 6;
constexpr double playheadFoot = 3;
/// In staff spaces.
constexpr double playheadAbove = 2;
/// The ground behind a selected note, beyond its box.
constexpr double groundEdge = 0.4;
/// Round about what is exposed: soft edges of shapes, in staff spaces.
constexpr double softEdge = 0.5;

QRectF rectOf(const PageBox& box) {
    return {box.left, box.top, box.width(), box.height()};
}

} // namespace

PageCanvas::PageCanvas(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Staff and tablature"));
    setToolTip(tr("Press a note to choose it in the grid"));
}

double PageCanvas::pixelsAt(double zoom) {
    return usualPixels * zoom;
}

void PageCanvas::show(std::shared_ptr<MusicFont> with, std::vector<EngravedSystem> systems, double zoom) {
    font = std::move(with);
    pixelsOfSpace = pixelsAt(zoom);
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

void PageCanvas::select(std::set<NoteId> notes) {
    for (const NoteId note : selected)
        if (!notes.contains(note)) updateNote(note);
    for (const NoteId note : notes)
        if (!selected.contains(note)) updateNote(note);
    selected = std::move(notes);
}

void PageCanvas::updateNote(NoteId note) {
    // All of it is coloured, also what reaches far: slides, bends, waves of a trill. A letter may be wider
    // than it is taken for.
    constexpr double beside = 1;
    for (const Line& line : lines) {
        const PageBox room = inkOf(note, line.system);
        if (room == PageBox{}) continue;
        const PageBox wider{room.left - beside, room.top - beside, room.right + beside, room.bottom + beside};
        update(pixelsOf(wider.moved(line.origin)));
    }
}

PageBox PageCanvas::inkOf(NoteId note, const EngravedSystem& system) const {
    PageBox ink;
    for (const NoteBox& box : system.notes)
        if (box.note == note) ink = around(ink, box.box);
    for (const PlacedGlyph& glyph : system.shapes.glyphs)
        if (glyph.note == note) ink = around(ink, boxOf(glyph, font->metrics()));
    const auto add = [&](const auto& shapes) {
        for (const auto& shape : shapes)
            if (shape.note == note) ink = around(ink, boxOf(shape));
    };
    add(system.shapes.lines);
    add(system.shapes.curves);
    add(system.shapes.texts);
    return ink;
}

void PageCanvas::setPlayhead(const std::optional<Beats>& place) {
    if (place == playhead) return;
    const QRect before = playheadBox();
    playhead = place;
    update(before);
    update(playheadBox());
}

int PageCanvas::lineAt(const Beats& place) const {
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto& moments = lines[i].system.moments;
        if (!moments.empty() && moments.front().at <= place && place < moments.back().at)
            return static_cast<int>(i);
    }
    return -1;
}

int PageCanvas::heightOfWholeLines(int most) const {
    if (height() <= most) return height();
    int whole = 0;
    for (int line = 0; line < static_cast<int>(lines.size()); ++line) {
        const int bottom = boxOfLine(line).bottom() + static_cast<int>(gap / 2 * pixelsOfSpace);
        if (bottom <= most) whole = bottom;
    }
    return whole > 0 ? whole : most;
}

QRect PageCanvas::boxOfLine(int line) const {
    const Line& shown = lines[static_cast<std::size_t>(line)];
    return pixelsOf(shown.system.extent.moved(shown.origin));
}

QRect PageCanvas::playheadBox() const {
    const int line = playhead ? lineAt(*playhead) : -1;
    if (line < 0) return {};
    const Line& shown = lines[static_cast<std::size_t>(line)];
    const double x = (shown.origin.x + LineMoments(shown.system.moments).xAt(*playhead)) * pixelsOfSpace;
    const QRect box = boxOfLine(line);
    // From over the staff's top line, which is the line's origin: what is said above stays readable.
    const double top = std::max<double>(box.top(), (shown.origin.y - playheadAbove) * pixelsOfSpace);
    return QRectF(x - playheadFoot - 1, top, 2 * playheadFoot + 2, box.bottom() - top).toAlignedRect();
}

void PageCanvas::paintPlayhead(QPainter& painter) const {
    const QRectF box = playheadBox();
    if (box.isEmpty()) return;
    painter.resetTransform();
    painter.setPen(QPen(color(Role::Ink), 1));
    const QPointF top(box.center().x(), box.top());
    painter.drawLine(top, QPointF(top.x(), box.bottom()));
    // A small foot on top tells it from a bar line, as in the grid.
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::Ink));
    const QPointF foot[] = {{top.x() - playheadFoot, top.y()},
                            {top.x() + playheadFoot, top.y()},
                            {top.x(), top.y() + 1.5 * playheadFoot}};
    painter.drawPolygon(foot, 3);
}

void PageCanvas::paintEvent(QPaintEvent* event) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(event->rect(), color(Role::Page));
    if (!font) return;
    painter.scale(pixelsOfSpace, pixelsOfSpace);
    const PageBox exposed = spacesOf(event->rect());
    const PageLook look{color(Role::Ink), color(Role::Page), color(Role::Written), color(Role::Shade)};
    for (const Line& line : lines)
        if (line.system.extent.moved(line.origin).overlaps(exposed)) paintLine(painter, line, exposed, look);
    paintPlayhead(painter);
}

void PageCanvas::paintLine(QPainter& painter, const Line& line, const PageBox& exposed,
                           const PageLook& look) const {
    painter.save();
    painter.translate(line.origin.x, line.origin.y);
    // The selected note differs by its ground as well, not by its colour alone.
    for (const NoteBox& note : line.system.notes)
        if (selected.contains(note.note))
            painter.fillRect(rectOf(note.box).adjusted(-groundEdge, -groundEdge, groundEdge, groundEdge),
                             look.ground);
    paintShapes(painter, line.system.shapes, *font, look, selected,
                exposed.moved({-line.origin.x, -line.origin.y}));
    painter.restore();
}

PageBox PageCanvas::spacesOf(const QRect& pixels) const {
    return {pixels.left() / pixelsOfSpace - softEdge, pixels.top() / pixelsOfSpace - softEdge,
            (pixels.right() + 1) / pixelsOfSpace + softEdge,
            (pixels.bottom() + 1) / pixelsOfSpace + softEdge};
}

QRect PageCanvas::pixelsOf(const PageBox& box) const {
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
