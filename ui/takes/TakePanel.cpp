#include "ui/takes/TakePanel.h"

#include "ui/takes/InputRow.h"
#include "ui/takes/KeyboardChoice.h"
#include "ui/takes/TakeList.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>

namespace earwright::ui {

namespace {

QLabel* quiet(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setFont(ui::font(TextStyle::Small));
    label->setForegroundRole(QPalette::PlaceholderText);
    label->setTextFormat(Qt::PlainText);
    return label;
}

} // namespace

QString TakePanel::caution() {
    return tr(
        "Use headphones, so that the input does not hear the record, and keep the level moderate: long or "
        "loud "
        "listening harms hearing for good. Where you play for work, the local rules for hearing protection "
        "apply.");
}

TakePanel::TakePanel(QWidget* parent)
    : QWidget(parent),
      record(new QuietButton(tr("record a take"), this)),
      state(quiet({}, this)),
      input(new InputRow(this)),
      keyboard(new KeyboardChoice(this)),
      warning(quiet(caution(), this)),
      takes(new TakeList(this)),
      hear(new QuietButton(tr("hear it as yours"), this)),
      name(new QuietButton(tr("name"), this)),
      remove(new QuietButton(tr("remove"), this)) {
    setAccessibleName(tr("Takes"));
    record->setTextStyle(TextStyle::Strong);
    record->setToolTip(tr("Plays, and keeps what you play along; each pass of a loop is a take of its own"));
    state->setMinimumWidth(1);
    warning->setWordWrap(true);
    warning->setContentsMargins(spacing::large, 0, 0, 0);
    for (QuietButton* button : {hear, name, remove})
        button->setTextStyle(TextStyle::Small);

    auto* head = new QHBoxLayout;
    head->setSpacing(spacing::medium);
    head->addWidget(record);
    head->addWidget(state, 1);
    for (QuietButton* button : {hear, name, remove})
        head->addWidget(button);
    auto* inputs = new QHBoxLayout;
    inputs->setSpacing(spacing::medium);
    inputs->addWidget(input, 1);
    inputs->addWidget(keyboard);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(spacing::medium, spacing::small, spacing::medium, spacing::small);
    column->setSpacing(spacing::tight);
    column->addLayout(head);
    column->addLayout(inputs);
    column->addWidget(warning);
    column->addWidget(takes);

    connect(record, &QAbstractButton::clicked, this, &TakePanel::recordRequested);
    connect(takes, &TakeList::edited, this, &TakePanel::edited);
    connect(takes, &QListWidget::currentItemChanged, this, [this] { showTakeWords(); });
    connect(hear, &QAbstractButton::clicked, takes, &TakeList::chooseCurrent);
    connect(remove, &QAbstractButton::clicked, takes, &TakeList::removeCurrent);
    connect(name, &QAbstractButton::clicked, this, [this] {
        if (takes->currentItem()) takes->editItem(takes->currentItem());
    });
    setRecording({});
    setReady(false);
    showTakeWords();
}

void TakePanel::setStudy(std::shared_ptr<const Study> next) {
    study = std::move(next);
    takes->setStudy(study);
    showTakeWords();
}

void TakePanel::showTakeWords() {
    const Take* take = takes->current();
    for (QuietButton* button : {hear, name, remove})
        button->setVisible(take != nullptr);
    hear->setText(take && take->chosen ? tr("hear the written notes") : tr("hear it as yours"));
    showState();
}

void TakePanel::setReady(bool ready) {
    record->setEnabled(ready || isRecording);
}

void TakePanel::setRecording(const RecordingReport& report) {
    isRecording = report.isRunning;
    record->setText(isRecording ? tr("stop recording") : tr("record a take"));
    word = !report.message.empty() ? QString::fromStdString(report.message)
           : isRecording           ? tr("recording, %1 s").arg(report.seconds, 0, 'f', 1)
                                   : QString();
    showState();
}

void TakePanel::showState() {
    const bool isEmpty = !study || study->takes.empty();
    const QString invitation = tr("What you play along here is heard as “yours” against the record.");
    state->setText(word.isEmpty() && isEmpty ? invitation : word);
    state->setToolTip(state->text());
    QPalette ink = palette();
    ink.setColor(QPalette::PlaceholderText, color(word.isEmpty() ? Role::Muted : Role::LooseEnd));
    state->setPalette(ink);
}

QString TakePanel::stateText() const {
    return state->text();
}

void TakePanel::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), color(Role::Panel));
    painter.setPen(color(Role::Rule));
    painter.drawLine(0, 0, width(), 0);
    // The caution has a bar beside it, so that it differs from its neighbours by more than its words.
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::LooseEnd));
    const QRect place = warning->geometry();
    painter.drawRect(place.left() + spacing::tight, place.top() + 2, 3, place.height() - 4);
}

} // namespace earwright::ui
