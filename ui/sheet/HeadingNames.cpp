#include "ui/sheet/HeadingNames.h"

#include "ui/sheet/SheetPainter.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Type.h"

#include <QFontMetricsF>

namespace earwright::ui {

std::vector<HeadingName> headingNames(const SheetModel& model, const SheetGeometry& geometry,
                                      std::size_t line) {
    const QRectF row = geometry.heading(line);
    const QFontMetricsF title(font(TextStyle::Title));
    const QFontMetricsF small(font(TextStyle::Small));
    double x = row.left();
    const auto take = [&](double width, double gap) {
        const QRectF area(x, row.top(), width + 1, row.height());
        x += width + gap;
        return area;
    };
    std::vector<HeadingName> names;
    for (const Span& span : geometry.lines()[line].begins) {
        HeadingName& each = names.emplace_back();
        each.span = span.id;
        each.name = QString::fromStdString(span.name);
        each.nameArea = take(title.horizontalAdvance(each.name), spacing::medium);
        each.bars = SheetPainter::barsText(*model.study, span.range);
        each.barsArea = take(small.horizontalAdvance(each.bars), spacing::wide);
    }
    return names;
}

} // namespace earwright::ui
