// The form strip: the whole recording with its form, where the ear is, and the loop.
#pragma once

#include "ui/strip/StripGeometry.h"
#include "ui/strip/StripModel.h"
#include "ui/strip/StripTool.h"

#include <QWidget>

#include <functional>
#include <memory>
#include <optional>

class QLabel;
class QToolButton;

namespace earwright::ui {

/// Shows; and asks by signal for what the hand wants. Threads: interface only.
class FormStripView : public QWidget {
    Q_OBJECT
public:
    explicit FormStripView(QWidget* parent = nullptr);

    /// Requires: not null.
    void setStudy(std::shared_ptr<const Study> study);
    /// A recording and how to ask for its levels.
    void setRecording(Seconds duration, std::function<std::optional<float>(const Range<Seconds>&)> level);
    /// How much of the overview is drawn, 0 to 1; nothing when it is complete or was called off.
    void setDrawn(std::optional<double> share);
    void setHeard(Seconds place);

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

signals:
    void seekRequested(earwright::Seconds place);
    void loopRequested(earwright::Range<earwright::Seconds> loop);
    void drawingCancelled();

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void lay();
    /// For those who listen to the screen.
    void describe();
    void showPointer(double x);

    StripModel model;
    StripGeometry geometry;
    StripTool tool;
    QLabel* progress = nullptr;
    QToolButton* cancel = nullptr;
};

} // namespace earwright::ui
