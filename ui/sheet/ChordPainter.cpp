#include "ui/sheet/ChordPainter.h"

#include "core/music/NoChord.h"
#include "ui/theme/Marks.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double chordGap = 8;
/// Share of the ordinary size that a crowded symbol may shrink to.
constexpr double narrowestChord = 0.62;
constexpr double headRadius = 4.2;
/// Between a symbol and the head behind it.
constexpr double headGap = 4;

} // namespace

void ChordPainter::paint(QPainter& painter, std::size_t line) const {
    const QRectF row = geometry.chordRow(line);
    const BarRun bars = *geometry.lines()[line].bars;
    const double barWidth = geometry.barX(line, bars.first + 1) - geometry.barX(line, bars.first);
    const MeterMap meters = model.study->meters();
    for (std::int64_t bar = bars.first; bar < bars.first + bars.count; ++bar) {
        const BarChords chords = model.study->barChords(bar);
        const double perBeat = barWidth / meters.barLength(bar).toDouble();
        const auto x = [&](const Beats& withinBar) {
            return geometry.barX(line, bar) + perBeat * withinBar.toDouble();
        };
        for (std::size_t i = 0; i < chords.chords.size(); ++i) {
            const PlacedChord& chord = chords.chords[i];
            const double left = x(chord.withinBar);
            const double right = i + 1 < chords.chords.size() ? x(chords.chords[i + 1].withinBar)
                                                              : geometry.barX(line, bar + 1);
            paintChord(painter, chord.symbol, model.chordAnswer(bar, chord.withinBar),
                       QRectF(left + 2, row.top(), right - left - chordGap, row.height()));
        }
    }
}

void ChordPainter::paintChord(QPainter& painter, const ChordSymbol& symbol, const CheckedChord* checked,
                              QRectF room) const {
    if (checked) room.setWidth(std::max(room.width() - 2 * headRadius - headGap, 0.0));
    const QString text = QString::fromStdString(toString(symbol));
    QFont lettering = font(TextStyle::Chord);
    const double width = QFontMetricsF(lettering).horizontalAdvance(text);
    if (width > room.width())
        lettering.setPixelSize(static_cast<int>(
            std::floor(lettering.pixelSize() * std::max(room.width() / width, narrowestChord))));
    painter.setFont(lettering);
    const bool readable = isRead(symbol);
    painter.setPen(color(readable ? Role::Ink : Role::Muted));
    const QFontMetricsF metrics(lettering);
    const QString shown = metrics.elidedText(text, Qt::ElideRight, std::max(room.width(), 8.0));
    painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextDontClip, shown);
    const double end = room.left() + metrics.horizontalAdvance(shown);
    if (checked)
        paintHead(painter, {end + headGap + headRadius, room.center().y()}, headRadius,
                  headShapeOf(verdictOf(checked->answer)), color(Role::Ink), color(Role::Paper));
    if (readable) return;
    // Kept as typed: a dotted line under it says that nothing is read from it.
    painter.setPen(QPen(color(Role::LooseEnd), spacing::barLine, Qt::DotLine));
    const double y = room.bottom() - 2;
    painter.drawLine(QPointF(room.left(), y), QPointF(end, y));
}

} // namespace earwright::ui
