// The example sheet from the desk: asked where to, then written.
#pragma once

#include "ui/desk/DeskSession.h"
#include "ui/desk/MessageBar.h"

#include <QObject>

#include <filesystem>

class QWidget;

namespace earwright::ui {

/// Threads: interface only. A page takes a few hundredths of a second.
class SheetDesk : public QObject {
    Q_OBJECT
public:
    SheetDesk(DeskSession& session, MessageBar& messages, QWidget& window);

    void askWhereTo();
    /// The study's phrases with staff and tablature, by the name's extension; says what was written or why
    /// not.
    void writeTo(const std::filesystem::path& file);

private:
    DeskSession& session;
    MessageBar& messages;
    QWidget& window;
};

} // namespace earwright::ui
