#include "ui/strip/FormStripView.h"

#include "ui/strip/StripPainter.h"
#include "ui/theme/FocusLine.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/StudyPlace.h"

#include <QKeyEvent>
#include <QLabel>
#include <QMouseEvent>
#include <QPaintEvent>
#include <QToolButton>

#include <cmath>

namespace earwright::ui {

namespace {

constexpr int stripHeight = 60;
constexpr int playheadReach = 6;

} // namespace

FormStripView::FormStripView(QWidget* parent)
    : QWidget(parent), progress(new QLabel(this)), cancel(new QToolButton(this)) {
    setAccessibleName(tr("Form strip"));
    setWhatsThis(tr("The whole recording. Click to hear a place, drag to loop a stretch."));
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    cancel->setText(tr("Cancel"));
    cancel->setAccessibleName(tr("Stop drawing the overview"));
    cancel->setFocusPolicy(Qt::TabFocus); // after a click the desk's keys stay where they were
    connect(cancel, &QToolButton::clicked, this, &FormStripView::drawingCancelled);
    setDrawn(std::nullopt);
}

QSize FormStripView::sizeHint() const {
    return {800, stripHeight};
}

QSize FormStripView::minimumSizeHint() const {
    return {200, stripHeight};
}

void FormStripView::setStudy(std::shared_ptr<const Study> study) {
    model.study = std::move(study);
    describe();
    update();
}

void FormStripView::describe() {
    const QString now = earIn(*model.study, model.heard, std::nullopt);
    if (now != accessibleDescription()) setAccessibleDescription(now);
}

void FormStripView::setRecording(Seconds duration,
                                 std::function<std::optional<float>(const Range<Seconds>&)> level) {
    model.duration = duration;
    model.level = std::move(level);
    lay();
}

void FormStripView::setDrawn(std::optional<double> share) {
    progress->setVisible(share.has_value());
    cancel->setVisible(share.has_value());
    if (share) progress->setText(tr("drawing the overview, %1 %").arg(std::lround(*share * 100)));
    lay();
}

void FormStripView::setHeard(Seconds place) {
    const auto around = [this](double x) {
        return QRect(static_cast<int>(std::floor(x)) - playheadReach, 0, 2 * playheadReach + 1, height());
    };
    const double before = geometry.x(model.heard);
    const double now = geometry.x(place);
    // A strip of four minutes moves a tenth of a pixel a frame: most frames need no painting at all. The
    // place shown stays the one painted, so that small moves add up.
    if (std::abs(before - now) < 0.25) return;
    model.heard = place;
    describe();
    update(around(before));
    update(around(now));
}

void FormStripView::lay() {
    geometry = StripGeometry(QSizeF(size()), model.duration);
    progress->adjustSize();
    cancel->adjustSize();
    const int right = width() - spacing::medium;
    cancel->move(right - cancel->width(), (height() - cancel->height()) / 2);
    progress->move(cancel->x() - spacing::small - progress->width(), (height() - progress->height()) / 2);
    update();
}

void FormStripView::paintEvent(QPaintEvent* event) {
    QPainter painter(this);
    StripPainter(model, geometry).paint(painter, QRectF(event->rect()));
    if (hasFocus()) paintFocusLine(painter, geometry.page(), spacing::corner);
}

void FormStripView::resizeEvent(QResizeEvent*) {
    lay();
}

void FormStripView::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || model.duration <= Seconds(0)) return;
    tool.press(event->position().x(), geometry, model.study->practice.loop);
}

void FormStripView::mouseMoveEvent(QMouseEvent* event) {
    showPointer(event->position().x());
    if (!tool.isActive()) return;
    model.dragged = tool.move(event->position().x(), geometry);
    update();
}

void FormStripView::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || !tool.isActive()) return;
    const StripTool::Wish wish = tool.release(event->position().x(), geometry);
    model.dragged.reset();
    update();
    if (wish.seek) emit seekRequested(*wish.seek);
    if (wish.loop) emit loopRequested(*wish.loop);
}

bool FormStripView::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        // The desk has these keys for other things: Esc gives the drag up first, and Tab reaches the button.
        const int key = static_cast<QKeyEvent*>(event)->key();
        if ((key == Qt::Key_Escape && tool.isActive()) || (key == Qt::Key_Tab && cancel->isVisible())) {
            event->accept();
            return true;
        }
    }
    return QWidget::event(event);
}

void FormStripView::keyPressEvent(QKeyEvent* event) {
    if (event->key() != Qt::Key_Escape || !tool.isActive()) return QWidget::keyPressEvent(event);
    tool.cancel();
    model.dragged.reset();
    update();
}

void FormStripView::showPointer(double x) {
    const auto& loop = model.study->practice.loop;
    const bool onEdge = loop && geometry.edgeAt(x, *loop).has_value();
    setCursor(onEdge ? Qt::SizeHorCursor : Qt::ArrowCursor);
    setToolTip(model.duration > Seconds(0) ? clockText(geometry.timeAt(x)) : QString());
}

} // namespace earwright::ui
