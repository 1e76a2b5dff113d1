#include "ui/desk/MessageRow.h"

#include "ui/theme/Marks.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QToolButton>

namespace earwright::ui {

namespace {

constexpr int noticeMilliseconds = 7000;
constexpr int flagRoom = 26;

} // namespace

MessageRow::MessageRow(MessageBar::Tone kind, const QString& sentence,
                       std::vector<MessageBar::Answer> answers, QWidget* parent)
    : QWidget(parent), tone(kind), label(new QLabel(sentence)) {
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(tone == MessageBar::Tone::Trouble ? flagRoom : spacing::medium, spacing::tight,
                             spacing::small, spacing::tight);
    line->setSpacing(spacing::small);
    line->addWidget(label, 1);
    for (MessageBar::Answer& answer : answers) {
        auto* button = new QPushButton(answer.text);
        // Focus by Tab only: after a click the desk's keys stay where they were.
        button->setFocusPolicy(Qt::TabFocus);
        connect(button, &QPushButton::clicked, this, [this, deed = std::move(answer.deed)] {
            emit closed();
            if (deed) deed();
        });
        buttons.push_back(button);
        line->addWidget(button);
    }
    auto* close = new QToolButton;
    close->setText(QStringLiteral("×"));
    close->setAutoRaise(true);
    close->setFocusPolicy(Qt::TabFocus);
    close->setAccessibleName(tr("Close this message"));
    connect(close, &QToolButton::clicked, this, &MessageRow::closed);
    line->addWidget(close);
    setAccessibleName(sentence);
    if (tone != MessageBar::Tone::Notice) return;
    expiry.setSingleShot(true);
    connect(&expiry, &QTimer::timeout, this, &MessageRow::closed);
    expiry.start(noticeMilliseconds);
}

QString MessageRow::sentence() const {
    return label->text();
}

void MessageRow::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(color(tone == MessageBar::Tone::Trouble ? Role::LooseEnd : Role::Rule), 1));
    painter.setBrush(color(Role::Panel));
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), spacing::corner, spacing::corner);
    if (tone == MessageBar::Tone::Trouble)
        paintFlag(painter, {spacing::medium, height() / 2.0 + 7}, 13, color(Role::LooseEnd));
}

} // namespace earwright::ui
