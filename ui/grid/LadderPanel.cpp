#include "ui/grid/LadderPanel.h"

#include "ui/grid/LadderSteps.h"
#include "ui/grid/ListenedText.h"
#include "ui/grid/SwungText.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Type.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace earwright::ui {

namespace {

QLabel* labelled(QWidget* parent, TextStyle style) {
    auto* label = new QLabel(parent);
    label->setFont(ui::font(style));
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    return label;
}

/// Nothing can be said of the whole while a part of it was not judged.
QString changedText(int changed, bool settled, const KeyOf& keyOf) {
    const QString since = changed == 1
                              ? LadderPanel::tr("Since the check you have changed 1 note")
                              : LadderPanel::tr("Since the check you have changed %1 notes").arg(changed);
    const QString asking = howTo(CommandId::CheckPhrase, keyOf);
    if (settled) return LadderPanel::tr("%1: %2 to check again.").arg(since, asking);
    return LadderPanel::tr("%1: %2 to check again, or %3 for a hint.")
        .arg(since, asking, howTo(CommandId::NextHelp, keyOf));
}

/// What the shapes of the heads say, and how far help goes.
QString explanation(int furtherOn) {
    const QString heads =
        LadderPanel::tr("A full head is supported, a dotted ring unclear, a ring struck "
                        "through contradicted; an open ring is not judged: it was not checked "
                        "yet, or changed or written since.");
    if (furtherOn == 0) return heads;
    return heads + QLatin1Char('\n') +
           LadderPanel::tr(
               "Help stays within a beat of what you have written, so that the ear finds the rest "
               "of the line. Write on, then check again.");
}

/// Before any step of help: nothing about where or what.
QString outcomeText(bool isEmpty, bool settled, int furtherOn, const KeyOf& keyOf) {
    if (isEmpty && settled) return LadderPanel::tr("Nothing is written here, and no line is heard.");
    const QString asking = howToSentence(CommandId::NextHelp, keyOf);
    if (isEmpty) return LadderPanel::tr("Nothing is written here yet. %1 when you want a hint.").arg(asking);
    if (settled && furtherOn > 0)
        return LadderPanel::tr(
            "The record bears out what is written, and the line goes on: write on by ear.");
    return settled ? LadderPanel::tr("The record bears out every note.")
                   : LadderPanel::tr("Listen again first. %1 when you want a hint.").arg(asking);
}

/// Of trills that are not written nothing is said, as of notes that are missing: the ladder tells.
QString withTrills(const QString& counts, const PhraseCheck& check) {
    const auto written =
        std::ranges::count_if(check.otherTrills, [](const OtherTrill& trill) { return trill.written > 0; });
    return written > 0 ? LadderPanel::tr("%1 · trills not borne out: %2").arg(counts).arg(written) : counts;
}

} // namespace

LadderPanel::LadderPanel(QWidget* parent)
    : QWidget(parent),
      line(labelled(this, TextStyle::Strong)),
      numbers(labelled(this, TextStyle::Small)),
      steps(new LadderSteps(this)),
      check(new QuietButton(tr("check"), this)),
      next(new QuietButton({}, this)) {
    setAccessibleName(tr("Check and help"));
    numbers->setForegroundRole(QPalette::PlaceholderText);
    check->setToolTip(tr("Check what is written in this phrase against the record"));
    offerNext(HelpStep::None);

    auto* top = new QHBoxLayout;
    top->setSpacing(spacing::tight);
    top->addWidget(line, 1);
    top->addWidget(check, 0, Qt::AlignTop);
    top->addWidget(next, 0, Qt::AlignTop);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(spacing::tight);
    column->addLayout(top);
    column->addWidget(steps);
    column->addWidget(numbers);

    connect(check, &QAbstractButton::clicked, this, &LadderPanel::checkRequested);
    connect(next, &QAbstractButton::clicked, this, &LadderPanel::helpRequested);
    connect(steps, &LadderSteps::nextRequested, this, &LadderPanel::helpRequested);
    showUnchecked(false);
}

void LadderPanel::setKeys(KeyOf keys) {
    keyOf = std::move(keys);
    line->setText(said());
    if (summed) numbers->setText(summed());
}

void LadderPanel::say(std::function<QString()> wording) {
    said = std::move(wording);
    line->setText(said());
}

void LadderPanel::showLadder(bool shown) {
    steps->setVisible(shown);
    numbers->setVisible(shown);
    next->setVisible(shown);
}

void LadderPanel::showUnchecked(bool canCheck) {
    line->setFont(ui::font(TextStyle::Small));
    line->setForegroundRole(QPalette::PlaceholderText);
    say([this, canCheck] {
        const QString asking = howTo(CommandId::CheckPhrase, keyOf);
        return canCheck ? tr("Nothing is judged until you ask: %1 to check this phrase.").arg(asking)
                        : tr("Once a phrase is written, %1 to check it.").arg(asking);
    });
    check->setVisible(canCheck);
    check->setEnabled(true);
    showLadder(false);
}

void LadderPanel::showChecking() {
    line->setFont(ui::font(TextStyle::Small));
    line->setForegroundRole(QPalette::PlaceholderText);
    say([] { return tr("Listening through the phrase …"); });
    check->setVisible(false);
    showLadder(false);
}

void LadderPanel::showCheck(const PhraseCheck& found, int foundByEar, int furtherOn, int changed) {
    line->setFont(ui::font(TextStyle::Strong));
    line->setForegroundRole(QPalette::WindowText);
    const bool settled = found.unwritten.empty() && found.otherTrills.empty() &&
                         found.count(Verdict::Supported) == static_cast<int>(found.notes.size());
    say([this, isEmpty = found.notes.empty(), settled, furtherOn, changed] {
        return changed > 0 ? changedText(changed, settled, keyOf)
                           : outcomeText(isEmpty, settled, furtherOn, keyOf);
    });
    summed = [this, found, foundByEar, furtherOn, changed] {
        return summaryText(found, foundByEar, furtherOn, changed, keyOf);
    };
    numbers->setText(summed());
    numbers->setToolTip(explanation(furtherOn));
    steps->setStep(HelpStep::None);
    offerNext(HelpStep::None);
    check->setVisible(changed > 0);
    check->setEnabled(true);
    showLadder(true);
    steps->setVisible(!settled);
    next->setVisible(!settled);
    next->setEnabled(true);
}

void LadderPanel::offerNext(HelpStep opened) {
    const bool isShown = opened == HelpStep::ShowIt;
    next->setText(isShown ? tr("next place") : tr("next step"));
    next->setToolTip(isShown ? tr("Help for the next place") : tr("One step more of help for this place"));
}

void LadderPanel::showHint(const Hint& hint, const QString& sentence, bool areOthers) {
    say([sentence] { return sentence; });
    steps->setStep(hint.step);
    steps->setVisible(true);
    offerNext(hint.step);
    next->setVisible(hint.step != HelpStep::ShowIt || areOthers);
}

QString LadderPanel::sentence() const {
    return line->text();
}

QString LadderPanel::summary() const {
    return numbers->isHidden() ? QString() : numbers->text();
}

HelpStep LadderPanel::step() const {
    return steps->step();
}

QString summaryText(const PhraseCheck& check, int foundByEar, int furtherOn, int changed,
                    const KeyOf& keyOf) {
    const QString counts = LadderPanel::tr("%1 supported · %2 unclear · %3 contradicted")
                               .arg(check.count(Verdict::Supported))
                               .arg(check.count(Verdict::Unclear))
                               .arg(check.count(Verdict::Contradicted));
    const QString signs = withTrills(counts, check);
    const QString judged =
        changed > 0 ? LadderPanel::tr("%1 · changed since: %2").arg(signs).arg(changed) : signs;
    const QString found = LadderPanel::tr("%1 · put right by ear: %2").arg(judged).arg(foundByEar);
    const QString reach =
        furtherOn > 0 ? LadderPanel::tr("%1 · further on, left to the ear: %2").arg(found).arg(furtherOn)
                      : found;
    QString all = reach;
    for (const QString& more : {listenedText(check), swungText(check, keyOf)})
        if (!more.isEmpty()) all = LadderPanel::tr("%1 · %2").arg(all, more);
    return all;
}

} // namespace earwright::ui
