// A row of quiet words of which one is chosen.
#pragma once

#include <QWidget>

#include <vector>

namespace earwright::ui {

class QuietButton;

class WordRow : public QWidget {
    Q_OBJECT
public:
    struct Word {
        QString text;
        QString toolTip;
    };
    /// `name` is for screen readers. The first word is chosen until another is.
    WordRow(const QString& name, const std::vector<Word>& words, QWidget* parent = nullptr);

    /// Chooses without a signal. Requires: `index` counts the words from 0.
    void choose(int index);
    QuietButton* wordButton(int index) const { return buttons[static_cast<std::size_t>(index)]; }

signals:
    /// The user chose a word.
    void wordChosen(int index);

private:
    std::vector<QuietButton*> buttons;
};

} // namespace earwright::ui
