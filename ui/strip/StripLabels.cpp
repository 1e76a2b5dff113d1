#include "ui/strip/StripLabels.h"

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr double together = 3; // starts nearer than this cannot be told apart by eye

} // namespace

std::vector<StripLabel> layLabels(const Study& study, const StripGeometry& geometry) {
    std::vector<StripLabel> labels;
    for (const Span& span : study.spans) {
        if (span.kind == SpanKind::Phrase) continue;
        const double x = geometry.x(span.range.begin);
        const QString name = QString::fromStdString(span.name);
        if (!labels.empty() && x - labels.back().x < together)
            labels.back().text += QStringLiteral(" · ") + name;
        else
            labels.push_back({name, x, 0});
    }
    for (std::size_t i = 0; i < labels.size(); ++i) {
        const double next = i + 1 < labels.size() ? labels[i + 1].x : geometry.page().right();
        labels[i].room = std::max(next - labels[i].x, 0.0);
    }
    return labels;
}

} // namespace earwright::ui
