#include "ui/page/PageView.h"

#include "ui/page/PageCanvas.h"
#include "ui/page/PageMenu.h"

#include <QContextMenuEvent>
#include <QFrame>
#include <QLayout>
#include <QMenu>
#include <QMetaMethod>
#include <QResizeEvent>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <cstdlib>

namespace earwright::ui {

namespace {

/// One line with tablature, at least; what is more is scrolled to where the grid needs the room.
constexpr int leastPixels = 180;
/// What the grid keeps beyond the least that it asks for: about an octave and a half.
constexpr int keptForGrid = 180;
constexpr double narrowest = 30;

} // namespace

PageView::PageView(QWidget* parent) : QScrollArea(parent), paper(new PageCanvas) {
    setWidget(paper);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    connect(paper, &PageCanvas::noteChosen, this, &PageView::noteChosen);
    auto loaded = MusicFont::load();
    if (loaded) {
        font = *std::move(loaded);
        metrics = std::make_shared<const FontMetrics>(font->metrics());
    } else {
        problem = QString::fromStdString(loaded.error().message);
    }
    if (parent) parent->installEventFilter(this);
    setVisible(false);
}

void PageView::setLayer(Layer beside) {
    layer = std::move(beside);
}

void PageView::setStudy(std::shared_ptr<const Study> given) {
    if (given == study) return;
    study = std::move(given);
    layOut();
}

void PageView::setBars(const std::optional<Range<Beats>>& shown) {
    if (shown == bars) return;
    bars = shown;
    layOut();
    verticalScrollBar()->setValue(0);
}

void PageView::setSelected(const std::vector<NoteId>& notes, const std::optional<NoteId>& atCursor) {
    paper->select({notes.begin(), notes.end()});
    sought = atCursor;
    seek();
}

void PageView::showPlace(const Beats& place) {
    soughtPlace = place;
    const int line = isVisible() ? paper->lineAt(place) : -1;
    if (line >= 0) bringIntoSight(paper->boxOfLine(line));
    if (!isOrdered && isVisible()) soughtPlace.reset();
}

void PageView::seek() {
    if (!isVisible()) return;
    const QRect ofNote = sought ? paper->lineOf(*sought) : QRect();
    const int ofPlace = soughtPlace ? paper->lineAt(*soughtPlace) : -1;
    if (!ofNote.isEmpty())
        bringIntoSight(ofNote);
    else if (ofPlace >= 0)
        bringIntoSight(paper->boxOfLine(ofPlace));
    // On the page that comes it may stand elsewhere.
    if (isOrdered) return;
    soughtPlace.reset();
    if (!ofNote.isEmpty()) sought.reset();
}

void PageView::setPlayhead(const std::optional<Beats>& place) {
    const bool isHere = place && bars && bars->contains(*place);
    paper->setPlayhead(isHere ? place : std::nullopt);
    // It scrolls where the music goes on to another line, and leaves alone who looks elsewhere meanwhile.
    const int line = isHere ? paper->lineAt(*place) : -1;
    if (line == playingLine) return;
    playingLine = line;
    if (line >= 0 && isVisible()) bringIntoSight(paper->boxOfLine(line));
}

void PageView::bringIntoSight(const QRect& line) {
    // A line is read as a whole: it is brought into sight from its top.
    const QRect shown(0, verticalScrollBar()->value(), viewport()->width(), viewport()->height());
    if (line.top() < shown.top() || line.bottom() > shown.bottom()) verticalScrollBar()->setValue(line.top());
}

void PageView::setWanted(bool isWantedNow) {
    wanted = isWantedNow;
    layOut();
}

void PageView::setWish(const PageWish& next) {
    if (next == reading) return;
    reading = next;
    layOut();
}

void PageView::choose(const PageWish& next) {
    setWish(next);
    emit wishChanged();
}

void PageView::openMenu(const QPoint& globalPlace, const std::optional<NoteId>& note) {
    makeMenu(note)->popup(globalPlace);
}

void PageView::openMenuByKey(const std::optional<NoteId>& note) {
    const QRect head = note && isVisible() ? paper->placeOf(*note) : QRect();
    const bool isInSight =
        !head.isEmpty() && viewport()->rect().contains(paper->mapTo(viewport(), head.center()));
    // A page that is not drawn yet, or has nothing to show, has no place of its own.
    const QWidget* over = isVisible() || !parentWidget() ? viewport() : parentWidget();
    QMenu* menu = makeMenu(note);
    menu->popup(isInSight ? paper->mapToGlobal(head.bottomLeft()) : over->mapToGlobal(over->rect().center()));
}

QMenu* PageView::makeMenu(const std::optional<NoteId>& note) {
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const Note* written = study && note ? study->note(*note) : nullptr;
    if (written && isSignalConnected(QMetaMethod::fromSignal(&PageView::pinWanted))) {
        addStringsOf(*menu, *written, study->tuning,
                     [this, id = *note](std::optional<int> string) { emit pinWanted(id, string); });
        menu->addSeparator();
    }
    addPageWishes(*menu, reading, [this](const PageWish& next) { choose(next); });
    if (isSignalConnected(QMetaMethod::fromSignal(&PageView::stringsWanted))) {
        menu->addSeparator();
        connect(menu->addAction(tr("Strings and tuning…")), &QAction::triggered, this,
                &PageView::stringsWanted);
    }
    return menu;
}

QRect PageView::placeOf(NoteId note) const {
    return paper->placeOf(note);
}

QWidget* PageView::canvas() const {
    return paper;
}

QSize PageView::sizeHint() const {
    return {paper->minimumWidth(), fitting};
}

int PageView::roomInPanel() const {
    const QLayout* layout = parentWidget() ? parentWidget()->layout() : nullptr;
    if (!layout) return 0;
    const QMargins margins = layout->contentsMargins();
    int room = parentWidget()->height() - margins.top() - margins.bottom() - keptForGrid;
    for (int i = 0; i < layout->count(); ++i) {
        QLayoutItem* item = layout->itemAt(i);
        if (item->widget() == this || item->isEmpty()) continue;
        room -= item->minimumSize().height() + std::max(0, layout->spacing());
    }
    return room;
}

int PageView::fittingHeight() const {
    return std::max(1, paper->heightOfWholeLines(std::max(leastPixels, roomInPanel())));
}

void PageView::fitHeight() {
    fitting = fittingHeight();
    setMinimumHeight(std::min(fitting, leastPixels));
    setMaximumHeight(fitting);
    updateGeometry();
}

void PageView::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    if (event->size().width() != event->oldSize().width()) layOut();
}

void PageView::contextMenuEvent(QContextMenuEvent* event) {
    const QPoint onPaper = paper->mapFromGlobal(event->globalPos());
    const auto note = paper->noteAt(onPaper);
    if (note) emit noteChosen(*note);
    openMenu(event->globalPos(), note);
}

void PageView::wheelEvent(QWheelEvent* event) {
    if (!event->modifiers().testFlag(Qt::ControlModifier)) return QScrollArea::wheelEvent(event);
    event->accept();
    const int notches = wheel.take(event->angleDelta().y());
    PageWish next = reading;
    for (int i = 0; i < std::abs(notches); ++i)
        next.zoom = nextZoom(next.zoom, notches > 0);
    if (notches != 0) choose(next);
}

/// The panel's height, and what else needs room there, decide how much the page may take of it; a panel that
/// is hidden needs no page.
bool PageView::eventFilter(QObject* watched, QEvent* event) {
    if (watched == parentWidget() && event->type() == QEvent::Resize) fitHeight();
    // Fitting asks for a new layout itself.
    if (watched == parentWidget() && event->type() == QEvent::LayoutRequest && fittingHeight() != fitting)
        fitHeight();
    if (watched == parentWidget() && event->type() == QEvent::Show) layOut();
    return QScrollArea::eventFilter(watched, event);
}

void PageView::changeEvent(QEvent* event) {
    QScrollArea::changeEvent(event);
    if (event->type() == QEvent::ParentChange && parentWidget()) parentWidget()->installEventFilter(this);
}

void PageView::layOut() {
    const std::uint64_t mine = ++orders;
    isOrdered = false;
    const bool isWritten = study && bars && !study->notesIn(*bars).empty();
    if (!font || !wanted || !isWritten) return setVisible(false);
    // The panel's coming into sight lays it out.
    if (parentWidget() && !parentWidget()->isVisible()) return;
    const double zoom = reading.zoom;
    const double spaces = viewport()->width() / PageCanvas::pixelsAt(zoom) - 1;
    const PageOrder order{study, *bars, reading, std::max(narrowest, spaces), metrics};
    if (!layer) return take(laidOut(order), zoom);
    isOrdered = true;
    layer(order, [this, mine, zoom](Laid laid) {
        if (mine == orders) take(std::move(laid), zoom);
    });
}

void PageView::take(Laid laid, double zoom) {
    isOrdered = false;
    if (!laid) {
        problem = QString::fromStdString(laid.error().message);
        return setVisible(false);
    }
    problem.clear();
    paper->show(font, *std::move(laid), zoom);
    fitHeight();
    setVisible(true);
    // Once there is room to scroll in.
    if (sought || soughtPlace) QMetaObject::invokeMethod(this, &PageView::seek, Qt::QueuedConnection);
}

} // namespace earwright::ui
