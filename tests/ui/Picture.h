// Pictures of what the tests show, to be looked at by eye.
#pragma once

#include "ui/theme/Theme.h"

#include <QDir>
#include <QImage>
#include <QWidget>

namespace earwright::ui {

/// Draws a widget at twice its size, as on a dense display, and keeps the picture where EARWRIGHT_SHOTS names
/// a folder.
inline void keepPicture(QWidget& widget, const QString& name) {
    QImage image(widget.size() * 2, QImage::Format_RGB32);
    image.setDevicePixelRatio(2);
    image.fill(color(Role::Paper));
    widget.render(&image);
    const QString folder = qEnvironmentVariable("EARWRIGHT_SHOTS");
    if (!folder.isEmpty()) image.save(QDir(folder).filePath(name));
}

} // namespace earwright::ui
