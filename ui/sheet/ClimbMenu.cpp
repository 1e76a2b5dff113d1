#include "ui/sheet/ClimbMenu.h"

#include <QActionGroup>
#include <QKeyEvent>
#include <QMouseEvent>

namespace earwright::ui {

ClimbMenu::ClimbMenu(const Climb& climb, bool climbing, QWidget* parent) : QMenu(parent), shown(climb) {
    offer(tr("Faster by"), tr("%1 %"), {2, 5, 10}, &Climb::stepPercent);
    offer(tr("After passes"), tr("every %1"), {1, 2, 4, 8}, &Climb::everyPasses);
    offer(tr("Up to"), tr("%1 %"), {80, 100, 120}, &Climb::targetPercent);
    addSeparator();
    back = addAction(tr("A step back"), this, &ClimbMenu::stepBackChosen);
    back->setEnabled(climbing);
    off = addAction(tr("No climb"), [this] { emit chosen(std::nullopt); });
    off->setEnabled(climbing);
}

void ClimbMenu::offer(const QString& title, const QString& each, const std::vector<int>& values,
                      int Climb::*part) {
    addSeparator();
    addAction(title)->setEnabled(false);
    auto* group = new QActionGroup(this);
    for (const int value : values) {
        QAction* action = group->addAction(addAction(each.arg(value)));
        action->setCheckable(true);
        action->setChecked(shown.*part == value);
        connect(action, &QAction::triggered, this, [this, part, value] {
            shown.*part = value;
            back->setEnabled(true);
            off->setEnabled(true);
            emit chosen(shown);
        });
    }
}

void ClimbMenu::mouseReleaseEvent(QMouseEvent* event) {
    QAction* under = actionAt(event->position().toPoint());
    if (!under || !under->isCheckable()) return QMenu::mouseReleaseEvent(event);
    under->trigger();
}

void ClimbMenu::keyPressEvent(QKeyEvent* event) {
    const int key = event->key();
    const bool chooses = key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Space;
    QAction* under = activeAction();
    if (!chooses || !under || !under->isCheckable()) return QMenu::keyPressEvent(event);
    under->trigger();
}

QString climbText(const Climb& climb, bool climbing) {
    if (!climbing) return ClimbMenu::tr("climb");
    return ClimbMenu::tr("climb to %1").arg(climb.targetPercent);
}

QString climbTip(const Climb& climb, bool climbing) {
    if (!climbing) return ClimbMenu::tr("Lets the speed rise as the loop goes round");
    const QString passes = climb.everyPasses == 1 ? ClimbMenu::tr("every pass")
                                                  : ClimbMenu::tr("every %1 passes").arg(climb.everyPasses);
    return ClimbMenu::tr("Faster by %1 % %2, up to %3 %")
        .arg(climb.stepPercent)
        .arg(passes)
        .arg(climb.targetPercent);
}

} // namespace earwright::ui
