#include "ui/desk/MessageBar.h"

#include "ui/desk/MessageRow.h"
#include "ui/theme/Spacing.h"

#include <QAbstractButton>
#include <QEvent>
#include <QVBoxLayout>

#include <algorithm>

namespace earwright::ui {

MessageBar::MessageBar(QWidget* parent) : QWidget(parent), column(new QVBoxLayout(this)) {
    setAccessibleName(tr("Messages"));
    column->setContentsMargins(spacing::medium, 0, spacing::large, spacing::small);
    column->setSpacing(spacing::tight);
    hide();
}

void MessageBar::setPassingPlace(QWidget* place) {
    passing = place;
    passing->installEventFilter(this);
    arrange();
}

bool MessageBar::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::Resize) arrange();
    return QWidget::eventFilter(watched, event);
}

void MessageBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (isVisible()) emit covers(height());
}

void MessageBar::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    emit covers(height());
}

void MessageBar::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    emit covers(0);
}

void MessageBar::put(MessageRow& row) {
    const QSize room = passing ? passing->size() : QSize();
    const QSize needed = row.sizePassing(room.width());
    const bool isPassing = !needed.isEmpty() && needed.height() <= room.height();
    row.setPassing(isPassing);
    if (!isPassing) {
        // What is at the foot already keeps its place there.
        if (column->indexOf(&row) < 0) column->addWidget(&row);
        row.show();
        return;
    }
    column->removeWidget(&row);
    if (row.parentWidget() != passing) row.setParent(passing);
    row.setGeometry(0, (room.height() - needed.height()) / 2, needed.width(), needed.height());
    row.raise();
    row.show();
}

void MessageBar::arrange() {
    for (const auto& [subject, row] : rows)
        put(*row);
    setVisible(std::any_of(rows.begin(), rows.end(),
                           [this](const auto& item) { return item.second->parentWidget() == this; }));
}

void MessageBar::say(const QString& subject, Tone tone, const QString& sentence,
                     std::vector<Answer> answers) {
    if (const auto old = rows.find(subject); old != rows.end() && old->second->fits(tone, answers)) {
        old->second->change(sentence, std::move(answers)); // so that a hand on its way still hits
        if (tone == Tone::Notice) arrange();
        return;
    }
    close(subject);
    auto* row = new MessageRow(tone, sentence, std::move(answers), this);
    connect(row, &MessageRow::closed, this, [this, subject] { close(subject); });
    // With the place it was shown in, as the window is closed; the layout goes before our own rows do.
    connect(row, &QObject::destroyed, column, [this, gone = row] {
        std::erase_if(rows, [gone](const auto& item) { return item.second == gone; });
    });
    rows[subject] = row;
    arrange();
    row->raise();
}

void MessageBar::close(const QString& subject) {
    const auto found = rows.find(subject);
    if (found == rows.end()) return;
    // Later, since a button of the row may just be telling us so.
    found->second->hide();
    found->second->deleteLater();
    rows.erase(found);
    arrange();
}

QString MessageBar::sentence(const QString& subject) const {
    const auto found = rows.find(subject);
    return found == rows.end() ? QString() : found->second->sentence();
}

void MessageBar::choose(const QString& subject, std::size_t answer) {
    rows.at(subject)->answerButtons().at(answer)->click();
}

} // namespace earwright::ui
