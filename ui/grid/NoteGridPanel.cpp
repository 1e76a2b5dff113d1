#include "ui/grid/NoteGridPanel.h"

#include "ui/grid/FeelLine.h"
#include "ui/grid/LadderPanel.h"
#include "ui/grid/LooseEndList.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/PlayingLine.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>

namespace earwright::ui {

NoteGridPanel::NoteGridPanel(QWidget* parent)
    : QWidget(parent),
      column(new QVBoxLayout(this)),
      subtitle(new QLabel(this)),
      noteGrid(new NoteGrid(this)),
      ladderPanel(new LadderPanel(this)),
      feelLine(new FeelLine(this)),
      playingLine(new PlayingLine(this)),
      looseEndList(new LooseEndList(this)) {
    setAccessibleName(tr("Note grid panel"));
    auto* title = new QLabel(tr("Note grid"), this);
    title->setFont(ui::font(TextStyle::Title));
    subtitle->setFont(ui::font(TextStyle::Small));
    subtitle->setForegroundRole(QPalette::PlaceholderText);
    subtitle->setTextFormat(Qt::PlainText);

    auto* heading = new QHBoxLayout;
    heading->setSpacing(spacing::medium);
    heading->addWidget(title, 0, Qt::AlignBaseline);
    heading->addWidget(subtitle, 1, Qt::AlignBaseline);
    column->setContentsMargins(spacing::medium, spacing::small, spacing::medium, spacing::medium);
    column->setSpacing(spacing::small);
    column->addLayout(heading);
    column->addWidget(noteGrid, 1);
    column->addSpacing(spacing::tight);
    column->addWidget(ladderPanel);
    column->addWidget(feelLine);
    column->addWidget(playingLine);
    column->addSpacing(spacing::tight);
    column->addWidget(looseEndList);
    writeHeading();
}

void NoteGridPanel::addUnderGrid(QWidget* view) {
    column->insertWidget(column->indexOf(noteGrid) + 1, view);
}

void NoteGridPanel::setKeys(const KeyOf& keyOf) {
    noteGrid->setKeys(keyOf);
    ladderPanel->setKeys(keyOf);
    looseEndList->setKeys(keyOf);
}

void NoteGridPanel::setStudy(std::shared_ptr<const Study> given) {
    study = std::move(given);
    noteGrid->setStudy(study);
    looseEndList->setStudy(study);
    writeHeading();
}

void NoteGridPanel::showPhrase(SpanId chosen) {
    phrase = chosen;
    noteGrid->setPhrase(chosen);
    writeHeading();
}

void NoteGridPanel::showRange(const Range<Beats>& range) {
    phrase.reset();
    noteGrid->setRange(range);
    writeHeading();
}

void NoteGridPanel::writeHeading() {
    if (!study || !noteGrid->hasColumns()) return subtitle->clear();
    const Range<Beats>& bars = noteGrid->shownBars();
    const std::int64_t first = study->meters().barOf(bars.begin);
    const std::int64_t last = study->meters().barOf(bars.end) - 1;
    const QString text = barsText(first, last);
    const Span* span = phrase ? study->span(*phrase) : nullptr;
    const QString name = span ? QString::fromStdString(span->name) : QString();
    subtitle->setText(name.isEmpty() || name == text ? text : tr("phrase %1, %2").arg(name, text));
}

QString NoteGridPanel::heading() const {
    return subtitle->text();
}

void NoteGridPanel::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(color(Role::Rule), 1));
    painter.setBrush(color(Role::Panel));
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), spacing::corner, spacing::corner);
}

} // namespace earwright::ui
