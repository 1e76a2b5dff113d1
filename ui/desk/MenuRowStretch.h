// The stretch of the menu row between the menus and the title, which holds nothing that one works with.
#pragma once

#include <QWidget>

class QMenuBar;

namespace earwright::ui {

/// Keeps to the room that menus and title leave, as they change; lies over their window. Threads: interface
/// only.
class MenuRowStretch : public QWidget {
    Q_OBJECT
public:
    /// `title`: the corner widget of the menus. Both live longer.
    MenuRowStretch(QMenuBar& menus, QWidget& title);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void keepTo();

    QMenuBar& menus;
    QWidget& title;
};

} // namespace earwright::ui
