// A number with its sign, between two signs that step it.
#pragma once

#include <QWidget>

namespace earwright::ui {

class QuietButton;

/// "−  +2  +". A click on the number itself sets it back to 0.
class SignedStepper : public QWidget {
    Q_OBJECT
public:
    /// Name: what it steps, for screen readers. Limit: both ways.
    SignedStepper(const QString& name, int limit, QWidget* parent = nullptr);

    void setValue(int value);
    int value() const { return number; }
    QString text() const;
    QuietButton* lowerButton() const { return lower; }
    QuietButton* higherButton() const { return higher; }
    QuietButton* numberButton() const { return shown; }

signals:
    /// Asked for by the user; the number shown follows setValue() only.
    void chosen(int value);

protected:
    void wheelEvent(QWheelEvent* event) override;

private:
    void step(int by);

    int limit;
    int number = 0;
    QuietButton* lower;
    QuietButton* shown;
    QuietButton* higher;
};

} // namespace earwright::ui
