// How loud the input is, and whether anything was cut off.
#pragma once

#include <QElapsedTimer>
#include <QWidget>

namespace earwright::ui {

/// A bar from −60 to 0 dB that falls back slowly; "too loud" stands beside it for three seconds after a
/// sample reached full scale, and the bar's end is then struck through.
class LevelMeter : public QWidget {
    Q_OBJECT
public:
    explicit LevelMeter(QWidget* parent = nullptr);

    /// Highest absolute sample since the last call, 1 being full scale; called some ten times a second.
    void setLevel(float peak, bool isClipped);
    bool showsClipping() const;
    /// Share of the bar that is filled, 0 to 1.
    double shown() const { return share; }

    QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    double share = 0;
    bool wasClipped = false;
    QElapsedTimer sinceClipped;
};

} // namespace earwright::ui
