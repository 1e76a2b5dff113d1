// Which part of the stereo picture is heard: all, left, right, centre or sides, as words to choose from.
#pragma once

#include "core/engine/Engine.h"
#include "ui/transport/WordRow.h"

namespace earwright::ui {

class FocusRow : public WordRow {
    Q_OBJECT
public:
    explicit FocusRow(QWidget* parent = nullptr);

    void setChosen(Focus focus) { choose(static_cast<int>(focus)); }
    /// A mono recording has no parts to choose from, and the row says so.
    void setIsStereo(bool isStereo);
    QuietButton* button(Focus focus) const { return wordButton(static_cast<int>(focus)); }

signals:
    void chosen(earwright::Focus focus);

private:
    static std::vector<Word> words();
};

} // namespace earwright::ui
