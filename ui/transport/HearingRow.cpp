#include "ui/transport/HearingRow.h"

#include "ui/theme/QuietButton.h"

#include <QButtonGroup>
#include <QHBoxLayout>

namespace earwright::ui {

HearingRow::HearingRow(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("What is heard"));
    const std::pair<QString, QString> choices[] = {
        {tr("record"), tr("The recording alone")},
        {tr("yours"), tr("The written notes alone")},
        {tr("together"), tr("Both at once")},
        {tr("split"), tr("The recording on the left, the written notes on the right")},
        {tr("trade"), tr("The phrase from the recording, then from the written notes")},
    };
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    auto* group = new QButtonGroup(this);
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        auto* button = new QuietButton(choices[i].first, this);
        button->setToolTip(choices[i].second);
        button->setCheckable(true);
        group->addButton(button, static_cast<int>(i));
        row->addWidget(button);
        buttons[i] = button;
    }
    connect(group, &QButtonGroup::idClicked, this, [this](int id) { emit chosen(static_cast<Hearing>(id)); });
    setHearing(Hearing::Record);
}

void HearingRow::setHearing(Hearing hearing) {
    button(hearing)->setChecked(true);
}

} // namespace earwright::ui
