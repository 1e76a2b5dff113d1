#include "ui/grid/LadderPanel.h"

#include "ui/grid/LadderSteps.h"

#include <QAbstractButton>
#include <QSignalSpy>
#include <QTest>

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

PhraseCheck sixOneOne() {
    PhraseCheck check;
    for (int i = 0; i < 8; ++i) {
        CheckedNote note;
        note.verdict = i < 6 ? Verdict::Supported : i == 6 ? Verdict::Unclear : Verdict::Contradicted;
        check.notes.push_back(note);
    }
    return check;
}

} // namespace

TEST(LadderPanel, JudgesNothingBeforeACheckIsAskedFor) {
    LadderPanel panel;
    panel.showUnchecked();
    EXPECT_EQ(panel.summary(), QString());
    EXPECT_TRUE(panel.sentence().contains("press C"));
    EXPECT_TRUE(panel.findChild<LadderSteps*>()->isHidden());
}

TEST(LadderPanel, NamesTheKeyThatTheCommandHasNow) {
    LadderPanel panel;
    panel.showUnchecked();
    panel.setKeys([](CommandId) { return QKeySequence("Ctrl+K"); });
    EXPECT_TRUE(panel.sentence().contains("press Ctrl+K to check"));
    panel.showCheck(sixOneOne(), 0);
    EXPECT_TRUE(panel.sentence().contains("Press Ctrl+K when you want a hint"));
    panel.showHint({}, "Bar 1, beat 1: something is off");
    panel.setKeys(tableKey);
    EXPECT_EQ(panel.sentence(), "Bar 1, beat 1: something is off");
}

TEST(LadderPanel, SumsTheCheckUp) {
    LadderPanel panel;
    panel.showCheck(sixOneOne(), 5);
    EXPECT_EQ(panel.summary().toStdString(),
              "6 supported · 1 unclear · 1 contradicted · put right by ear: 5");
    EXPECT_EQ(panel.step(), HelpStep::None);
}

TEST(LadderPanel, DoesNotCallAPhraseBorneOutWhoseTrillGoesElsewhere) {
    LadderPanel panel;
    PhraseCheck check = sixOneOne();
    check.notes.resize(6);
    panel.showCheck(check, 0);
    EXPECT_TRUE(panel.sentence().contains("bears out every note"));
    check.otherTrills.push_back({});
    panel.showCheck(check, 0);
    EXPECT_TRUE(panel.sentence().contains("Press H when you want a hint"));
    EXPECT_EQ(panel.summary().toStdString(),
              "6 supported · 0 unclear · 0 contradicted · trills not borne out: 1 · put right by ear: 0");
    check.otherTrills[0].written = 0;
    panel.showCheck(check, 0);
    EXPECT_FALSE(panel.summary().contains("trill")) << "that one is missing is for the ladder to tell";
    EXPECT_TRUE(panel.sentence().contains("Press H when you want a hint"));
}

TEST(LadderPanel, SaysThatHelpStaysNearWhatIsWritten) {
    LadderPanel panel;
    PhraseCheck check = sixOneOne();
    check.notes.resize(6);
    panel.showCheck(check, 0, 9);
    EXPECT_TRUE(panel.sentence().contains("write on by ear"));
    EXPECT_TRUE(panel.summary().endsWith("further on, left to the ear: 9"));
    EXPECT_TRUE(panel.findChild<LadderSteps*>()->isHidden());
}

TEST(LadderPanel, TellsWhereItListened) {
    PhraseCheck check = sixOneOne();
    check.notes.front().listened.focus = Focus::Right;
    EXPECT_TRUE(summaryText(check, 0).endsWith("listened on the right, where the line is clearest"));
    check.notes.front().listened = {Focus::Sides, Band{150, 3000}};
    check.listenedAsAsked = true;
    EXPECT_TRUE(summaryText(check, 0).endsWith("listened at the sides from 150 to 3000 Hz, as you do"));
}

TEST(LadderPanel, OffersNoHelpWhereNothingIsOff) {
    LadderPanel panel;
    PhraseCheck check = sixOneOne();
    check.notes.resize(6);
    panel.showCheck(check, 0);
    EXPECT_TRUE(panel.findChild<LadderSteps*>()->isHidden());
    check.unwritten.push_back({});
    panel.showCheck(check, 0);
    EXPECT_FALSE(panel.findChild<LadderSteps*>()->isHidden());
}

TEST(LadderPanel, SaysNothingOfTheWholeWhileAChangedNoteIsNotJudged) {
    LadderPanel panel;
    PhraseCheck check = sixOneOne();
    check.notes.resize(6);
    panel.showCheck(check, 2, 0, 1);
    EXPECT_EQ(panel.sentence().toStdString(),
              "Since the check you have changed 1 note: press C to check again.");
    EXPECT_EQ(panel.summary().toStdString(),
              "6 supported · 0 unclear · 0 contradicted · changed since: 1 · put right by ear: 2");
    const auto buttons = panel.findChildren<QAbstractButton*>();
    ASSERT_FALSE(buttons.empty());
    EXPECT_EQ(buttons.front()->text(), "check");
    EXPECT_FALSE(buttons.front()->isHidden());
    panel.showCheck(sixOneOne(), 2, 0, 2);
    EXPECT_EQ(panel.sentence().toStdString(),
              "Since the check you have changed 2 notes: press C to check again, or press H for a hint.");
    panel.showCheck(sixOneOne(), 2);
    EXPECT_TRUE(buttons.front()->isHidden()) << "nothing new to check";
}

TEST(LadderPanel, DoesNotPraiseAnEmptyPhrase) {
    LadderPanel panel;
    PhraseCheck check;
    check.unwritten.push_back({});
    panel.showCheck(check, 0);
    EXPECT_TRUE(panel.sentence().startsWith("Nothing is written here yet"));
    EXPECT_FALSE(panel.findChild<LadderSteps*>()->isHidden());
}

TEST(LadderPanel, ShowsAStepWithItsSentence) {
    LadderPanel panel;
    panel.showCheck(sixOneOne(), 5);
    Hint hint;
    hint.step = HelpStep::WhichWay;
    panel.showHint(hint, "Bar 30, beat 3: the record is lower");
    EXPECT_EQ(panel.step(), HelpStep::WhichWay);
    EXPECT_EQ(panel.sentence().toStdString(), "Bar 30, beat 3: the record is lower");
}

TEST(LadderPanel, LeadsOnToTheNextPlaceWhereThereAreOthers) {
    LadderPanel panel;
    panel.showCheck(sixOneOne(), 5);
    const auto offered = [&] {
        for (const QAbstractButton* button : panel.findChildren<QAbstractButton*>())
            if (!button->isHidden()) return button->text();
        return QString();
    };
    EXPECT_EQ(offered(), "next step");
    Hint hint;
    hint.step = HelpStep::ShowIt;
    panel.showHint(hint, "Bar 30, beat 3: the record has D", true);
    EXPECT_EQ(offered(), "next place");
    panel.showHint(hint, "Bar 30, beat 3: the record has D");
    EXPECT_EQ(offered(), QString()) << "all is said";
    panel.showCheck(sixOneOne(), 5);
    EXPECT_EQ(offered(), "next step");
}

TEST(LadderPanel, AsksForTheNextStepFromAnywhereOnTheLadder) {
    LadderPanel panel;
    panel.resize(400, 120);
    panel.showCheck(sixOneOne(), 5);
    panel.show();
    QSignalSpy asked(&panel, &LadderPanel::helpRequested);
    auto* steps = panel.findChild<LadderSteps*>();
    // Even a click on the last circle opens one step only.
    QTest::mouseClick(steps, Qt::LeftButton, {}, steps->circle(HelpStep::ShowIt).toPoint());
    EXPECT_EQ(asked.count(), 1);
    steps->setStep(HelpStep::ShowIt);
    QTest::mouseClick(steps, Qt::LeftButton, {}, steps->circle(HelpStep::SomethingOff).toPoint());
    EXPECT_EQ(asked.count(), 1);
}

TEST(LadderPanel, FitsItsStepsIntoANarrowPanel) {
    LadderSteps steps;
    for (const int width : {240, 340, 600}) {
        steps.resize(width, 30);
        const double last = steps.circle(HelpStep::ShowIt).x();
        EXPECT_GT(last, steps.circle(HelpStep::HowFar).x());
        EXPECT_LT(last, width);
    }
}
