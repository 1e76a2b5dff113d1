#include "ui/sheet/PillMenu.h"

#include "core/engine/LoopManner.h"

#include <QActionGroup>

namespace earwright::ui {

PillMenu::PillMenu(const QString& title, const std::vector<Choice>& choices, int current, QWidget* parent)
    : QMenu(parent) {
    addAction(title)->setEnabled(false);
    auto* group = new QActionGroup(this);
    for (const Choice& choice : choices) {
        QAction* action = group->addAction(addAction(choice.text));
        action->setCheckable(true);
        action->setChecked(choice.value == current);
        connect(action, &QAction::triggered, this, [this, value = choice.value] { emit chosen(value); });
    }
}

std::vector<PillMenu::Choice> gapChoices() {
    std::vector<PillMenu::Choice> choices{{PillMenu::tr("none"), 0}, {PillMenu::tr("1 beat"), 1}};
    for (int beats = 2; beats <= LoopManner::mostGapBeats; ++beats)
        choices.push_back({PillMenu::tr("%1 beats").arg(beats), beats});
    return choices;
}

std::vector<PillMenu::Choice> tradeChoices(const std::vector<int>& percents) {
    std::vector<PillMenu::Choice> choices{{PillMenu::tr("as the record"), asTheRecord}};
    for (const int percent : percents)
        choices.push_back({PillMenu::tr("%1 %").arg(percent), percent});
    return choices;
}

QString gapText(int beats) {
    return beats == 0 ? PillMenu::tr("gap") : PillMenu::tr("gap %1").arg(beats);
}

QString gapTip(int beats) {
    if (beats == 0) return PillMenu::tr("Leaves beats of silence after each pass, to sing or play it back");
    return beats == 1 ? PillMenu::tr("1 beat of silence after each pass")
                      : PillMenu::tr("%1 beats of silence after each pass").arg(beats);
}

QString tradeText(int percent) {
    return percent == asTheRecord ? PillMenu::tr("yours as the record")
                                  : PillMenu::tr("yours at %1 %").arg(percent);
}

QString tradeTip() {
    return PillMenu::tr("In trade, how fast your turn goes; the steps on the left are for the record's turn");
}

} // namespace earwright::ui
