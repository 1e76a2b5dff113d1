// A menu on the loop's pill of which one choice holds: the gap, or the speed of yours in trade.
#pragma once

#include <QMenu>
#include <QString>

#include <vector>

namespace earwright::ui {

/// Threads: interface only.
class PillMenu : public QMenu {
    Q_OBJECT
public:
    struct Choice {
        QString text;
        int value = 0;
    };
    /// `title` says what is chosen; the choice with the value `current` is ticked.
    PillMenu(const QString& title, const std::vector<Choice>& choices, int current,
             QWidget* parent = nullptr);

signals:
    void chosen(int value);
};

/// Beats of silence after each pass: 0 to 4.
std::vector<PillMenu::Choice> gapChoices();
/// The value that stands for the record's own speed.
inline constexpr int asTheRecord = 0;
/// Speeds of yours in trade in per cent, and as the record.
std::vector<PillMenu::Choice> tradeChoices(const std::vector<int>& percents);

/// The words on the pill: "gap", "gap 2".
QString gapText(int beats);
QString gapTip(int beats);
/// "yours as the record", "yours at 80 %".
QString tradeText(int percent);
QString tradeTip();

} // namespace earwright::ui
