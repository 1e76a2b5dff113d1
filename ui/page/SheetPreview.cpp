#include "ui/page/SheetPreview.h"

#include "ui/page/PagePainter.h"
#include "ui/theme/Theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr double margin = 8;

} // namespace

SheetPreview::SheetPreview(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Preview of the sheet"));
    setToolTip(tr("Page Up and Page Down turn the page"));
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(240, 340);
}

void SheetPreview::show(std::shared_ptr<MusicFont> with, std::vector<EngravedPage> pages) {
    font = std::move(with);
    sheets = std::move(pages);
    turnTo(current);
    update();
}

void SheetPreview::turnTo(std::size_t page) {
    current = sheets.empty() ? 0 : std::min(page, sheets.size() - 1);
    update();
    emit turned();
}

QRectF SheetPreview::paperRect(const EngravedPage& page) const {
    const double scale = std::min((width() - 2 * margin) / page.width, (height() - 2 * margin) / page.height);
    const QSizeF size(page.width * scale, page.height * scale);
    return {{(width() - size.width()) / 2, (height() - size.height()) / 2}, size};
}

void SheetPreview::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), color(Role::Shade));
    if (!font || sheets.empty()) return;
    const EngravedPage& page = sheets[current];
    const QRectF paper = paperRect(page);
    // Paper is white and its print black, whatever the window looks like.
    painter.fillRect(paper, Qt::white);
    painter.setPen(color(Role::Ink, 0.4));
    painter.drawRect(paper);
    painter.translate(paper.topLeft());
    painter.scale(paper.width() / page.width, paper.width() / page.width);
    paintShapes(painter, page.shapes, *font, {});
}

void SheetPreview::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_PageDown) return turnTo(current + 1);
    if (event->key() == Qt::Key_PageUp) return turnTo(current > 0 ? current - 1 : 0);
    QWidget::keyPressEvent(event);
}

void SheetPreview::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || sheets.empty()) return QWidget::mousePressEvent(event);
    turnTo((current + 1) % sheets.size());
}

} // namespace earwright::ui
