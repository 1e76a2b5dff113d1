#include "ui/transport/DeviceLine.h"

#include "ui/theme/Marks.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>

namespace earwright::ui {

namespace {

constexpr int flagRoom = 18;

} // namespace

DeviceLine::DeviceLine(QWidget* parent)
    : QWidget(parent),
      line(new QLabel(this)),
      tryAgain(new QuietButton(tr("try again"), this)),
      choose(new QuietButton(tr("another device"), this)),
      row(new QHBoxLayout(this)) {
    setAccessibleName(tr("Sound device"));
    line->setFont(ui::font(TextStyle::Small));
    line->setTextFormat(Qt::PlainText);
    // A long message gives way instead of widening the window; the tool tip has all of it.
    line->setMinimumWidth(1);
    tryAgain->setTextStyle(TextStyle::Small);
    choose->setTextStyle(TextStyle::Small);
    row->setSpacing(spacing::tight);
    row->addStretch();
    row->addWidget(line);
    row->addWidget(tryAgain);
    row->addWidget(choose);
    row->addStretch();
    connect(tryAgain, &QAbstractButton::clicked, this, &DeviceLine::tryAgainRequested);
    connect(choose, &QAbstractButton::clicked, this, &DeviceLine::choicesRequested);
    setReport({});
}

void DeviceLine::setReport(const DeviceReport& report) {
    shown = report;
    const bool trouble = isTrouble();
    line->setText(text());
    line->setToolTip(line->text());
    QPalette ink = palette();
    ink.setColor(QPalette::WindowText, color(trouble ? Role::LooseEnd : Role::Muted));
    line->setPalette(ink);
    // In trouble it stands on the left, behind its flag; in good order quietly on the right.
    row->setContentsMargins(trouble ? flagRoom : 0, 0, 0, 0);
    row->setStretch(0, trouble ? 0 : 1);
    row->setStretch(row->count() - 1, trouble ? 1 : 0);
    tryAgain->setVisible(trouble);
    choose->setVisible(report.state != DeviceState::Opening);
    update();
}

bool DeviceLine::isTrouble() const {
    return shown.state == DeviceState::Missing || shown.state == DeviceState::Lost;
}

void DeviceLine::paintEvent(QPaintEvent*) {
    if (!isTrouble()) return;
    QPainter painter(this);
    paintFlag(painter, QPointF(2, height() / 2.0 + 7), 13, color(Role::LooseEnd));
}

QString DeviceLine::text() const {
    switch (shown.state) {
    case DeviceState::Closed:
        return {};
    case DeviceState::Opening:
        return tr("opening the sound device …");
    case DeviceState::Running:
        return shown.name.empty() ? tr("sound is on") : tr("to %1").arg(QString::fromStdString(shown.name));
    case DeviceState::Missing:
    case DeviceState::Lost:
        return shown.message.empty() ? tr("There is no sound: the device does not answer.")
                                     : QString::fromStdString(shown.message);
    }
    return {};
}

void DeviceLine::offer(const std::vector<DeviceChoice>& choices) {
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    if (choices.empty()) menu->addAction(tr("no device is there"))->setEnabled(false);
    for (const DeviceChoice& choice : choices) {
        const QString name = QString::fromStdString(choice.name);
        QAction* action = menu->addAction(choice.isDefault ? tr("%1 (the system's choice)").arg(name) : name);
        action->setCheckable(true);
        action->setChecked(choice.name == shown.name && shown.state == DeviceState::Running);
        connect(action, &QAction::triggered, this,
                [this, index = choice.index] { emit deviceChosen(index); });
    }
    menu->popup(choose->mapToGlobal(QPoint(0, -menu->sizeHint().height())));
}

} // namespace earwright::ui
