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
    /// What goes on instead of the record, "count-in 3": large, until it is empty again.
    void showStage(const QString& words);

    /// One instant is held.
    void showHeld(bool held);

    QString largeText() const { return stage.isEmpty() ? large : stage; }
    QString smallText() const;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString large;
    QString stage;
    QString clock;
    QString speedText;
    bool held = false;
};

} // namespace earwright::ui
