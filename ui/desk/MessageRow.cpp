#include "ui/desk/MessageRow.h"

#include "ui/theme/Marks.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

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
    : QWidget(parent),
      tone(kind),
      label(new QLabel(sentence)),
      offered(std::move(answers)),
      closing(new QToolButton) {
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
    closing->setText(QStringLiteral("×"));
    closing->setAutoRaise(true);
    closing->setFocusPolicy(Qt::TabFocus);
    closing->setAccessibleName(tr("Close this message"));
    connect(closing, &QToolButton::clicked, this, &MessageRow::closed);
    line->addWidget(closing);
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

QSize MessageRow::sizePassing(int widest) const {
    if (tone != MessageBar::Tone::Notice || !offered.empty()) return {};
    const QFontMetrics metrics(ui::font(TextStyle::Small));
    const int beside = spacing::medium + 2 * spacing::small + closing->sizeHint().width();
    // A pixel more, so that what just fits is not broken.
    const int width = std::min(widest, metrics.horizontalAdvance(label->text()) + 1 + beside);
    if (width <= beside) return {};
    const QRect words = metrics.boundingRect(QRect(0, 0, width - beside, 0), Qt::TextWordWrap, label->text());
    return {width, std::max(words.height(), closing->sizeHint().height())};
}

void MessageRow::setPassing(bool passing) {
    label->setFont(passing ? ui::font(TextStyle::Small) : font());
    QMargins margins = layout()->contentsMargins();
    margins.setTop(passing ? 0 : spacing::tight);
    margins.setBottom(margins.top());
    layout()->setContentsMargins(margins);
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
