// One message of the message bar: a sentence, its answers and a way to close it.
#pragma once

#include "ui/desk/MessageBar.h"

#include <QTimer>
#include <QWidget>

#include <vector>

class QAbstractButton;
class QLabel;

namespace earwright::ui {

class MessageRow : public QWidget {
    Q_OBJECT
public:
    MessageRow(MessageBar::Tone tone, const QString& sentence, std::vector<MessageBar::Answer> answers,
               QWidget* parent);

    QString sentence() const;
    const std::vector<QAbstractButton*>& answerButtons() const { return buttons; }

signals:
    void closed();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    MessageBar::Tone tone;
    QLabel* label;
    std::vector<QAbstractButton*> buttons;
    QTimer expiry;
};

} // namespace earwright::ui
