// What is heard: record, yours, together, split or trade, as words to choose from.
#pragma once

#include "core/engine/Engine.h"

#include <QWidget>

#include <array>

namespace earwright::ui {

class QuietButton;

class HearingRow : public QWidget {
    Q_OBJECT
public:
    explicit HearingRow(QWidget* parent = nullptr);

    void setHearing(Hearing hearing);
    QuietButton* button(Hearing hearing) const { return buttons[static_cast<std::size_t>(hearing)]; }

signals:
    void chosen(earwright::Hearing hearing);

private:
    std::array<QuietButton*, 5> buttons{};
};

} // namespace earwright::ui
