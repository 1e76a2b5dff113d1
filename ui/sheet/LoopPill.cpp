#include "ui/sheet/LoopPill.h"

#include "ui/sheet/ClimbMenu.h"
#include "ui/theme/Type.h"

#include <QFontMetricsF>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double height = 20;
constexpr double stepWidth = 42;
constexpr double ends = 8;
constexpr double aroundClimb = 8;

} // namespace

std::optional<LoopPill> LoopPill::on(const SheetModel& model, const SheetGeometry& geometry) {
    const auto loop = model.loop();
    if (!loop) return std::nullopt;
    const auto pieces = geometry.segments(*loop);
    if (pieces.empty()) return std::nullopt;

    const int current = static_cast<int>(std::lround(model.study->practice.speed * 100));
    std::vector<int> percents = model.speedSteps;
    percents.push_back(current);
    std::sort(percents.begin(), percents.end());
    percents.erase(std::unique(percents.begin(), percents.end()), percents.end());

    const QString climb = ui::climbText(model.climb, model.climbing);
    const double climbWidth =
        2 * aroundClimb + QFontMetricsF(font(TextStyle::Small)).horizontalAdvance(climb);
    const double width = 2 * ends + stepWidth * static_cast<double>(percents.size()) + climbWidth;
    const QRectF row = geometry.chordRow(pieces.front().line);
    const double left = std::max(std::min(pieces.front().left, row.right() - width), row.left());
    LoopPill pill{QRectF(left, row.top() - height, width, height), {}, climb, {}};
    double x = left + ends;
    for (const int percent : percents) {
        pill.steps.push_back({percent, QRectF(x, pill.outline.top(), stepWidth, height), percent == current});
        x += stepWidth;
    }
    pill.climbPlace = QRectF(x, pill.outline.top(), climbWidth, height);
    return pill;
}

std::optional<int> LoopPill::stepAt(const QPointF& point) const {
    for (const PillStep& step : steps)
        if (step.place.contains(point)) return step.percent;
    return std::nullopt;
}

} // namespace earwright::ui
