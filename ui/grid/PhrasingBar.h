// The words for phrasing, offered beside the selected note.
#pragma once

#include "core/music/Note.h"
#include "ui/grid/GridEdits.h"

#include <QWidget>

#include <array>

namespace earwright::ui {

class QuietButton;

/// "slide grace trill slur ghost accent" on a slip of paper; those the note has are underlined.
class PhrasingBar : public QWidget {
    Q_OBJECT
public:
    explicit PhrasingBar(QWidget* parent = nullptr);

    void show(const Phrasing& phrasing);
    QuietButton* button(PhrasingKind kind) const { return buttons[static_cast<std::size_t>(kind)]; }

signals:
    void chosen(earwright::ui::PhrasingKind kind);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    std::array<QuietButton*, 6> buttons{};
};

} // namespace earwright::ui
