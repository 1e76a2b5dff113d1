// The sound device at the desk: the panel it is chosen in, and the choice kept for the next time.
#pragma once

#include "core/engine/Engine.h"

#include <QObject>

class QSettings;

namespace earwright::ui {

class DevicePanel;
class TransportBar;

/// Threads: interface only. Requires: engine, settings, transport and window outlive this.
class SoundDesk : public QObject {
    Q_OBJECT
public:
    SoundDesk(Engine& engine, QSettings& settings, TransportBar& transport, QWidget* window);

    /// The device chosen the last time, or the system's own.
    static DeviceWish remembered(const QSettings& settings);

    /// Opens the panel, or brings it to the front.
    void showPanel();
    /// Called now and then: transport and panel show how the device is.
    void look();
    void use(const DeviceWish& wish);
    void tryAgain() { engine.useDevice(wish); }
    /// Null until it is opened for the first time.
    DevicePanel* devicePanel() const { return panel; }

private:
    Engine& engine;
    QSettings& settings;
    TransportBar& transport;
    QWidget* window;
    DevicePanel* panel = nullptr;
    DeviceWish wish;
};

} // namespace earwright::ui
