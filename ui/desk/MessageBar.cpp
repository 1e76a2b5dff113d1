#include "ui/desk/MessageBar.h"

#include "ui/desk/MessageRow.h"
#include "ui/theme/Spacing.h"

#include <QAbstractButton>
#include <QVBoxLayout>

namespace earwright::ui {

MessageBar::MessageBar(QWidget* parent) : QWidget(parent), column(new QVBoxLayout(this)) {
    setAccessibleName(tr("Messages"));
    column->setContentsMargins(spacing::medium, 0, spacing::large, spacing::small);
    column->setSpacing(spacing::tight);
    hide();
}

void MessageBar::say(const QString& subject, Tone tone, const QString& sentence,
                     std::vector<Answer> answers) {
    if (const auto old = rows.find(subject); old != rows.end() && old->second->fits(tone, answers))
        return old->second->change(sentence, std::move(answers)); // so that a hand on its way still hits
    close(subject);
    auto* row = new MessageRow(tone, sentence, std::move(answers), this);
    connect(row, &MessageRow::closed, this, [this, subject] { close(subject); });
    rows[subject] = row;
    column->addWidget(row);
    show();
}

void MessageBar::close(const QString& subject) {
    const auto found = rows.find(subject);
    if (found == rows.end()) return;
    // Later, since a button of the row may just be telling us so.
    found->second->hide();
    found->second->deleteLater();
    rows.erase(found);
    setVisible(!rows.empty());
}

QString MessageBar::sentence(const QString& subject) const {
    const auto found = rows.find(subject);
    return found == rows.end() ? QString() : found->second->sentence();
}

void MessageBar::choose(const QString& subject, std::size_t answer) {
    rows.at(subject)->answerButtons().at(answer)->click();
}

} // namespace earwright::ui
