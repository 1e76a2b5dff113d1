#include "ui/page/PagePainter.h"

#include "core/engraving/Extent.h"

#include <QPainterPath>
#include <QTransform>

namespace earwright::ui {

namespace {

QPointF point(const PagePoint& at) {
    return {at.x, at.y};
}

/// What a text may take beside the room its estimated width gives it, as a share of that width.
constexpr double roomBesideText = 0.25;

class ShapePainter {
public:
    ShapePainter(QPainter& on, MusicFont& with, const PageLook& in, const std::set<NoteId>& chosen,
                 const std::optional<PageBox>& part)
        : painter(on), font(with), look(in), selected(chosen), exposed(part) {}

    void paint(const PlacedShapes& shapes) {
        for (const PlacedLine& line : shapes.lines)
            if (shows(boxOf(line))) paint(line);
        for (const PlacedBeam& beam : shapes.beams)
            if (shows(boxOf(beam))) paint(beam);
        for (const PlacedCurve& curve : shapes.curves)
            if (shows(boxOf(curve))) paint(curve);
        for (const PlacedGlyph& glyph : shapes.glyphs)
            if (shows(boxOf(glyph, font.metrics()))) paint(glyph);
        for (const PlacedText& text : shapes.texts)
            if (shows(roomOf(text))) paint(text);
    }

private:
    bool shows(const PageBox& box) const { return !exposed || box.overlaps(*exposed); }

    static PageBox roomOf(const PlacedText& text) {
        PageBox box = boxOf(text);
        const double beside = roomBesideText * box.width();
        return {box.left - beside, box.top, box.right + beside, box.bottom};
    }

    QColor colorOf(const std::optional<NoteId>& note) const {
        return note && selected.contains(*note) ? look.selected : look.ink;
    }

    void paint(const PlacedLine& line) {
        painter.setPen(QPen(colorOf(line.note), line.thickness, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(point(line.from), point(line.to));
    }

    void paint(const PlacedBeam& beam) {
        QPolygonF corners;
        for (const PagePoint& corner : beam.corners)
            corners << point(corner);
        painter.setPen(Qt::NoPen);
        painter.setBrush(look.ink);
        painter.drawPolygon(corners);
    }

    /// Two curves from end to end, apart in the middle.
    void paint(const PlacedCurve& curve) {
        const auto& p = curve.points;
        // A curve lies three quarters of the way to its control points.
        const double apart = (curve.midThickness - curve.endThickness) / 2 * 4 / 3;
        const QPointF by = apart * point(curve.across());
        QPainterPath path(point(p[0]));
        path.cubicTo(point(p[1]) - by, point(p[2]) - by, point(p[3]));
        path.cubicTo(point(p[2]) + by, point(p[1]) + by, point(p[0]));
        const QColor color = colorOf(curve.note);
        painter.setPen(QPen(color, curve.endThickness, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.setBrush(color);
        painter.drawPath(path);
    }

    void paint(const PlacedGlyph& glyph) {
        QTransform place = QTransform::fromTranslate(glyph.at.x, glyph.at.y);
        place.scale(glyph.scale, glyph.scale);
        painter.setPen(Qt::NoPen);
        painter.setBrush(colorOf(glyph.note));
        painter.drawPath(place.map(font.outline(glyph.glyph)));
    }

    void paint(const PlacedText& text) {
        const QFont& face = font.face(text.role, text.size);
        const QString words = QString::fromStdString(text.text);
        const double width = QFontMetricsF(face).horizontalAdvance(words) / MusicFont::pixelsOfSpace;
        const double left = text.anchor == TextAnchor::Left     ? text.at.x
                            : text.anchor == TextAnchor::Centre ? text.at.x - width / 2
                                                                : text.at.x - width;
        if (text.role == TextRole::FretNumber) {
            const PageBox box = boxOf(text);
            painter.fillRect(QRectF(left, box.top, width, box.height()), look.paper);
        }
        painter.save();
        painter.translate(left, text.at.y);
        painter.scale(1 / MusicFont::pixelsOfSpace, 1 / MusicFont::pixelsOfSpace);
        if (look.lettersAsOutlines) {
            QPainterPath letters;
            letters.addText(QPointF(0, 0), face, words);
            painter.fillPath(letters, colorOf(text.note));
        } else {
            painter.setFont(face);
            painter.setPen(colorOf(text.note));
            painter.drawText(QPointF(0, 0), words);
        }
        painter.restore();
    }

    QPainter& painter;
    MusicFont& font;
    const PageLook& look;
    const std::set<NoteId>& selected;
    const std::optional<PageBox>& exposed;
};

} // namespace

void paintShapes(QPainter& painter, const PlacedShapes& shapes, MusicFont& font, const PageLook& look,
                 const std::set<NoteId>& selected, const std::optional<PageBox>& exposed) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    ShapePainter(painter, font, look, selected, exposed).paint(shapes);
    painter.restore();
}

} // namespace earwright::ui
