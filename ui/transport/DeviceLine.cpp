#include "ui/transport/DeviceLine.h"

#include "ui/theme/Marks.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>

namespace earwright::ui {

namespace {

constexpr int flagRoom = 18;

} // namespace

DeviceLine::DeviceLine(QWidget* parent)
    : QWidget(parent), line(new QLabel(this)), tryAgain(new QuietButton(tr("try again"), this)) {
    setAccessibleName(tr("Sound device"));
    line->setFont(ui::font(TextStyle::Small));
    line->setTextFormat(Qt::PlainText);
    // A long message gives way instead of widening the window; the tool tip has all of it.
    line->setMinimumWidth(1);
    tryAgain->setTextStyle(TextStyle::Small);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(flagRoom, 0, 0, 0);
    row->setSpacing(spacing::tight);
    row->addWidget(line);
    row->addWidget(tryAgain);
    row->addStretch();
    connect(tryAgain, &QAbstractButton::clicked, this, &DeviceLine::tryAgainRequested);
    setReport({});
}

void DeviceLine::setReport(const DeviceReport& report) {
    shown = report;
    line->setText(text());
    line->setToolTip(line->text());
    QPalette ink = palette();
    ink.setColor(QPalette::WindowText, color(Role::LooseEnd));
    line->setPalette(ink);
    setVisible(isTrouble());
}

bool DeviceLine::isTrouble() const {
    return shown.state == DeviceState::Missing || shown.state == DeviceState::Lost || !shown.message.empty();
}

void DeviceLine::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    paintFlag(painter, QPointF(2, height() / 2.0 + 7), 13, color(Role::LooseEnd));
}

QString DeviceLine::wording(const DeviceReport& report) {
    const QString message = QString::fromStdString(report.message);
    switch (report.state) {
    case DeviceState::Closed:
        return {};
    case DeviceState::Opening:
        return message.isEmpty() ? tr("opening the sound device …") : message;
    case DeviceState::Running:
        if (!message.isEmpty()) return message;
        return report.name.empty() ? tr("sound is on") : tr("to %1").arg(QString::fromStdString(report.name));
    case DeviceState::Missing:
    case DeviceState::Lost:
        return message.isEmpty() ? tr("There is no sound: the device does not answer.") : message;
    }
    return {};
}

} // namespace earwright::ui
