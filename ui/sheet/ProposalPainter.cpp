#include "ui/sheet/ProposalPainter.h"

#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"

#include <QPolygonF>

namespace earwright::ui {

namespace {

constexpr double sureFrom = 0.8;
constexpr double likelyFrom = 0.5;
constexpr double lozenge = 4.5;
constexpr double lineWidth = 1.2;
/// The part of the box that the stub of an unsure beat is long.
constexpr double stub = 0.3;

} // namespace

Sureness surenessOf(const ProposedBeat& beat) {
    if (beat.confidence >= sureFrom) return Sureness::Sure;
    return beat.confidence >= likelyFrom ? Sureness::Likely : Sureness::Unsure;
}

void ProposalPainter::paint(QPainter& painter, std::size_t line) const {
    const Range<Seconds> time = geometry.lines()[line].time;
    for (const ProposedBeat& beat : model.proposal)
        if (time.contains(beat.time))
            paintBeat(painter, geometry.box(line), geometry.x(line, beat.time), beat);
}

void ProposalPainter::paintBeat(QPainter& painter, const QRectF& box, double x,
                                const ProposedBeat& beat) const {
    const Sureness sureness = surenessOf(beat);
    const QColor ink = color(Role::Proposal);
    const double width = beat.barPosition == 1 ? spacing::hair : lineWidth;
    QPen dashes(ink, width, Qt::DashLine);
    dashes.setDashPattern(sureness == Sureness::Unsure ? QList<qreal>{1, 3} : QList<qreal>{4, 3});
    painter.setPen(dashes);
    const double length = box.height() * (sureness == Sureness::Unsure ? stub : 1);
    painter.drawLine(QPointF(x, box.top() + lozenge), QPointF(x, box.top() + length));
    const QPolygonF head({QPointF(x, box.top() - lozenge), QPointF(x + lozenge, box.top()),
                          QPointF(x, box.top() + lozenge), QPointF(x - lozenge, box.top())});
    painter.setPen(QPen(ink, lineWidth));
    painter.setBrush(sureness == Sureness::Sure ? ink : color(Role::Page));
    painter.drawPolygon(head);
    painter.setBrush(Qt::NoBrush);
}

} // namespace earwright::ui
