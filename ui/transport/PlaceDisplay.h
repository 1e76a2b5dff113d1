// Where the ear is: bar and beat in large letters, the clock and the speed under them.
#pragma once

#include "core/time/Seconds.h"

#include <QString>
#include <QWidget>

namespace earwright::ui {

/// Painted by itself, so that many changes a second lay nothing out anew.
class PlaceDisplay : public QWidget {
    Q_OBJECT
public:
    explicit PlaceDisplay(QWidget* parent = nullptr);

    /// Bar and beat as placeText() words them; empty where no bars are marked: then the clock is large.
    void showPlace(const QString& barAndBeat, Seconds now, Seconds length);
    /// Played ÷ original.
    void showSpeed(double speed);

    QString largeText() const { return large; }
    QString smallText() const;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString large;
    QString clock;
    QString speedText;
};

} // namespace earwright::ui
