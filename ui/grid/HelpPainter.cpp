#include "ui/grid/HelpPainter.h"

#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

namespace earwright::ui {

namespace {

constexpr double largestDot = GridGeometry::rowHeight / 2 - 1;
constexpr double smallestDot = 1.2;
constexpr double shareMargin = 2;
constexpr double shareGap = 3;

/// The area, not the width, says how strong it is.
double dotRadius(double strength) {
    return std::max(smallestDot, largestDot * std::sqrt(strength));
}

/// An arc from one octave to the next, past the dots between them.
void paintOctaveArc(QPainter& painter, const GridGeometry& geometry, double centre,
                    const PitchStrength& lower, const PitchStrength& upper) {
    const QPointF from(centre + dotRadius(lower.strength) + 1, geometry.y(lower.midi));
    const QPointF to(centre + dotRadius(upper.strength) + 1, geometry.y(upper.midi));
    const double bulge = std::max(from.x(), to.x()) + 22;
    QPainterPath arc(from);
    arc.cubicTo(QPointF(bulge, from.y() - 24), QPointF(bulge, to.y() + 24), to);
    painter.drawPath(arc);
}

/// Whether heads of notes and the degrees over them leave a place to other words.
bool isFree(const QRectF& place, const GridScene& scene, const GridGeometry& geometry) {
    constexpr double halfHead = 7, overHead = 18;
    const Range<Beats> bars = scene.columns.range();
    return std::ranges::none_of(scene.study->notes, [&](const Note& note) {
        if (!bars.contains(note.onset)) return false;
        const QPointF head = geometry.head(note);
        return place.intersects(
            QRectF(head.x() - halfHead, head.y() - overHead, 2 * halfHead, overHead + halfHead));
    });
}

bool isWithin(const QRectF& place, const QRectF& cells) {
    return place.left() >= cells.left() && place.right() <= cells.right();
}

/// How likely an octave is, on a ground of its own beside its dot: before it, or behind it and clear of the
/// arc where only there is room and nothing written.
void paintShare(QPainter& painter, const GridScene& scene, const GridGeometry& geometry, double centre,
                const PitchStrength& pitch) {
    constexpr double arc = 8;
    const QString share = QStringLiteral("%1 %").arg(std::lround(100 * pitch.probability()));
    const double width = painter.fontMetrics().horizontalAdvance(share) + 2 * shareMargin;
    const double away = largestDot + shareGap;
    const QRectF before(centre - away - width, geometry.y(pitch.midi) - GridGeometry::rowHeight / 2.0, width,
                        GridGeometry::rowHeight);
    const QRectF behind = before.translated(2 * away + width + arc, 0);
    const QRectF cells = geometry.cells();
    const bool goesBehind =
        !isWithin(before, cells) ||
        (!isFree(before, scene, geometry) && isWithin(behind, cells) && isFree(behind, scene, geometry));
    const QRectF& room = goesBehind ? behind : before;
    painter.fillRect(room, color(Role::Page, 0.9));
    painter.drawText(room, Qt::AlignCenter, share);
}

/// The octaves between which the recording leaves the choice: joined, each with its share.
void paintRivals(QPainter& painter, const GridScene& scene, const GridGeometry& geometry, double centre) {
    const std::vector<PitchStrength>& rivals = scene.evidence->rivals;
    painter.setPen(QPen(color(Role::Hint), 1.2));
    painter.setBrush(Qt::NoBrush);
    painter.setFont(font(TextStyle::Label));
    for (std::size_t i = 0; i < rivals.size(); ++i) {
        if (i > 0) paintOctaveArc(painter, geometry, centre, rivals[i - 1], rivals[i]);
        paintShare(painter, scene, geometry, centre, rivals[i]);
    }
}

/// In each column the place that is opened farthest: the marks of two would lie on one another.
std::map<std::size_t, const Hint*> hintsByColumn(const GridScene& scene) {
    std::map<std::size_t, const Hint*> farthest;
    for (const Hint& hint : scene.hints) {
        const auto column = columnOf(hint, scene);
        if (!column) continue;
        const Hint*& shown = farthest[*column];
        if (!shown || shown->step < hint.step) shown = &hint;
    }
    return farthest;
}

} // namespace

QString hintMark(const Hint& hint) {
    if (hint.step == HelpStep::None) return {};
    const int direction = hint.direction.value_or(0);
    QString mark;
    if (hint.moved) mark = *hint.moved < 0 ? QStringLiteral("←") : QStringLiteral("→");
    if (direction != 0) mark = direction > 0 ? QStringLiteral("↑") : QStringLiteral("↓");
    if (direction != 0 && hint.semitones) mark += QStringLiteral(" %1").arg(std::abs(*hint.semitones));
    // What is only likely is asked, not said.
    return mark.isEmpty() || hint.isUnsure || hint.mayBeBand ? mark + QLatin1Char('?') : mark;
}

std::optional<std::size_t> columnOf(const Hint& hint, const GridScene& scene) {
    // What is played a little ahead of the first column still belongs to it.
    constexpr double ahead = 0.5;
    const double beats = scene.study->beatMap.beatsAt(hint.range.begin);
    const Range<Beats> bars = scene.columns.range();
    if (bars.isEmpty() || beats < bars.begin.toDouble() - ahead || beats > bars.end.toDouble())
        return std::nullopt;
    return scene.columns.indexNearest(beats);
}

void paintHints(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    if (!scene.study->beatMap.hasTempo()) return;
    const QRectF lane = geometry.helpLane();
    QFont lettering = font(TextStyle::Label);
    lettering.setWeight(QFont::Bold);
    painter.save();
    painter.setClipRect(lane, Qt::IntersectClip);
    painter.setFont(lettering);
    painter.setPen(color(Role::Hint));
    for (const auto& [index, hint] : hintsByColumn(scene)) {
        const GridColumn& column = scene.columns[index];
        const double centre = (geometry.x(column.range.begin) + geometry.x(column.range.end)) / 2;
        painter.drawText(QRectF(centre - 20, lane.top(), 40, lane.height()), Qt::AlignCenter,
                         hintMark(*hint));
    }
    painter.restore();
}

void paintEvidence(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    if (!scene.evidence) return;
    const ColumnEvidence& evidence = *scene.evidence;
    const double left = geometry.x(evidence.range.begin);
    const double centre = (left + geometry.x(evidence.range.end)) / 2;
    const QRectF cells = geometry.cells();
    painter.save();
    painter.setClipRect(cells, Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(QRectF(left, cells.top(), 2 * (centre - left), cells.height()), color(Role::Hint, 0.07));
    paintRivals(painter, scene, geometry, centre);
    painter.setPen(Qt::NoPen);
    for (const PitchStrength& pitch : evidence.pitches) {
        if (pitch.strength <= 0) continue;
        const double radius = dotRadius(pitch.strength);
        painter.setBrush(color(Role::Hint, 0.45 + 0.5 * pitch.strength));
        painter.drawEllipse(QPointF(centre, geometry.y(pitch.midi)), radius, radius);
    }
    painter.restore();
}

} // namespace earwright::ui
