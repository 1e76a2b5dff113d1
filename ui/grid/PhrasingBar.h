// The words for phrasing, offered beside the selected note.
#pragma once

#include "core/music/Note.h"
#include "core/music/PhrasingKind.h"
#include "ui/commands/KeyWords.h"

#include <QWidget>

#include <array>
#include <optional>

class QLabel;

namespace earwright::ui {

class QuietButton;

/// "slide grace trill slur ghost accent" on a slip of paper, those the note has underlined, "more" for the
/// other marks, and in a row of its own what the mark in hand says, with a way up and down where it has a
/// value.
class PhrasingBar : public QWidget {
    Q_OBJECT
public:
    explicit PhrasingBar(QWidget* parent = nullptr);

    /// The key each command has now, for tooltips and the menu; the table's own until told.
    void setKeys(KeyOf keyOf);
    /// What the note has; its size follows, at most `widest` pixels. InHand: the mark whose value the arrows
    /// change.
    void prepare(const Note& note, std::optional<PhrasingKind> inHand, int widest);
    QSize sizeHint() const override { return arranged; }
    /// After prepare(): all in one row. Words that have no room in it are left to the menu, those the note
    /// has last; a value that has none is cut short, its tip whole.
    void arrangeInOneRow(int widest);
    /// All marks in a menu beside the bar.
    void openMenu();

    /// Null for kinds that stand in the menu only.
    QuietButton* button(PhrasingKind kind) const;
    QuietButton* moreButton() const { return more; }
    QuietButton* higherButton() const { return higher; }
    QuietButton* lowerButton() const { return lower; }
    QString valueText() const;

signals:
    void chosen(earwright::PhrasingKind kind);
    void moreGraceChosen();
    void valueStepped(int by);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void showTips();
    void arrange(int widest);
    QSize arrangeValue(int top, int widest);
    /// Puts a widget at the end of the row.
    int placeInRow(QWidget* widget, int x, int width);

    std::array<QuietButton*, 6> buttons{};
    QuietButton* more;
    QuietButton* lower;
    QLabel* value;
    QuietButton* higher;
    KeyOf keyOf;
    Phrasing phrasing;
    QSize arranged;
};

} // namespace earwright::ui
