#include "ui/sheet/ChorusSheetView.h"

#include "ui/sheet/SheetPainter.h"
#include "ui/theme/FocusLine.h"
#include "ui/theme/InlineEditor.h"
#include "ui/theme/StudyPlace.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QPaintEvent>
#include <QPainter>
#include <QScrollBar>
#include <QVariantAnimation>

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright::ui {

namespace {

constexpr int glideMilliseconds = 220;

} // namespace

ChorusSheetView::ChorusSheetView(QWidget* parent)
    : QAbstractScrollArea(parent), editor(new InlineEditor(viewport())), glide(new QVariantAnimation(this)) {
    setAccessibleName(tr("Chorus sheet"));
    setWhatsThis(tr("The recording in lines of bars. Click to hear a place, drag to choose a stretch, "
                    "drag the foot of a mark to move it; Ctrl catches on onsets."));
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    // Its room stays, so that no bar moves under the hand when another line begins.
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
    setFocusPolicy(Qt::StrongFocus);
    viewport()->setMouseTracking(true);
    glide->setDuration(glideMilliseconds);
    glide->setEasingCurve(QEasingCurve::InOutQuad);
    connect(glide, &QVariantAnimation::valueChanged, this,
            [this](const QVariant& value) { verticalScrollBar()->setValue(value.toInt()); });
    typing = {[this](std::int64_t bar) { typeChords(bar); },
              [this](SpanKind kind, const Range<Seconds>& range) { typeName(kind, range); },
              [this](SpanId span) { typeNewName(span); }, [this](Seconds place) { typeLooseEnd(place); },
              [this](LooseEndId looseEnd) { typeLooseEndAgain(looseEnd); }};
}

void ChorusSheetView::setStudy(std::shared_ptr<const Study> study) {
    const bool sameLines = study->beatMap == model.study->beatMap &&
                           study->meters() == model.study->meters() && study->spans == model.study->spans;
    model.study = std::move(study);
    model.markInReach.reset();
    sameLines ? redraw() : lay();
    describe();
}

void ChorusSheetView::setRecording(Seconds duration,
                                   std::function<std::optional<float>(const Range<Seconds>&)> level) {
    model.duration = duration;
    model.level = std::move(level);
    model.onsets.clear();
    model.stretch.reset();
    lay();
}

void ChorusSheetView::levelsChanged() {
    redraw();
}

void ChorusSheetView::setOnsets(std::vector<Seconds> onsets) {
    model.onsets = std::move(onsets);
    redraw();
}

void ChorusSheetView::setVerdicts(std::map<NoteId, Verdict> verdicts) {
    if (verdicts == model.verdicts) return;
    model.verdicts = std::move(verdicts);
    redraw();
}

void ChorusSheetView::setChordAnswers(std::vector<CheckedChord> answers) {
    if (answers == model.chordAnswers) return;
    model.chordAnswers = std::move(answers);
    redraw();
}

void ChorusSheetView::setProposal(std::vector<ProposedBeat> beats) {
    if (beats == model.proposal) return;
    model.proposal = std::move(beats);
    redraw();
}

void ChorusSheetView::setPhrase(std::optional<SpanId> phrase) {
    if (phrase == model.phrase) return;
    model.phrase = phrase;
    redraw();
}

void ChorusSheetView::setSelected(std::set<NoteId> notes) {
    if (notes == model.selected) return;
    model.selected = std::move(notes);
    viewport()->update();
}

void ChorusSheetView::setSpeedSteps(std::vector<int> percents) {
    model.speedSteps = std::move(percents);
    redraw();
}

void ChorusSheetView::setClimb(const Climb& climb, bool climbing) {
    model.climb = climb;
    model.climbing = climbing;
    redraw();
}

void ChorusSheetView::setGap(int beats) {
    if (beats == model.gapBeats) return;
    model.gapBeats = beats;
    redraw();
}

void ChorusSheetView::setTrade(bool trading, int yoursPercent) {
    if (trading == model.trading && yoursPercent == model.yoursPercent) return;
    model.trading = trading;
    model.yoursPercent = yoursPercent;
    redraw();
}

void ChorusSheetView::setHeld(const std::optional<Seconds>& place) {
    if (place == model.held) return;
    model.held = place;
    viewport()->update();
}

void ChorusSheetView::setStretch(const std::optional<Range<Seconds>>& stretch) {
    if (stretch == model.stretch) return;
    model.stretch = stretch;
    describe();
    redraw();
}

void ChorusSheetView::describe() {
    const QString now = earIn(*model.study, model.heard, model.stretch);
    if (now != accessibleDescription()) setAccessibleDescription(now);
}

void ChorusSheetView::setBarsPerLine(int bars) {
    lineLength.bars = std::clamp(bars, 1, 16);
    lineLength.seconds = Seconds(2.0 * static_cast<double>(lineLength.bars));
    const Seconds kept = model.heard;
    lay();
    reveal(kept);
}

void ChorusSheetView::stepBarsPerLine(int by) {
    const auto bars = static_cast<int>(lineLength.bars);
    setBarsPerLine(by < 0 ? bars / 2 : bars * 2);
}

void ChorusSheetView::setKeys(KeyOf keys) {
    keyOf = std::move(keys);
    viewport()->update();
}

void ChorusSheetView::setHeard(Seconds place) {
    if (place == model.heard || geometry.lines().empty()) {
        model.heard = place;
        return;
    }
    const bool followed = isInSight(model.heard);
    const bool otherLine = geometry.lineOf(place) != geometry.lineOf(model.heard);
    viewport()->update(inViewport(SheetPainter::playheadArea(geometry, model.heard)));
    model.heard = place;
    viewport()->update(inViewport(SheetPainter::playheadArea(geometry, model.heard)));
    if (const auto beat = beatOf(place); beat != describedBeat) {
        describedBeat = beat;
        describe();
    }
    if (followed && otherLine && !isInSight(place) && !tool.isActive()) reveal(place);
}

std::int64_t ChorusSheetView::beatOf(Seconds place) const {
    const BeatMap& map = model.study->beatMap;
    return std::llround(std::floor(map.hasTempo() ? map.beatsAt(place) + 1e-6 : place.value));
}

bool ChorusSheetView::isInSight(Seconds place) const {
    if (geometry.lines().empty()) return true;
    const QRect clear(0, 0, viewport()->width(), clearHeight());
    return clear.contains(inViewport(geometry.box(geometry.lineOf(place))));
}

int ChorusSheetView::clearHeight() const {
    return viewport()->height() - coveredFoot;
}

void ChorusSheetView::setCoveredFoot(int height) {
    if (height == coveredFoot) return;
    const bool followed = isInSight(model.heard);
    coveredFoot = height;
    letScroll();
    if (followed) reveal(model.heard);
}

Range<Seconds> ChorusSheetView::timeInSight() const {
    if (geometry.lines().empty()) return {};
    const double top = verticalScrollBar()->value();
    const double bottom = top + clearHeight();
    std::size_t first = geometry.lineAt(top);
    std::size_t last = geometry.lineAt(bottom);
    // Of which nothing but the room above it shows, or below it.
    if (last > first && geometry.box(last).top() >= bottom) --last;
    if (last > first && geometry.box(first).bottom() <= top) ++first;
    return {geometry.lines()[first].time.begin, geometry.lines()[last].time.end};
}

void ChorusSheetView::reveal(Seconds place) {
    if (geometry.lines().empty() || isInSight(place)) return;
    const std::size_t line = geometry.lineOf(place);
    // A chorus that fits is shown from its heading on, as a page is turned.
    std::size_t first = line;
    for (std::size_t i = line + 1; i-- > 0;) {
        if (geometry.lineBand(line).bottom() - geometry.lineBand(i).top() > clearHeight() + 1) break;
        if (geometry.lines()[i].begins.empty()) continue;
        first = i;
        break;
    }
    scrollTo(geometry.lineBand(first).top());
}

void ChorusSheetView::scrollTo(double top) {
    // Only the sheet's own top margin is free; above any other line stand the brackets of the one before.
    const double clear = top > geometry.metrics().topMargin ? top : 0.0;
    const int target = std::min(static_cast<int>(std::ceil(clear)), verticalScrollBar()->maximum());
    if (glide->state() == QAbstractAnimation::Running && glide->endValue().toInt() == target) return;
    glide->stop();
    glide->setStartValue(verticalScrollBar()->value());
    glide->setEndValue(target);
    glide->start();
}

void ChorusSheetView::lay() {
    const QSize size = viewport()->size();
    if (model.duration <= Seconds(0)) {
        geometry = SheetGeometry();
        letScroll();
        return redraw();
    }
    geometry = SheetGeometry(*model.study, model.duration, lineLength,
                             SheetMetrics::filling(size.width(), size.height()));
    letScroll();
    verticalScrollBar()->setSingleStep(static_cast<int>(geometry.metrics().box / 3));
    redraw();
}

void ChorusSheetView::letScroll() {
    const int beyondSight = static_cast<int>(std::ceil(geometry.height())) - clearHeight();
    verticalScrollBar()->setPageStep(clearHeight());
    verticalScrollBar()->setRange(0, std::max(beyondSight, 0));
    // Disabled it has no handle.
    verticalScrollBar()->setEnabled(beyondSight > 0);
}

void ChorusSheetView::redraw() {
    still = QPixmap();
    viewport()->update();
}

QPointF ChorusSheetView::onSheet(const QPointF& place) const {
    return place + QPointF(0, verticalScrollBar()->value());
}

QRect ChorusSheetView::inViewport(const QRectF& area) const {
    return area.translated(0, -verticalScrollBar()->value()).toAlignedRect();
}

void ChorusSheetView::paintEvent(QPaintEvent* event) {
    const QPointF scroll(0, -verticalScrollBar()->value());
    const SheetPainter sheet(model, geometry);
    if (still.isNull() || still.devicePixelRatio() != devicePixelRatioF()) {
        still = QPixmap(viewport()->size() * devicePixelRatioF());
        still.setDevicePixelRatio(devicePixelRatioF());
        QPainter painter(&still);
        painter.translate(scroll);
        sheet.paint(painter, QRectF(-scroll, QSizeF(viewport()->size())));
    }
    QPainter painter(viewport());
    for (const QRect& part : event->region()) {
        const QRectF source(QPointF(part.topLeft()) * devicePixelRatioF(),
                            QSizeF(part.size()) * devicePixelRatioF());
        painter.drawPixmap(QRectF(part), still, source);
    }
    if (hasFocus()) paintFocusLine(painter, viewport()->rect());
    if (model.duration <= Seconds(0)) return paintInvitation(painter);
    painter.translate(scroll);
    sheet.paintChosen(painter, QRectF(event->rect()).translated(-scroll));
    sheet.paintHeld(painter);
    sheet.paintPlayhead(painter);
    sheet.paintMarkHandle(painter);
}

void ChorusSheetView::paintInvitation(QPainter& painter) const {
    painter.setFont(ui::font(TextStyle::Title));
    painter.setPen(color(Role::Muted));
    painter.drawText(viewport()->rect(), Qt::AlignCenter | Qt::TextWordWrap,
                     tr("Drop a recording or a study here, or %1.").arg(howTo(CommandId::Open, keyOf)));
}

void ChorusSheetView::resizeEvent(QResizeEvent*) {
    if (geometry.lines().empty()) return lay();
    // What was at the top stays there, however tall lines become.
    const std::size_t top = geometry.lineAt(verticalScrollBar()->value() + geometry.metrics().box / 2);
    const Seconds kept = geometry.lines()[top].time.begin;
    const bool followed = glide->state() == QAbstractAnimation::Running || isInSight(model.heard);
    glide->stop();
    lay();
    const double wanted = geometry.lineBand(geometry.lineOf(kept + Seconds(1e-6))).top();
    verticalScrollBar()->setValue(verticalScrollBar()->value() == 0 ? 0 : static_cast<int>(wanted));
    if (followed) reveal(model.heard);
}

void ChorusSheetView::focusInEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusInEvent(event);
    viewport()->update();
}

void ChorusSheetView::focusOutEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusOutEvent(event);
    viewport()->update();
}

void ChorusSheetView::changeEvent(QEvent* event) {
    QAbstractScrollArea::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) redraw();
}

void ChorusSheetView::scrollContentsBy(int, int dy) {
    // What is typed stays with its bar.
    editor->move(editor->x(), editor->y() + dy);
    redraw();
}

} // namespace earwright::ui
