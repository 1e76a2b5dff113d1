#include "ui/sheet/SoundPainter.h"

#include "ui/theme/Marks.h"
#include "ui/theme/Theme.h"

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr double columnWidth = 3;
constexpr double strokeWidth = 1.4;
constexpr double levelCentre = 0.86;
constexpr double levelReach = 0.10;
constexpr double onsetTip = 0.74;
constexpr double onsetSize = 5;

} // namespace

void SoundPainter::paint(QPainter& painter, std::size_t line) const {
    paintLevel(painter, line);
    paintOnsets(painter, line);
}

void SoundPainter::paintLevel(QPainter& painter, std::size_t line) const {
    if (!model.level) return;
    const QRectF box = geometry.box(line);
    const double centre = box.top() + box.height() * levelCentre;
    const double reach = box.height() * levelReach;
    const double first = std::max(geometry.x(line, Seconds(0)), box.left());
    const double last = std::min(geometry.x(line, model.duration), box.right());
    QPen pen(color(Role::Recording), strokeWidth);
    pen.setCapStyle(Qt::RoundCap);
    painter.setPen(pen);
    for (double x = first; x + columnWidth / 2 < last; x += columnWidth) {
        const auto level = model.level({geometry.timeAt(line, x), geometry.timeAt(line, x + columnWidth)});
        if (!level) continue;
        const double half = std::clamp(static_cast<double>(*level), 0.03, 1.0) * reach;
        const double middle = x + columnWidth / 2;
        painter.drawLine(QPointF(middle, centre - half), QPointF(middle, centre + half));
    }
}

void SoundPainter::paintOnsets(QPainter& painter, std::size_t line) const {
    const QRectF box = geometry.box(line);
    const double tip = box.top() + box.height() * onsetTip;
    const Range<Seconds> covered = geometry.lines()[line].time;
    auto onset = std::lower_bound(model.onsets.begin(), model.onsets.end(), covered.begin);
    for (; onset != model.onsets.end() && *onset < covered.end; ++onset)
        paintOnset(painter, {geometry.x(line, *onset), tip}, onsetSize, color(Role::Recording));
}

} // namespace earwright::ui
