// The beat made audible: clicks while the record plays, how loud they are, and beats counted in before it.
#pragma once

#include <QWidget>

namespace earwright::ui {

class QuietButton;
class SignedStepper;
class Stepper;

/// Shows what it is told and asks by signal. Without marked bars there is no beat to click.
/// Threads: interface only.
class ClickRow : public QWidget {
    Q_OBJECT
public:
    static constexpr int softest = -24;
    static constexpr int loudest = 12;
    static constexpr int mostCountIn = 8;

    explicit ClickRow(QWidget* parent = nullptr);

    void show(bool audible, int decibels, int countIn);
    void setHasBeats(bool hasBeats);
    QuietButton* clicksButton() const { return clicks; }
    SignedStepper* level() const { return levelStepper; }
    Stepper* countIn() const { return countInStepper; }

signals:
    void clicksChosen(bool audible);
    void levelChosen(int decibels);
    /// 0 to 8 beats.
    void countInChosen(int beats);

private:
    QuietButton* clicks;
    SignedStepper* levelStepper;
    Stepper* countInStepper;
};

} // namespace earwright::ui
