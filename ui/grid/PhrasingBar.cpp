#include "ui/grid/PhrasingBar.h"

#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"

#include <QHBoxLayout>
#include <QPainter>

namespace earwright::ui {

namespace {

bool has(const Phrasing& phrasing, PhrasingKind kind) {
    switch (kind) {
    case PhrasingKind::Slide:
        return phrasing.slideIn || phrasing.slideOut;
    case PhrasingKind::Grace:
        return !phrasing.graceNotes.empty();
    case PhrasingKind::Trill:
        return phrasing.trill.has_value();
    case PhrasingKind::Slur:
        return phrasing.slurred;
    case PhrasingKind::Ghost:
        return phrasing.ghosted;
    case PhrasingKind::Accent:
        return phrasing.accented;
    }
    return false;
}

} // namespace

PhrasingBar::PhrasingBar(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Phrasing of the selected note"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(spacing::small, 0, spacing::small, 0);
    row->setSpacing(0);
    const QString words[] = {tr("slide"), tr("grace"), tr("trill"), tr("slur"), tr("ghost"), tr("accent")};
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        auto* button = new QuietButton(words[i], this);
        button->setTextStyle(TextStyle::Small);
        button->setSidePadding(6);
        button->setCheckable(true);
        // The grid says what the note has; a click only asks.
        connect(button, &QAbstractButton::clicked, this, [this, button, i] {
            button->setChecked(!button->isChecked());
            emit chosen(static_cast<PhrasingKind>(i));
        });
        row->addWidget(button);
        buttons[i] = button;
    }
    adjustSize();
}

void PhrasingBar::show(const Phrasing& phrasing) {
    for (std::size_t i = 0; i < buttons.size(); ++i)
        buttons[i]->setChecked(has(phrasing, static_cast<PhrasingKind>(i)));
    QWidget::show();
}

void PhrasingBar::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(color(Role::Rule), 1));
    painter.setBrush(color(Role::Page));
    const double corner = height() / 2.0;
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), corner, corner);
}

} // namespace earwright::ui
