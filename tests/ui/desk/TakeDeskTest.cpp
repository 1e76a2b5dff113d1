// Playing along at the desk: from Z to a take that is kept, heard, taken back, saved and found again. The
// input is a sound server of the test's own, whose source hears what the desk plays.
#include "ui/desk/TakeDesk.h"

#include "core/engine/Input.h"
#include "core/study/TakeEdits.h"
#include "tests/core/engine/PrivateSound.h"
#include "tests/ui/Picture.h"
#include "tests/ui/Soon.h"
#include "tests/ui/desk/GeneratedRecording.h"
#include "tests/ui/desk/SilentDesk.h"
#include "ui/takes/InputRow.h"
#include "ui/takes/TakeList.h"
#include "ui/takes/TakePanel.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QSignalSpy>
#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

namespace fs = std::filesystem;

const auto cautionSubject = QStringLiteral("caution");

/// A desk on twelve seconds of tones, with bars of two seconds from the start and a loop over one of them.
class TakeDeskTest : public SilentDesk {
protected:
    void openDesk(bool withDevice) {
        openWindow(withDevice);
        window->resize(1280, 760);
    }
    void openTones() {
        const fs::path path = fs::path(folder.path().toStdString()) / "tones.wav";
        writeRecording(path, 12, {{2.0, 0.48, 60}, {3.0, 0.48, 64}});
        open(path);
        Study marked = window->session().study();
        marked.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
        window->session().apply("mark", marked);
        window->listening().loopOver(Range{Seconds(2), Seconds(4)});
    }
    void TearDown() override {
        if (!window) return;
        window->taking().stop();
        EXPECT_TRUE(soon([this] { return !window->taking().isRecording(); }));
        SilentDesk::TearDown();
    }
    QString caution() { return window->messages().sentence(cautionSubject); }
    const std::vector<Take>& takes() { return window->session().study().takes; }
    Input& input() { return window->session().engine().input(); }
    InputRow& row() { return *window->takes().inputRow(); }
};

TEST_F(TakeDeskTest, DoesNotRecordWhileNothingIsOpen) {
    openDesk(false);
    press(Qt::Key_Z);
    window->taking().recordOrStop();
    EXPECT_TRUE(caution().isEmpty());
    EXPECT_FALSE(window->taking().isRecording());
    EXPECT_EQ(input().report().state, DeviceState::Closed);
}

TEST_F(TakeDeskTest, OpensNoInputBeforeTheWordAboutTheEarsWasRead) {
    const tests::NoSound silence;
    openDesk(false);
    openTones();
    press(Qt::Key_Z);
    EXPECT_TRUE(window->takes().isVisible());
    EXPECT_EQ(caution(), TakePanel::caution());
    EXPECT_EQ(input().report().state, DeviceState::Closed);
    window->messages().choose(cautionSubject, 1);
    EXPECT_EQ(input().report().state, DeviceState::Closed);
    press(Qt::Key_Z);
    EXPECT_EQ(caution(), TakePanel::caution()) << "asked anew until it was answered";
}

TEST_F(TakeDeskTest, SaysWhereThereIsNoInputAndRecordsNothing) {
    const tests::NoSound silence;
    settings.setValue("input/cautionRead", true);
    openDesk(false);
    openTones();
    press(Qt::Key_Z);
    EXPECT_TRUE(caution().isEmpty()) << "it was read before";
    ASSERT_TRUE(soon([this] { return input().report().state == DeviceState::Missing; }));
    ASSERT_TRUE(soon([this] { return row().state().contains("no sound input"); }))
        << row().state().toStdString();
    EXPECT_FALSE(window->taking().isRecording());
    EXPECT_FALSE(window->listening().heard().playing);
    EXPECT_TRUE(takes().empty());
}

TEST_F(TakeDeskTest, ShowsAndHidesItsPanelAndRemembersIt) {
    openDesk(false);
    openTones();
    ASSERT_FALSE(window->takes().isVisible());
    press(Qt::Key_Z, Qt::ShiftModifier);
    EXPECT_TRUE(window->takes().isVisible());
    window->session().giveUp();
    openDesk(false);
    EXPECT_TRUE(window->takes().isVisible());
}

TEST_F(TakeDeskTest, TellsOfATakeWhoseFileIsGone) {
    openDesk(false);
    openTones();
    Take lost;
    lost.file = "evening.wav";
    lost.part = {Frames(0), Frames(22050)};
    lost.at = Seconds(2);
    lost.recorded = "2031-05-04T18:22:07Z";
    lost.chosen = true;
    window->session().apply("keep a take", addTakes(window->session().study(), {lost}));
    ASSERT_TRUE(soon([this] { return window->messages().sentence("notice").contains("evening.wav"); }));
    EXPECT_EQ(takes().size(), 1u) << "it stays on the list: the file may come back";
}

class PlayingAlongAtTheDesk : public TakeDeskTest {
protected:
    void SetUp() override {
        if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
        sound = std::make_unique<tests::PrivateSound>();
        settings.setValue("input/cautionRead", true);
        openDesk(true);
        openTones();
        ASSERT_TRUE(
            soon([this] { return window->session().engine().device().state == DeviceState::Running; }));
    }
    void TearDown() override {
        TakeDeskTest::TearDown();
        window.reset();
    }
    /// Z, a second and more of sound, Z, and the takes are on the list.
    void recordSome() {
        const std::size_t before = takes().size();
        press(Qt::Key_Z);
        ASSERT_TRUE(soon([this] { return input().recording().seconds > 1.2; }))
            << row().state().toStdString();
        if (window->taking().isRecording()) press(Qt::Key_Z);
        ASSERT_TRUE(soon([this, before] { return takes().size() > before; }));
    }
    fs::path fileOf(const Take& take) { return window->session().takeFolder() / take.file; }

    std::unique_ptr<tests::PrivateSound> sound;
};

TEST_F(PlayingAlongAtTheDesk, KeepsATakeFromTheLoopsStartAndChoosesIt) {
    recordSome();
    const Take* chosen = window->session().study().chosenTake();
    ASSERT_NE(chosen, nullptr);
    EXPECT_TRUE(fs::exists(fileOf(*chosen)));
    // The desk goes to the loop before it plays. The take begins with what was heard then, within the loop.
    EXPECT_GE(takes().front().at.value, 2.0 - 0.001);
    EXPECT_LT(takes().front().at.value, 4.0);
    EXPECT_EQ(takes().front().speed, 1.0);
    EXPECT_EQ(window->takes().takeList()->count(), static_cast<int>(takes().size()));
    EXPECT_EQ(window->takes().takeList()->current()->id.value, chosen->id.value);
    EXPECT_TRUE(window->messages().sentence("notice").contains("kept"));
    EXPECT_FALSE(window->session().isSaved());
}

TEST_F(PlayingAlongAtTheDesk, TakesARecordingBackInOneStepAndKeepsItsFile) {
    recordSome();
    const std::vector<Take> kept = takes();
    press(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_TRUE(takes().empty());
    EXPECT_TRUE(fs::exists(fileOf(kept.front()))) << "or redo could not bring it back";
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_EQ(takes(), kept);
}

TEST_F(PlayingAlongAtTheDesk, BringsTakesAlongWhenTheStudyIsSavedAndFindsThemAgain) {
    recordSome();
    const std::vector<Take> kept = takes();
    const fs::path file = fs::path(folder.path().toStdString()) / "evening.study";
    window->session().saveTo(file);
    ASSERT_TRUE(soon([&] { return window->session().isSaved() && fs::exists(file); }));
    EXPECT_TRUE(fs::exists(fs::path(folder.path().toStdString()) / "evening.takes" / kept.front().file));
    open(file);
    EXPECT_EQ(takes(), kept);
}

TEST_F(PlayingAlongAtTheDesk, KeepsWhatWasPlayedWhenTheInputGoes) {
    press(Qt::Key_Z);
    ASSERT_TRUE(soon([this] { return input().recording().seconds > 1.2; })) << row().state().toStdString();
    sound->kill();
    ASSERT_TRUE(soon([this] { return !takes().empty(); }));
    EXPECT_FALSE(window->taking().isRecording());
    EXPECT_TRUE(fs::exists(fileOf(takes().front())));
    EXPECT_TRUE(window->takes().stateText().contains("gone")) << window->takes().stateText().toStdString();
    sound->revive();
    ASSERT_TRUE(soon([this] { return input().report().state == DeviceState::Running; }));
    EXPECT_TRUE(soon([this] { return !window->takes().stateText().contains("gone"); }))
        << "it is back, and nothing is the matter any more";
}

TEST_F(PlayingAlongAtTheDesk, GivesNoTakeToAnotherStudyThatIsOpenedMeanwhile) {
    const fs::path file = fs::path(folder.path().toStdString()) / "evening.study";
    window->session().saveTo(file);
    ASSERT_TRUE(soon([&] { return window->session().studyFile() == file; }));
    press(Qt::Key_Z);
    ASSERT_TRUE(soon([this] { return input().recording().seconds > 1.2; })) << row().state().toStdString();
    const fs::path other = fs::path(folder.path().toStdString()) / "other.wav";
    writeRecording(other, 6, {{1.0, 0.48, 60}});
    QSignalSpy opened(&window->session(), &DeskSession::opened);
    // Straight from the session: the desk's question about unsaved work is another matter.
    window->session().open(other);
    ASSERT_TRUE(soon([&] { return !opened.isEmpty(); }))
        << window->messages().sentence("opening").toStdString();
    ASSERT_TRUE(soon([this] { return window->messages().sentence("notice").contains("evening.takes"); }));
    EXPECT_TRUE(takes().empty());
    EXPECT_FALSE(fs::is_empty(fs::path(folder.path().toStdString()) / "evening.takes"));
}

TEST_F(PlayingAlongAtTheDesk, SaysInFullWhenTheRoundTripCouldNotBeMeasured) {
    window->showTakes(true);
    window->taking().openInput();
    ASSERT_TRUE(soon([this] { return row().measureButton()->isVisible(); }));
    row().measureButton()->click();
    ASSERT_TRUE(soon([this] { return input().roundTrip().isRunning; }));
    // Nothing comes in any more, so nothing comes back.
    sound->kill();
    ASSERT_TRUE(soon([this] { return !window->messages().sentence("measuring").isEmpty(); }));
    EXPECT_EQ(window->messages().sentence("measuring").toStdString(), input().roundTrip().message);
    EXPECT_FALSE(settings.allKeys().join(' ').contains("roundTrip"));
}

TEST_F(TakeDeskTest, FitsASmallWindowWithManyTakes) {
    // What a window manager leaves of a screen of 1280 × 800.
    constexpr int roomForHeight = 770;
    for (const auto& [appearance, name] :
         {std::pair{Appearance::Light, "light"}, std::pair{Appearance::Dark, "dark"}}) {
        applyTheme(*qApp, appearance);
        openDesk(false);
        openTones();
        window->taking().follow();
        window->showTakes(true);
        std::vector<Take> many(6);
        for (Take& take : many) {
            take.file = "evening.wav";
            take.part = {Frames(0), Frames(22050)};
            take.at = Seconds(2);
            take.recorded = "2031-05-04T18:22:07Z";
        }
        window->session().apply("keep takes", addTakes(window->session().study(), many));
        QApplication::processEvents();
        window->resize(1280, roomForHeight);
        QApplication::processEvents();
        EXPECT_EQ(window->size(), QSize(1280, roomForHeight)) << "wider or higher than the screen";
        keepPicture(*window, QStringLiteral("desk-takes-%1.png").arg(name));
        window->session().giveUp();
    }
    applyTheme(*qApp, Appearance::Light);
}

} // namespace
} // namespace earwright::ui
