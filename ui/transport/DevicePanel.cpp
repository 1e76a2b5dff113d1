#include "ui/transport/DevicePanel.h"

#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"
#include "ui/transport/DeviceLine.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr int latencySteps[]{20, 40, 80, 120, 160, 240, 320, 500};
constexpr int widest = 460;

QString milliseconds(double seconds) {
    return DevicePanel::tr("%1 ms").arg(std::lround(seconds * 1000));
}

QString kilohertz(int hertz) {
    return DevicePanel::tr("%1 kHz").arg(QString::number(hertz / 1000.0, 'g', 6));
}

bool sameDevices(const std::vector<DeviceChoice>& a, const std::vector<DeviceChoice>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const DeviceChoice& left, const DeviceChoice& right) {
                          return left.index == right.index && left.name == right.name &&
                                 left.isDefault == right.isDefault && left.rates == right.rates;
                      });
}

void choose(QComboBox& box, int value, const QString& nameIfMissing) {
    if (box.findData(value) < 0) box.addItem(nameIfMissing, value);
    box.setCurrentIndex(box.findData(value));
}

} // namespace

DevicePanel::DevicePanel(QWidget* parent)
    : QDialog(parent),
      list(new QListWidget),
      rates(new QComboBox),
      latencies(new QComboBox),
      state(new QLabel),
      growth(new QLabel),
      again(new QPushButton(tr("Try again"))) {
    setWindowTitle(tr("Sound device"));
    build();
    fillList();
    fillRates();
    fillLatencies();
    setReport({});
    connect(list, &QListWidget::itemActivated, this, &DevicePanel::take);
    connect(list, &QListWidget::itemClicked, this, &DevicePanel::take);
    connect(rates, &QComboBox::activated, this, [this] {
        chosen.rateHertz = rates->currentData().toInt();
        emit wished(chosen);
    });
    connect(latencies, &QComboBox::activated, this, [this] {
        chosen.latencySeconds = latencies->currentData().toInt() / 1000.0;
        emit wished(chosen);
    });
    connect(again, &QPushButton::clicked, this, [this] { emit wished(chosen); });
}

void DevicePanel::build() {
    list->setAccessibleName(tr("Sound devices"));
    list->setAccessibleDescription(tr("Enter or a click chooses a device"));
    rates->setAccessibleName(tr("Rate"));
    latencies->setAccessibleName(tr("Latency"));
    latencies->setToolTip(tr("Less answers quicker; more is safer while the machine is busy"));
    for (QLabel* line : {state, growth}) {
        line->setWordWrap(true);
        line->setTextFormat(Qt::PlainText);
    }
    auto* form = new QFormLayout;
    form->setHorizontalSpacing(spacing::medium);
    form->addRow(tr("&Rate"), rates);
    form->addRow(tr("&Latency"), latencies);
    granted = addFigure(*form, tr("Granted by the device"));
    kept = addFigure(*form, tr("Kept ready ahead of it"));
    gaps = addFigure(*form, tr("Gaps so far"));

    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    buttons->addButton(again, QDialogButtonBox::ActionRole);
    // Enter belongs to the list.
    for (QAbstractButton* button : buttons->buttons())
        static_cast<QPushButton*>(button)->setAutoDefault(false);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(spacing::large, spacing::medium, spacing::large, spacing::medium);
    column->setSpacing(spacing::small);
    column->addWidget(list, 1);
    column->addWidget(state);
    column->addLayout(form);
    column->addWidget(growth);
    column->addWidget(buttons);
    resize(widest, sizeHint().height());
}

QLabel* DevicePanel::addFigure(QFormLayout& form, const QString& caption) {
    auto* title = new QLabel(caption);
    title->setForegroundRole(QPalette::PlaceholderText);
    auto* figure = new QLabel;
    figure->setAccessibleName(caption);
    form.addRow(title, figure);
    return figure;
}

void DevicePanel::setDevices(const std::vector<DeviceChoice>& devices) {
    if (sameDevices(devices, choices)) return;
    choices = devices;
    fillList();
    fillRates();
}

void DevicePanel::setWish(const DeviceWish& wish) {
    if (wish == chosen) return;
    chosen = wish;
    markChosen(true);
    fillRates();
    fillLatencies();
}

const DeviceChoice* DevicePanel::chosenDevice() const {
    const auto found = std::find_if(choices.begin(), choices.end(), [this](const DeviceChoice& choice) {
        return chosen.name.empty() ? choice.isDefault : choice.name == chosen.name;
    });
    return found == choices.end() ? nullptr : &*found;
}

void DevicePanel::fillList() {
    const int row = std::max(0, list->currentRow());
    list->clear();
    const auto standard =
        std::find_if(choices.begin(), choices.end(), [](const DeviceChoice& one) { return one.isDefault; });
    list->addItem(standard == choices.end()
                      ? tr("The system's choice")
                      : tr("The system's choice (%1)").arg(QString::fromStdString(standard->name)));
    for (const DeviceChoice& choice : choices)
        list->addItem(QString::fromStdString(choice.name));
    list->setCurrentRow(std::min(row, list->count() - 1));
    markChosen(false);
}

void DevicePanel::markChosen(bool movesThere) {
    for (int row = 0; row < list->count(); ++row) {
        QListWidgetItem* item = list->item(row);
        const bool isIt =
            row == 0 ? chosen.name.empty() : choices[static_cast<std::size_t>(row - 1)].name == chosen.name;
        // Told by a tick and by weight, so that neither colour nor ear is needed.
        item->setFont(ui::font(isIt ? TextStyle::Strong : TextStyle::Body));
        item->setData(Qt::CheckStateRole, isIt ? QVariant(Qt::Checked) : QVariant(Qt::Unchecked));
        item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
        if (isIt && movesThere) list->setCurrentItem(item);
    }
}

void DevicePanel::take(const QListWidgetItem* item) {
    const int row = list->row(item);
    if (row < 0) return;
    DeviceWish next = chosen;
    next.index = -1;
    next.name.clear();
    if (row > 0) {
        next.index = choices[static_cast<std::size_t>(row - 1)].index;
        next.name = choices[static_cast<std::size_t>(row - 1)].name;
    }
    setWish(next);
    emit wished(chosen);
}

void DevicePanel::fillRates() {
    rates->clear();
    const DeviceChoice* device = chosenDevice();
    rates->addItem(device && device->ownRateHertz > 0
                       ? tr("the device's own, %1").arg(kilohertz(device->ownRateHertz))
                       : tr("the device's own"),
                   0);
    if (device)
        for (const int rate : device->rates)
            rates->addItem(kilohertz(rate), rate);
    choose(*rates, chosen.rateHertz, kilohertz(chosen.rateHertz));
}

void DevicePanel::fillLatencies() {
    latencies->clear();
    for (const int step : latencySteps)
        latencies->addItem(tr("%1 ms").arg(step), step);
    const int wish = static_cast<int>(std::lround(chosen.latencySeconds * 1000));
    choose(*latencies, wish, tr("%1 ms").arg(wish));
}

void DevicePanel::setReport(const DeviceReport& report) {
    const bool isTrouble = !report.message.empty();
    state->setText(
        report.state == DeviceState::Running && !isTrouble
            ? tr("Playing to %1 at %2.").arg(QString::fromStdString(report.name), kilohertz(report.rateHertz))
            : DeviceLine::wording(report));
    QPalette ink = palette();
    if (isTrouble) ink.setColor(QPalette::WindowText, color(Role::LooseEnd));
    state->setPalette(ink);
    granted->setText(report.latencySeconds > 0 ? milliseconds(report.latencySeconds) : tr("–"));
    kept->setText(milliseconds(report.bufferSeconds));
    gaps->setText(QString::number(report.underruns));
    const QString howOften = report.underruns == 1 ? tr("a gap") : tr("%1 gaps").arg(report.underruns);
    growth->setText(
        report.grown ? tr("The buffer grew to %1 after %2.").arg(milliseconds(report.bufferSeconds), howOften)
                     : QString());
}

QString DevicePanel::stateText() const {
    return state->text();
}
QString DevicePanel::grantedText() const {
    return granted->text();
}
QString DevicePanel::keptText() const {
    return kept->text();
}
QString DevicePanel::gapsText() const {
    return gaps->text();
}
QString DevicePanel::growthText() const {
    return growth->text();
}

} // namespace earwright::ui
