// The real desk in a folder of its own, with an engine that needs no device.
#pragma once

#include "tests/ui/Soon.h"
#include "ui/desk/DeskWindow.h"

#include <QSettings>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <filesystem>
#include <gtest/gtest.h>
#include <memory>

namespace earwright::ui {

class SilentDesk : public testing::Test {
protected:
    void TearDown() override {
        if (window && window->session().isOpen()) window->session().giveUp();
    }

    DeskSession::Options options(bool withDevice = false) const {
        DeskSession::Options wanted;
        wanted.engine.openDevice = withDevice;
        wanted.unsavedWork = in("unsaved");
        return wanted;
    }
    std::filesystem::path in(const char* name) const {
        return std::filesystem::path(folder.path().toStdString()) / name;
    }
    /// A window, in place of the one before, with the keyboard on it.
    void openWindow(bool withDevice = false) {
        window = std::make_unique<DeskWindow>(options(withDevice), settings);
        window->show();
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
    }
    void open(const std::filesystem::path& path) {
        QSignalSpy opened(&window->session(), &DeskSession::opened);
        window->open(path);
        ASSERT_TRUE(soon([&] { return !opened.isEmpty(); })) << path;
    }
    void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QTest::keyClick(window.get(), key, modifiers);
    }
    const Study& study() { return window->session().study(); }

    QTemporaryDir folder;
    QSettings settings{folder.filePath("settings.ini"), QSettings::IniFormat};
    std::unique_ptr<DeskWindow> window;
};

} // namespace earwright::ui
