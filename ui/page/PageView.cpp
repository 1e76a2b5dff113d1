#include "ui/page/PageView.h"

#include "core/engraving/Engraving.h"
#include "core/engraving/Fingering.h"
#include "ui/page/PageCanvas.h"

#include <QFrame>
#include <QResizeEvent>
#include <QScrollBar>

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr int barsPerLine = 2;
/// One line with tablature and the beginning of the next, to which one scrolls; the grid needs the room.
constexpr int mostPixels = 180;
constexpr double narrowest = 30;

} // namespace

PageView::PageView(QWidget* parent) : QScrollArea(parent), paper(new PageCanvas) {
    setWidget(paper);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setMaximumHeight(mostPixels);
    setFocusPolicy(Qt::NoFocus);
    connect(paper, &PageCanvas::noteChosen, this, &PageView::noteChosen);
    auto loaded = MusicFont::load();
    if (loaded)
        font = *std::move(loaded);
    else
        problem = QString::fromStdString(loaded.error().message);
    setVisible(false);
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

void PageView::setSelected(const std::optional<NoteId>& note) {
    paper->select(note);
    if (!note || !isVisible()) return;
    // A line is read as a whole: it is brought into sight from its top.
    const QRect line = paper->lineOf(*note);
    const QRect shown(0, verticalScrollBar()->value(), viewport()->width(), viewport()->height());
    if (line.top() < shown.top() || line.bottom() > shown.bottom()) verticalScrollBar()->setValue(line.top());
}

void PageView::setWanted(bool isWantedNow) {
    wanted = isWantedNow;
    layOut();
}

QRect PageView::placeOf(NoteId note) const {
    return paper->placeOf(note);
}

QWidget* PageView::canvas() const {
    return paper;
}

void PageView::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    if (event->size().width() != event->oldSize().width()) layOut();
}

void PageView::layOut() {
    const auto written = study && bars ? study->notesIn(*bars) : std::vector<Note>{};
    if (!font || !wanted || written.empty()) return setVisible(false);
    EngravingOptions options;
    options.margin = 0;
    options.pageWidth = std::max(narrowest, viewport()->width() / PageCanvas::pixelsOfSpace - 1);
    options.barsPerLine = barsPerLine;
    options.strings = static_cast<int>(tuning.strings.size());
    options.places = fingered(written, tuning).places;
    auto systems = engraveSystems(*study, barsAround(*study, *bars), options, font->metrics());
    if (!systems) {
        problem = QString::fromStdString(systems.error().message);
        return setVisible(false);
    }
    problem.clear();
    paper->show(font, *std::move(systems));
    setMinimumHeight(std::min(paper->height(), mostPixels));
    setVisible(true);
}

} // namespace earwright::ui
