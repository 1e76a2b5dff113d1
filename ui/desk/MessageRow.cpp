#include "ui/desk/MessageRow.h"

#include "ui/theme/Marks.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QToolButton>

#include <algorithm>
#include <utility>

namespace earwright::ui {

namespace {

constexpr int noticeMilliseconds = 7000;
constexpr int flagRoom = 34;

} // namespace

MessageRow::MessageRow(MessageBar::Tone kind, const QString& sentence,
                       std::vector<MessageBar::Answer> answers, QWidget* parent)
    : QWidget(parent), tone(kind), label(new QLabel(sentence)), offered(std::move(answers)) {
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(tone == MessageBar::Tone::Trouble ? flagRoom : spacing::medium, spacing::tight,
                             spacing::small, spacing::tight);
    line->setSpacing(spacing::small);
    line->addWidget(label, 1);
    for (std::size_t i = 0; i < offered.size(); ++i) {
        // An “&” would make a key of Alt and a letter, and those are commands of the desk.
        auto* button = new QPushButton(QString(offered[i].text).replace(u'&', QStringLiteral("&&")));
        // Focus by Tab only: after a click the desk's keys stay where they were.
        button->setFocusPolicy(Qt::TabFocus);
        connect(button, &QPushButton::clicked, this, [this, i] {
            const auto deed = offered[i].deed;
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

bool MessageRow::fits(MessageBar::Tone kind, const std::vector<MessageBar::Answer>& answers) const {
    return kind == tone && std::equal(answers.begin(), answers.end(), offered.begin(), offered.end(),
                                      [](const auto& a, const auto& b) { return a.text == b.text; });
}

void MessageRow::change(const QString& sentence, std::vector<MessageBar::Answer> answers) {
    label->setText(sentence);
    setAccessibleName(sentence);
    offered = std::move(answers);
    if (tone == MessageBar::Tone::Notice) expiry.start(noticeMilliseconds);
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
