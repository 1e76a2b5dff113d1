#include "ui/sheet/LoopPill.h"

#include "ui/sheet/ClimbMenu.h"
#include "ui/sheet/PillMenu.h"
#include "ui/theme/Type.h"

#include <QFontMetricsF>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double height = 20;
constexpr double stepWidth = 42;
constexpr double ends = 8;
constexpr double aroundPart = 8;

std::vector<PillPart> partsOf(const SheetModel& model) {
    std::vector<PillPart> parts{
        {SheetPart::PillClimb, climbText(model.climb, model.climbing), {}, model.climbing},
        {SheetPart::PillGap, gapText(model.gapBeats), {}, model.gapBeats > 0}};
    if (model.trading)
        parts.push_back({SheetPart::PillTrade, tradeText(model.yoursPercent), {}, model.yoursPercent > 0});
    return parts;
}

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

    LoopPill pill{{}, {}, partsOf(model)};
    const QFontMetricsF metrics(font(TextStyle::Small));
    double width = 2 * ends + stepWidth * static_cast<double>(percents.size());
    for (const PillPart& part : pill.parts)
        width += metrics.horizontalAdvance(part.text) + 2 * aroundPart;
    const QRectF row = geometry.chordRow(pieces.front().line);
    const double left = std::max(std::min(pieces.front().left, row.right() - width), row.left());
    pill.outline = QRectF(left, row.top() - height, width, height);
    double x = left + ends;
    for (const int percent : percents) {
        pill.steps.push_back({percent, QRectF(x, pill.outline.top(), stepWidth, height), percent == current});
        x += stepWidth;
    }
    for (PillPart& part : pill.parts) {
        part.place =
            QRectF(x, pill.outline.top(), metrics.horizontalAdvance(part.text) + 2 * aroundPart, height);
        x = part.place.right();
    }
    return pill;
}

const PillPart* LoopPill::partAt(const QPointF& point) const {
    for (const PillPart& each : parts)
        if (each.place.contains(point)) return &each;
    return nullptr;
}

const PillPart* LoopPill::part(SheetPart kind) const {
    for (const PillPart& each : parts)
        if (each.part == kind) return &each;
    return nullptr;
}

std::optional<int> LoopPill::stepAt(const QPointF& point) const {
    for (const PillStep& step : steps)
        if (step.place.contains(point)) return step.percent;
    return std::nullopt;
}

} // namespace earwright::ui
