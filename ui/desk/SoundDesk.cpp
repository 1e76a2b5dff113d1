#include "ui/desk/SoundDesk.h"

#include "ui/transport/DevicePanel.h"
#include "ui/transport/TransportBar.h"

#include <QSettings>

#include <cmath>

namespace earwright::ui {

namespace {

const auto nameKey = QStringLiteral("sound/device");
const auto rateKey = QStringLiteral("sound/rate");
const auto latencyKey = QStringLiteral("sound/latency-ms");

int milliseconds(double seconds) {
    return static_cast<int>(std::lround(seconds * 1000));
}

} // namespace

SoundDesk::SoundDesk(Engine& player, QSettings& store, TransportBar& bar, QWidget* desk)
    : QObject(desk), engine(player), settings(store), transport(bar), window(desk), wish(remembered(store)) {
    connect(&transport, &TransportBar::tryDeviceAgainRequested, this, &SoundDesk::tryAgain);
    connect(&transport, &TransportBar::devicePanelRequested, this, &SoundDesk::showPanel);
}

DeviceWish SoundDesk::remembered(const QSettings& settings) {
    DeviceWish wish;
    wish.name = settings.value(nameKey).toString().toStdString();
    wish.rateHertz = settings.value(rateKey, wish.rateHertz).toInt();
    wish.latencySeconds = settings.value(latencyKey, milliseconds(wish.latencySeconds)).toInt() / 1000.0;
    return wish;
}

void SoundDesk::use(const DeviceWish& chosen) {
    wish = chosen;
    settings.setValue(nameKey, QString::fromStdString(wish.name));
    settings.setValue(rateKey, wish.rateHertz);
    settings.setValue(latencyKey, milliseconds(wish.latencySeconds));
    engine.useDevice(wish);
    look();
}

void SoundDesk::showPanel() {
    if (!panel) {
        panel = new DevicePanel(window);
        connect(panel, &DevicePanel::wished, this, &SoundDesk::use);
    }
    panel->setWish(wish);
    panel->show();
    look();
    panel->raise();
    panel->activateWindow();
}

void SoundDesk::look() {
    const DeviceReport report = engine.device();
    transport.setDevice(report);
    if (!panel || !panel->isVisible()) return;
    panel->setDevices(engine.devices());
    panel->setReport(report);
}

} // namespace earwright::ui
