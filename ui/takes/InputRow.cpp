#include "ui/takes/InputRow.h"

#include "ui/takes/LevelMeter.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QActionGroup>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QSlider>

namespace earwright::ui {

namespace {

constexpr int sliderWidth = 80;
constexpr int longestName = 220;

QLabel* smallLabel(QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setFont(ui::font(TextStyle::Small));
    label->setTextFormat(Qt::PlainText);
    label->setForegroundRole(QPalette::PlaceholderText);
    // A long sentence gives way instead of widening the window; the tool tip has all of it.
    label->setMinimumWidth(1);
    return label;
}

} // namespace

InputRow::InputRow(QWidget* parent)
    : QWidget(parent),
      choose(new QuietButton(tr("open an input"), this)),
      trouble(smallLabel(this)),
      level(new LevelMeter(this)),
      monitor(new QuietButton(tr("hear yourself"), this)),
      monitorLevel(new QSlider(Qt::Horizontal, this)),
      aligned(smallLabel(this)),
      measure(new QuietButton(tr("measure"), this)) {
    choose->setAccessibleName(tr("Input"));
    monitor->setCheckable(true);
    monitor->setToolTip(tr("Lets the input be heard with the record. With a microphone only over headphones, "
                           "or it howls."));
    monitorLevel->setAccessibleName(tr("How loud you hear yourself"));
    monitorLevel->setRange(0, 100);
    monitorLevel->setValue(50);
    monitorLevel->setFixedWidth(sliderWidth);
    measure->setToolTip(
        tr("Plays short sweeps and listens for them, so that takes fall exactly where you played. "
           "Connect output and input by a cable, or hold the microphone to the headphone."));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(spacing::small);
    row->addWidget(choose);
    row->addWidget(level);
    row->addWidget(monitor);
    row->addWidget(monitorLevel);
    row->addWidget(trouble);
    row->addStretch(1);
    row->addWidget(aligned);
    row->addWidget(measure);
    connectParts();
    setReport({});
    setRoundTrip({});
}

void InputRow::connectParts() {
    connect(choose, &QAbstractButton::clicked, this, [this] {
        if (shown.state == DeviceState::Closed)
            emit openRequested();
        else
            emit choicesRequested();
    });
    connect(monitor, &QAbstractButton::clicked, this, &InputRow::monitorChosen);
    connect(monitorLevel, &QSlider::valueChanged, this,
            [this](int value) { emit monitorLevelChosen(value / 100.0); });
    connect(measure, &QAbstractButton::clicked, this, &InputRow::measureRequested);
}

void InputRow::setReport(const InputReport& report) {
    shown = report;
    const QString name = QString::fromStdString(report.name);
    choose->setText(
        isOpen() ? tr("from %1").arg(
                       QFontMetrics(ui::font(TextStyle::Body)).elidedText(name, Qt::ElideMiddle, longestName))
        : report.state == DeviceState::Closed ? tr("open an input")
                                              : tr("another input"));
    choose->setToolTip(isOpen() ? name : QString());
    trouble->setText(state());
    trouble->setToolTip(trouble->text());
    QPalette ink = palette();
    ink.setColor(QPalette::PlaceholderText, color(report.message.empty() ? Role::Muted : Role::LooseEnd));
    trouble->setPalette(ink);
    for (QWidget* part :
         {static_cast<QWidget*>(level), static_cast<QWidget*>(monitor), static_cast<QWidget*>(monitorLevel),
          static_cast<QWidget*>(aligned), static_cast<QWidget*>(measure)})
        part->setVisible(isOpen());
}

QString InputRow::state() const {
    if (!shown.message.empty()) return QString::fromStdString(shown.message);
    return shown.state == DeviceState::Opening ? tr("opening the input …") : QString();
}

void InputRow::setLevel(const InputLevel& now) {
    level->setLevel(now.peak, now.isClipped);
}

void InputRow::setRoundTrip(const RoundTripReport& trip) {
    QString text;
    if (trip.isRunning)
        text = tr("measuring …");
    else if (!trip.message.empty())
        text = tr("not measured: it did not work");
    else if (trip.seconds)
        text = tr("lined up as measured");
    else
        text = tr("lined up by what the devices say, not measured yet");
    aligned->setText(text);
    aligned->setToolTip(trip.message.empty() ? text : QString::fromStdString(trip.message));
    measure->setText(trip.seconds ? tr("measure again") : tr("measure"));
    measure->setEnabled(!trip.isRunning);
}

QString InputRow::alignment() const {
    return aligned->text();
}

void InputRow::setMonitored(bool heard) {
    monitor->setChecked(heard);
    monitorLevel->setEnabled(heard);
}

void InputRow::offer(const std::vector<InputChoice>& choices, InputChannels channels) {
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    if (choices.empty()) menu->addAction(tr("no input is there"))->setEnabled(false);
    for (const InputChoice& choice : choices) {
        const QString name = QString::fromStdString(choice.name);
        QAction* action = menu->addAction(choice.isDefault ? tr("%1 (the system's choice)").arg(name) : name);
        action->setCheckable(true);
        action->setChecked(isOpen() && choice.name == shown.name);
        connect(action, &QAction::triggered, this, [this, name] { emit inputChosen(name); });
    }
    menu->addSeparator();
    auto* sockets = new QActionGroup(menu);
    const std::pair<QString, InputChannels> ways[]{{tr("both channels"), InputChannels::Both},
                                                   {tr("the first channel alone"), InputChannels::First},
                                                   {tr("the second channel alone"), InputChannels::Second}};
    for (const auto& [words, which] : ways) {
        QAction* action = menu->addAction(words);
        action->setCheckable(true);
        action->setChecked(which == channels);
        sockets->addAction(action);
        connect(action, &QAction::triggered, this, [this, wanted = which] { emit channelsChosen(wanted); });
    }
    menu->addSeparator();
    connect(menu->addAction(tr("close the input")), &QAction::triggered, this, &InputRow::closeRequested);
    menu->popup(choose->mapToGlobal(QPoint(0, -menu->sizeHint().height())));
}

} // namespace earwright::ui
