// Under the grid: what the check of the phrase found in numbers, and help for one place, one step at a time.
#pragma once

#include "core/check/HintLadder.h"
#include "core/check/PhraseCheck.h"
#include "ui/commands/KeyWords.h"

#include <QWidget>

#include <functional>

class QLabel;

namespace earwright::ui {

class LadderSteps;
class QuietButton;

/// Before a check it says only how to ask for one. Threads: interface only.
class LadderPanel : public QWidget {
    Q_OBJECT
public:
    explicit LadderPanel(QWidget* parent = nullptr);

    /// No check of this phrase; `canCheck` is false while there is nothing to check.
    void showUnchecked(bool canCheck = true);
    /// A check is being worked out.
    void showChecking();
    /// Its outcome, without any place. `furtherOn` sounds are too far from any written note for help;
    /// `changed` notes were changed, written or taken out since.
    void showCheck(const PhraseCheck& check, int foundByEar, int furtherOn = 0, int changed = 0);
    /// Help for one place, worded by hintText(); with all of it shown the next one is offered, where there
    /// are others. Requires: showCheck() before.
    void showHint(const Hint& hint, const QString& sentence, bool areOthers = false);

    /// The key each command has now, for the sentences that name one.
    void setKeys(KeyOf keys);

    QString sentence() const;
    QString summary() const;
    HelpStep step() const;

signals:
    void checkRequested();
    void helpRequested();

private:
    void showLadder(bool shown);
    /// What the button leads to: another step, or another place.
    void offerNext(HelpStep opened);
    /// Says a sentence that is worded anew when keys change.
    void say(std::function<QString()> wording);

    KeyOf keyOf = tableKey;
    /// Worded anew where keys change.
    std::function<QString()> said;
    std::function<QString()> summed;
    QLabel* line;
    QLabel* numbers;
    LadderSteps* steps;
    QuietButton* check;
    QuietButton* next;
};

/// "6 supported · 1 unclear · 1 contradicted · put right by ear: 5", how many notes were changed since and
/// how many sounds are left to the ear where there are any, and where was listened unless that is all of the
/// recording.
QString summaryText(const PhraseCheck& check, int foundByEar, int furtherOn = 0, int changed = 0,
                    const KeyOf& keyOf = tableKey);

} // namespace earwright::ui
