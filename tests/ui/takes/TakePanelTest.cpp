#include "ui/takes/TakePanel.h"

#include "core/study/TakeEdits.h"
#include "tests/ui/Picture.h"
#include "ui/takes/InputRow.h"
#include "ui/takes/LevelMeter.h"
#include "ui/takes/TakeList.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QLineEdit>
#include <QMenu>
#include <QSignalSpy>
#include <QSlider>
#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

Study threeTakes() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
    std::vector<Take> takes(3);
    for (std::size_t i = 0; i < takes.size(); ++i) {
        takes[i].file = "evening.wav";
        takes[i].part = {Frames(static_cast<std::int64_t>(i) * 90000),
                         Frames(static_cast<std::int64_t>(i) * 90000 + 88000)};
        takes[i].at = Seconds(16);
        takes[i].speed = 0.6;
        takes[i].semitones = -2;
        takes[i].recorded = "2031-05-04T18:22:07Z";
    }
    takes[2].chosen = true;
    return addTakes(study, takes);
}

std::shared_ptr<const Study> shared(Study study) {
    return std::make_shared<const Study>(std::move(study));
}

InputReport running() {
    InputReport report;
    report.state = DeviceState::Running;
    report.name = "table microphone";
    report.rateHertz = 48000;
    return report;
}

/// The takes of each edit asked for, applied at once.
class Applied {
public:
    explicit Applied(TakePanel& panel, Study start) : study(std::move(start)) {
        panel.setStudy(shared(study));
        QObject::connect(&panel, &TakePanel::edited, &panel,
                         [this, &panel](const Study& next, const QString& what) {
                             study = next;
                             names << what;
                             panel.setStudy(shared(study));
                         });
    }
    Study study;
    QStringList names;
};

TEST(TakePanel, ShowsNoMeterAndAsksForAnInputWhileNoneIsOpen) {
    TakePanel panel;
    panel.setReady(true);
    EXPECT_TRUE(panel.inputRow()->meter()->isHidden());
    EXPECT_EQ(panel.inputRow()->inputButton()->text(), "open an input");
    const QSignalSpy opens(panel.inputRow(), &InputRow::openRequested);
    panel.inputRow()->inputButton()->click();
    EXPECT_EQ(opens.count(), 1);
}

TEST(TakePanel, AlwaysHasTheWordAboutTheEars) {
    const QString words = TakePanel::caution();
    for (const char* word : {"headphones", "level moderate", "local rules for hearing protection"})
        EXPECT_TRUE(words.contains(word)) << word;
}

TEST(TakePanel, SaysHowTakesAreLinedUp) {
    InputRow row;
    row.setReport(running());
    row.setRoundTrip({});
    EXPECT_TRUE(row.alignment().contains("not measured")) << row.alignment().toStdString();
    row.setRoundTrip({true, std::nullopt, ""});
    EXPECT_FALSE(row.measureButton()->isEnabled());
    row.setRoundTrip({false, 0.0012, ""});
    EXPECT_EQ(row.alignment(), "lined up as measured");
    row.setRoundTrip({false, std::nullopt, "The marks did not come back."});
    EXPECT_TRUE(row.alignment().contains("not measured")) << "the whole sentence has no room in the row";
}

TEST(TakePanel, TellsWhenTheInputHasGone) {
    InputRow row;
    InputReport lost = running();
    lost.state = DeviceState::Lost;
    lost.message = "The input has gone; it is taken up again as soon as it is back.";
    row.setReport(lost);
    EXPECT_EQ(row.state(), "The input has gone; it is taken up again as soon as it is back.");
    const QSignalSpy asks(&row, &InputRow::choicesRequested);
    row.inputButton()->click();
    EXPECT_EQ(asks.count(), 1);
}

TEST(TakePanel, WarnsOfAnInputThatIsTooLoud) {
    LevelMeter meter;
    meter.setLevel(0.1f, false);
    // −20 dB is two thirds of the way from −60 to 0.
    EXPECT_NEAR(meter.shown(), 2.0 / 3, 1e-6);
    EXPECT_FALSE(meter.showsClipping());
    meter.setLevel(1.0f, true);
    EXPECT_TRUE(meter.showsClipping());
    EXPECT_TRUE(meter.accessibleDescription().contains("too loud"));
    meter.setLevel(0.0f, false);
    EXPECT_GT(meter.shown(), 0.9) << "it falls slowly enough to be read";
    EXPECT_TRUE(meter.showsClipping()) << "and the warning stays a while";
}

TEST(TakePanel, MonitoringIsAskedForByHand) {
    InputRow row;
    row.setReport(running());
    EXPECT_FALSE(row.monitorButton()->isChecked());
    QSignalSpy chosen(&row, &InputRow::monitorChosen);
    row.monitorButton()->click();
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_TRUE(chosen[0][0].toBool());
    row.setMonitored(true);
    QSignalSpy level(&row, &InputRow::monitorLevelChosen);
    row.monitorSlider()->setValue(80);
    ASSERT_EQ(level.count(), 1);
    EXPECT_DOUBLE_EQ(level[0][0].toDouble(), 0.8);
}

TEST(TakePanel, ListsTakesWithPlaceSpeedAndTheOneThatIsHeard) {
    TakePanel panel;
    panel.setStudy(shared(threeTakes()));
    TakeList* list = panel.takeList();
    ASSERT_EQ(list->count(), 3);
    EXPECT_EQ(list->item(1)->text(), "take 2");
    EXPECT_EQ(list->item(1)->toolTip().toStdString(), "from bar 9, beat 1, at 60 %, −2 semitones");
    EXPECT_TRUE(list->item(2)->data(Qt::AccessibleTextRole).toString().contains("heard as yours"));
    EXPECT_TRUE(list->item(0)->data(Qt::AccessibleTextRole).toString().contains("not heard"));
}

TEST(TakePanel, CanBeWorkedFromTheKeyboard) {
    TakePanel panel;
    Applied desk(panel, threeTakes());
    TakeList* list = panel.takeList();
    list->setCurrentRow(0);
    QTest::keyClick(list, Qt::Key_Return);
    EXPECT_TRUE(desk.study.takes[0].chosen);
    EXPECT_EQ(list->currentRow(), 0);
    QTest::keyClick(list, Qt::Key_Return);
    EXPECT_EQ(desk.study.chosenTake(), nullptr) << "and again gives the written notes back";
    QTest::keyClick(list, Qt::Key_Delete);
    EXPECT_EQ(desk.study.takes.size(), 2u);
    list->item(0)->setText("with the pickup");
    EXPECT_EQ(desk.study.takes[0].name, "with the pickup");
    EXPECT_EQ(desk.names.size(), 4);
}

TEST(TakePanel, ATakeIsNamedInItsRow) {
    TakePanel panel;
    Applied desk(panel, threeTakes());
    panel.show();
    TakeList* list = panel.takeList();
    list->setCurrentRow(0);
    QTest::keyClick(list, Qt::Key_F2);
    auto* field = list->findChild<QLineEdit*>();
    ASSERT_NE(field, nullptr);
    EXPECT_EQ(field->text(), "take 1");
    field->selectAll();
    QTest::keyClicks(field, "with the pickup");
    QTest::keyClick(field, Qt::Key_Return);
    QApplication::processEvents();
    EXPECT_EQ(desk.study.takes[0].name, "with the pickup");
    EXPECT_EQ(desk.names.size(), 1) << "the key that ends the name chooses no take";
    EXPECT_EQ(list->currentRow(), 0);
    EXPECT_EQ(list->item(0)->text(), "with the pickup");
    list->item(0)->setText("  ");
    EXPECT_EQ(list->item(0)->text(), "with the pickup") << "a take keeps its name rather than none";
    EXPECT_EQ(desk.names.size(), 1);
}

TEST(TakePanel, NewTakesDrawTheRowToTheOneThatIsHeard) {
    TakePanel panel;
    Study study = threeTakes();
    panel.setStudy(shared(study));
    TakeList* list = panel.takeList();
    EXPECT_EQ(list->currentRow(), 2);
    list->setCurrentRow(0);
    study = chooseTake(study, study.takes[1].id);
    panel.setStudy(shared(study));
    EXPECT_EQ(list->currentRow(), 0) << "an edit leaves the row";
    std::vector<Take> fresh(2, study.takes[0]);
    fresh[0].chosen = true;
    study = addTakes(study, fresh);
    panel.setStudy(shared(study));
    EXPECT_EQ(list->currentRow(), 3);
    study = removeTake(study, study.takes[3].id);
    panel.setStudy(shared(study));
    EXPECT_EQ(list->currentRow(), 3) << "where one is taken off, the next is in its place";
}

TEST(TakePanel, RecordingShowsItsTimeAndCanBeEnded) {
    TakePanel panel;
    EXPECT_FALSE(panel.recordButton()->isEnabled()) << "there is no recording to play along with";
    panel.setReady(true);
    panel.setRecording({true, 12.34, ""});
    EXPECT_EQ(panel.recordButton()->text(), "stop recording");
    EXPECT_EQ(panel.stateText(), "recording, 12.3 s");
    const QSignalSpy asked(&panel, &TakePanel::recordRequested);
    panel.recordButton()->click();
    EXPECT_EQ(asked.count(), 1);
    panel.setRecording({false, 12.4, "The input has gone; what was played until then is kept."});
    EXPECT_TRUE(panel.stateText().contains("kept"));
}

TEST(TakePanel, EveryPartHasAName) {
    TakePanel panel;
    panel.inputRow()->setReport(running());
    panel.setStudy(shared(threeTakes()));
    const auto buttons = panel.findChildren<QAbstractButton*>();
    ASSERT_GE(buttons.size(), 7) << "to record, hear, name, remove, choose, monitor and measure";
    for (const QAbstractButton* button : buttons)
        EXPECT_FALSE(button->text().isEmpty() && button->accessibleName().isEmpty());
    for (const QWidget* part : std::initializer_list<QWidget*>{
             &panel, panel.takeList(), panel.inputRow()->meter(), panel.inputRow()->monitorSlider()})
        EXPECT_FALSE(part->accessibleName().isEmpty());
}

TEST(TakePanel, LooksInBothAppearances) {
    for (const auto& [appearance, name] :
         {std::pair{Appearance::Light, "light"}, std::pair{Appearance::Dark, "dark"}}) {
        applyTheme(*qApp, appearance);
        TakePanel panel;
        panel.resize(1400, panel.sizeHint().height());
        keepPicture(panel, QStringLiteral("takes-empty-%1.png").arg(name));
        panel.setReady(true);
        panel.inputRow()->setReport(running());
        panel.inputRow()->setRoundTrip({false, 0.001, ""});
        panel.inputRow()->setMonitored(true);
        panel.setRecording({true, 7.2, ""});
        panel.setStudy(shared(threeTakes()));
        panel.inputRow()->setLevel({1.0f, true});
        panel.resize(1400, panel.sizeHint().height());
        panel.show();
        QApplication::processEvents();
        keepPicture(panel, QStringLiteral("takes-recording-%1.png").arg(name));
        // Nothing is cut off where the window is narrow: with room to spare on a screen of 1280.
        EXPECT_LE(panel.minimumSizeHint().width(), 1000);
    }
    applyTheme(*qApp, Appearance::Light);
}

} // namespace
} // namespace earwright::ui
