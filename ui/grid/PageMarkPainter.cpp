#include "ui/grid/PageMarkPainter.h"

#include "ui/grid/PageMarkEdits.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <algorithm>

namespace earwright::ui {

namespace {

/// The lane has a line for dynamics and hairpins and one for words.
constexpr double dynamicsHeight = 17;

QFont dynamicFont() {
    QFont lettering = font(TextStyle::ChordSmall);
    lettering.setItalic(true);
    lettering.setPixelSize(14);
    return lettering;
}

void paintHairpins(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    painter.setPen(QPen(color(Role::Written), 1.3, Qt::SolidLine, Qt::RoundCap));
    const double y = geometry.markLane().top() + dynamicsHeight / 2;
    const QFontMetricsF metrics(dynamicFont());
    for (const Hairpin& hairpin : scene.study->page.hairpins) {
        if (!hairpin.range.overlaps(scene.columns.range())) continue;
        double left = geometry.x(hairpin.range.begin) + 1;
        double right = geometry.x(hairpin.range.end) - 3;
        // It begins behind a dynamic at its start and ends before one under it.
        for (const DynamicMark& mark : scene.study->page.dynamics) {
            const double x = geometry.x(mark.at);
            if (x < left + 1 && x + 2 > left - 4)
                left += metrics.horizontalAdvance(dynamicText(mark.level)) + 4;
            if (x > left && x < right) right = std::max(left + 6, x - 3);
        }
        const double open = hairpin.kind == HairpinKind::Louder ? right : left;
        const double closed = hairpin.kind == HairpinKind::Louder ? left : right;
        painter.drawLine(QPointF(closed, y), QPointF(open, y - 4));
        painter.drawLine(QPointF(closed, y), QPointF(open, y + 4));
    }
}

void paintDynamics(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const QRectF lane = geometry.markLane();
    painter.setFont(dynamicFont());
    painter.setPen(color(Role::Written));
    for (const DynamicMark& mark : scene.study->page.dynamics)
        if (scene.columns.range().contains(mark.at))
            painter.drawText(QRectF(geometry.x(mark.at) + 1, lane.top(), 60, dynamicsHeight),
                             Qt::AlignLeft | Qt::AlignVCenter, dynamicText(mark.level));
}

void paintWords(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const QRectF lane = geometry.markLane();
    QFont lettering = font(TextStyle::Small);
    lettering.setItalic(true);
    painter.setFont(lettering);
    painter.setPen(color(Role::Written));
    const std::vector<TextMark>& texts = scene.study->page.texts;
    for (std::size_t i = 0; i < texts.size(); ++i) {
        if (!scene.columns.range().contains(texts[i].at)) continue;
        const double left = geometry.x(texts[i].at) + 1;
        // Words end where the next ones begin.
        const auto next = std::find_if(texts.begin() + static_cast<std::ptrdiff_t>(i), texts.end(),
                                       [&](const TextMark& other) { return texts[i].at < other.at; });
        const double right = next == texts.end() ? lane.right() : geometry.x(next->at) - 3;
        const QString sign = texts[i].below ? QStringLiteral("↓ ") : QString();
        const QString words = painter.fontMetrics().elidedText(
            sign + QString::fromStdString(texts[i].text), Qt::ElideRight, static_cast<int>(right - left));
        painter.drawText(
            QRectF(left, lane.top() + dynamicsHeight, right - left, lane.height() - dynamicsHeight),
            Qt::AlignLeft | Qt::AlignVCenter, words);
    }
}

} // namespace

void paintPageMarks(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    painter.save();
    const QRectF lane = geometry.markLane();
    painter.setClipRect(lane.adjusted(-2, 0, 2, 0), Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(color(Role::Rule), 1));
    painter.drawLine(lane.topLeft(), lane.topRight());
    paintHairpins(painter, scene, geometry);
    paintDynamics(painter, scene, geometry);
    paintWords(painter, scene, geometry);
    painter.restore();
}

} // namespace earwright::ui
