#include "ui/transport/WordRow.h"

#include "ui/theme/QuietButton.h"

#include <QButtonGroup>
#include <QHBoxLayout>

namespace earwright::ui {

WordRow::WordRow(const QString& name, const std::vector<Word>& words, QWidget* parent) : QWidget(parent) {
    setAccessibleName(name);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    auto* group = new QButtonGroup(this);
    for (const Word& word : words) {
        auto* button = new QuietButton(word.text, this);
        button->setToolTip(word.toolTip);
        button->setCheckable(true);
        group->addButton(button, static_cast<int>(buttons.size()));
        row->addWidget(button);
        buttons.push_back(button);
    }
    connect(group, &QButtonGroup::idClicked, this, &WordRow::wordChosen);
    choose(0);
}

void WordRow::choose(int index) {
    wordButton(index)->setChecked(true);
}

} // namespace earwright::ui
