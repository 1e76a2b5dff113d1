// A value between two signs that step it.
#pragma once

#include "ui/theme/WheelNotches.h"

#include <QWidget>

#include <functional>

namespace earwright::ui {

class QuietButton;

/// "−  +2  +", or "−  B♭2  +". A click on the value asks for its resting value; the wheel steps it.
class Stepper : public QWidget {
    Q_OBJECT
public:
    struct Scale {
        int lowest = 0;
        int highest = 0;
        /// What a click on the value asks for.
        int rest = 0;
        std::function<QString(int)> wording;
        QString restTip;
    };
    /// Name: what it steps, for screen readers.
    Stepper(const QString& name, Scale scale, QWidget* parent = nullptr);

    void setValue(int value);
    int value() const { return number; }
    QString text() const { return scale.wording(number); }
    QuietButton* lowerButton() const { return lower; }
    QuietButton* higherButton() const { return higher; }
    QuietButton* valueButton() const { return shown; }

signals:
    /// Asked for by the user; the value shown follows setValue() only.
    void chosen(int value);

protected:
    void wheelEvent(QWheelEvent* event) override;

private:
    void step(int by);

    Scale scale;
    int number = 0;
    QuietButton* lower;
    QuietButton* shown;
    QuietButton* higher;
    WheelNotches wheel;
};

} // namespace earwright::ui
