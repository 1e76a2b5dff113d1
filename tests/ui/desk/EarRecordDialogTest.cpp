#include "ui/desk/EarRecordDialog.h"

#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/desk/FoundBar.h"
#include "ui/desk/Today.h"

#include <QComboBox>
#include <QTreeWidget>

namespace earwright::ui {
namespace {

EarRecord sample() {
    EarRecord record;
    const auto note = [](int month, int day, HelpStep help, std::optional<int> interval,
                         std::optional<Mistake> mistake) {
        return FoundNote{Seconds(1), NoteId{1}, std::chrono::year(2031) / month / day,
                         help,       interval,  mistake};
    };
    record.phrases = {{SpanId{1}, {}, {}}};
    auto& found = record.phrases.front().found;
    for (int i = 0; i < 9; ++i)
        found.push_back(note(5, 5 + i % 2, i % 3 == 0 ? HelpStep::HowFar : HelpStep::None, i % 5 - 2,
                             i % 3 == 0 ? std::optional(Mistake::Semitone) : std::nullopt));
    for (int i = 0; i < 12; ++i)
        found.push_back(note(6, 2 + i, i % 6 == 0 ? HelpStep::ShowIt : HelpStep::None, i * 2 - 4,
                             i % 6 == 0 ? std::optional(Mistake::Octave) : std::nullopt));
    return record;
}

QStringList rowsOf(const QTreeWidgetItem* group) {
    QStringList rows;
    for (int i = 0; i < group->childCount(); ++i)
        rows += group->child(i)->text(0) + " " + group->child(i)->text(1) + " " + group->child(i)->text(2) +
                " " + group->child(i)->text(3);
    return rows;
}

TEST(EarRecordDialog, ShowsTimeIntervalsAndFirstMistakesWithABarEach) {
    applyTheme(*qApp, Appearance::Light);
    EarRecordDialog dialog(sample());
    dialog.show();
    EXPECT_EQ(dialog.sentence(), "Notes found: 21, by ear alone: 16.");
    ASSERT_EQ(dialog.table()->topLevelItemCount(), 3);
    EXPECT_EQ(dialog.table()->topLevelItem(0)->childCount(), 3);
    // Nine notes from 5 May on, three of them with help; the two bars of a row add up to its count.
    const QTreeWidgetItem* may = dialog.table()->topLevelItem(0)->child(0);
    EXPECT_EQ(may->text(1) + may->text(2) + may->text(3), "963");
    EXPECT_DOUBLE_EQ(may->data(4, FoundBar::byEarRole).toDouble(),
                     2 * may->data(4, FoundBar::withHelpRole).toDouble());
    EXPECT_TRUE(rowsOf(dialog.table()->topLevelItem(2)).contains("a semitone off at first 3 0 3"));
    EXPECT_TRUE(rowsOf(dialog.table()->topLevelItem(2)).contains("right at once 16 16 0"));
    keepPicture(dialog, "ear-record-light.png");
    applyTheme(*qApp, Appearance::Dark);
    keepPicture(dialog, "ear-record-dark.png");
    applyTheme(*qApp, Appearance::Light);
}

TEST(EarRecordDialog, TakesMonthsTogetherWhereThatIsChosen) {
    EarRecordDialog dialog(sample());
    dialog.findChild<QComboBox*>()->setCurrentIndex(1);
    EXPECT_EQ(dialog.table()->topLevelItem(0)->childCount(), 2);
}

TEST(EarRecordDialog, SaysSoWhereNothingIsKeptYet) {
    EarRecordDialog dialog({});
    EXPECT_TRUE(dialog.sentence().startsWith("Nothing is kept yet.")) << dialog.sentence().toStdString();
}

class EarRecordAtTheDesk : public TonesDesk {};

TEST_F(EarRecordAtTheDesk, EachSupportedNoteIsKeptWithTheDayItWasFound) {
    markBarsAndPhrase();
    earTo(2.6);
    writeNote(Beats(4), 60);
    press(Qt::Key_C);
    ASSERT_TRUE(soon([&] { return !study().earRecord.phrases.empty(); }));
    const auto& found = study().earRecord.phrases.front().found;
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found.front().day, today());
    EXPECT_TRUE(found.front().isUnaided());
    press(Qt::Key_H, Qt::ControlModifier);
    ASSERT_NE(window->findChild<EarRecordDialog*>(), nullptr);
    EXPECT_EQ(window->findChild<EarRecordDialog*>()->sentence(), "Notes found: 1, by ear alone: 1.");
}

} // namespace
} // namespace earwright::ui
