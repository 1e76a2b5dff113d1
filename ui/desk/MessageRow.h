// One message of the message bar: a sentence, its answers and a way to close it.
#pragma once

#include "ui/desk/MessageBar.h"

#include <QTimer>
#include <QWidget>

#include <vector>

class QAbstractButton;
class QLabel;
class QToolButton;

namespace earwright::ui {

class MessageRow : public QWidget {
    Q_OBJECT
public:
    MessageRow(MessageBar::Tone tone, const QString& sentence, std::vector<MessageBar::Answer> answers,
               QWidget* parent);

    QString sentence() const;
    /// Other words and deeds on the same row. Requires: `fits` them.
    void change(const QString& sentence, std::vector<MessageBar::Answer> answers);
    /// True where the row has this tone and offers these answers by their words.
    bool fits(MessageBar::Tone tone, const std::vector<MessageBar::Answer>& answers) const;
    const std::vector<QAbstractButton*>& answerButtons() const { return buttons; }

    /// Of a notice without answers in so much width; empty for others.
    QSize sizePassing(int widest) const;
    /// In small letters and without a margin over and under it.
    void setPassing(bool passing);

signals:
    void closed();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    MessageBar::Tone tone;
    QLabel* label;
    std::vector<MessageBar::Answer> offered;
    std::vector<QAbstractButton*> buttons;
    QToolButton* closing;
    QTimer expiry;
};

} // namespace earwright::ui
