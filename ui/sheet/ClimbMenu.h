// The menu of the climb on the loop's pill: its step, its passes, its target, a step back, and off.
#pragma once

#include "core/engine/Climb.h"

#include <QMenu>
#include <QString>

#include <optional>
#include <vector>

namespace earwright::ui {

/// Stays open while one thing after another is chosen; every choice holds at once.
class ClimbMenu : public QMenu {
    Q_OBJECT
public:
    /// Shows a climb, also one that is off: choosing from it switches it on.
    ClimbMenu(const Climb& climb, bool climbing, QWidget* parent = nullptr);

signals:
    /// Nothing: no climb any more.
    void chosen(const std::optional<earwright::Climb>& climb);
    /// A step slower, and on from there.
    void stepBackChosen();

protected:
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void offer(const QString& title, const QString& each, const std::vector<int>& values, int Climb::*part);

    Climb shown;
    QAction* back = nullptr;
    QAction* off = nullptr;
};

/// The words on the pill.
QString climbText(const Climb& climb, bool climbing);
/// The same in a sentence.
QString climbTip(const Climb& climb, bool climbing);

} // namespace earwright::ui
