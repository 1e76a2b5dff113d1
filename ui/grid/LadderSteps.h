// The four steps of the hint ladder as circles on a dotted line; those opened are filled.
#pragma once

#include "core/study/EarRecord.h"

#include <QStringList>
#include <QWidget>

namespace earwright::ui {

/// A click anywhere asks for the next step, never for a later one.
class LadderSteps : public QWidget {
    Q_OBJECT
public:
    explicit LadderSteps(QWidget* parent = nullptr);

    void setStep(HelpStep step);
    HelpStep step() const { return opened; }
    /// Where the circle of a step from SomethingOff to ShowIt is painted.
    QPointF circle(HelpStep step) const;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return {240, sizeHint().height()}; }

signals:
    void nextRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

private:
    double labelWidth(int index) const;

    QStringList labels;
    HelpStep opened = HelpStep::None;
};

} // namespace earwright::ui
