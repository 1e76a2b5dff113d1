#include "ui/grid/PlayingLine.h"

#include "ui/theme/Type.h"

#include <QLabel>
#include <QVBoxLayout>

namespace earwright::ui {

PlayingLine::PlayingLine(QWidget* parent) : QWidget(parent), line(new QLabel(this)) {
    setAccessibleName(tr("How the note is played"));
    line->setFont(ui::font(TextStyle::Small));
    line->setWordWrap(true);
    line->setTextFormat(Qt::PlainText);
    line->setToolTip(
        tr("Measured in the record against the place that is written. Ahead, behind, soft and loud are "
           "style, not right or wrong; only written signs get an answer."));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(line);
    show({});
}

void PlayingLine::show(const QString& text) {
    line->setText(text);
    setAccessibleDescription(text);
    setVisible(!text.isEmpty());
}

QString PlayingLine::text() const {
    return line->text();
}

} // namespace earwright::ui
