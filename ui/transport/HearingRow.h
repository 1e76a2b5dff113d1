// What is heard: record, yours, together, split or trade, as words to choose from.
#pragma once

#include "core/engine/Engine.h"
#include "ui/transport/WordRow.h"

namespace earwright::ui {

class HearingRow : public WordRow {
    Q_OBJECT
public:
    explicit HearingRow(QWidget* parent = nullptr);

    void setHearing(Hearing hearing) { choose(static_cast<int>(hearing)); }
    QuietButton* button(Hearing hearing) const { return wordButton(static_cast<int>(hearing)); }

signals:
    void chosen(earwright::Hearing hearing);
};

} // namespace earwright::ui
