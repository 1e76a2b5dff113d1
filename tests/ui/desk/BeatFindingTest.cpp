#include "ui/desk/BeatFinding.h"

#include "tests/ui/Soon.h"
#include "tests/ui/desk/GeneratedRecording.h"
#include "ui/desk/DeskWindow.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QDir>
#include <QSettings>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// The real desk on a recording with a stroke every half second from 0.5 s on, 24 seconds long.
class BeatFindingTest : public testing::Test {
protected:
    void SetUp() override {
        applyTheme(*qApp, Appearance::Light);
        std::vector<GeneratedTone> strokes;
        for (int i = 0; i < 46; ++i)
            strokes.push_back({0.5 + 0.5 * i, 0.3, i % 4 == 0 ? 40 : 52});
        const std::filesystem::path recording = folder.filePath("strokes.wav").toStdString();
        writeRecording(recording, 24, strokes);
        DeskSession::Options silent;
        silent.engine.openDevice = false;
        silent.unsavedWork = folder.filePath("unsaved").toStdString();
        window = std::make_unique<DeskWindow>(silent, settings);
        window->show();
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
        QSignalSpy opened(&window->session(), &DeskSession::opened);
        window->open(recording);
        ASSERT_TRUE(opened.wait(5000));
        // The fingerprint comes into the study in its own time, and tests compare whole studies.
        ASSERT_TRUE(soon([&] { return !study().recording.contentHash.empty(); }));
    }
    void TearDown() override {
        if (window && window->session().isOpen()) window->session().giveUp();
    }

    const Study& study() { return window->session().study(); }
    const std::vector<ProposedBeat>& proposed() { return window->beatFinding().proposed(); }
    QAction& action(CommandId id) { return *window->commands().action(id); }
    void find() {
        action(CommandId::FindBeats).trigger();
        ASSERT_TRUE(soon([&] { return window->beatFinding().hasProposal(); }));
    }
    void markBeat(double place) { window->session().apply("beat", tapBeatAt(place)); }
    Study tapBeatAt(double place) {
        Study next = study();
        next.beatMap = next.beatMap.tappedBeat(Seconds(place), next.meters());
        return next;
    }
    int pixels(Role role) {
        const QImage image = window->sheet().viewport()->grab().toImage();
        int found = 0;
        for (int y = 0; y < image.height(); ++y)
            for (int x = 0; x < image.width(); ++x)
                found += image.pixelColor(x, y).rgb() == color(role).rgb() ? 1 : 0;
        return found;
    }
    /// Keeps a picture where EARWRIGHT_SHOTS names a folder.
    void keepPicture(const char* name) {
        const QString shots = qEnvironmentVariable("EARWRIGHT_SHOTS");
        if (!shots.isEmpty()) window->grab().save(QDir(shots).filePath(name));
    }

    QTemporaryDir folder;
    QSettings settings{folder.filePath("settings.ini"), QSettings::IniFormat};
    std::unique_ptr<DeskWindow> window;
};

TEST_F(BeatFindingTest, ProposesBeatsWithoutTouchingTheStudy) {
    const Study before = study();
    EXPECT_FALSE(action(CommandId::AcceptBeats).isEnabled());
    find();
    EXPECT_EQ(study(), before);
    EXPECT_FALSE(window->session().canUndo());
    EXPECT_TRUE(action(CommandId::AcceptBeats).isEnabled());
}

TEST_F(BeatFindingTest, FollowsMarkedBeatsAndAcceptsInOneStepThatMovesNoneOfThem) {
    markBeat(3.01);
    markBeat(3.49);
    const Study marked = study();
    find();
    action(CommandId::AcceptBeats).trigger();
    EXPECT_FALSE(window->beatFinding().hasProposal());
    const auto& marks = study().beatMap.marks();
    ASSERT_GT(marks.size(), 20u);
    for (const BeatMark& mark : marked.beatMap.marks())
        EXPECT_NE(std::find(marks.begin(), marks.end(), mark), marks.end());
    // The strokes are where the recording was given them; 70 ms is mir_eval's beat tolerance.
    for (const BeatMark& mark : marks)
        EXPECT_NEAR(mark.time.value, std::round(mark.time.value * 2) / 2, 0.07) << mark.position.toDouble();
    window->session().undo();
    EXPECT_EQ(study(), marked);
}

TEST_F(BeatFindingTest, DrawsTheProposalInItsOwnColourUntilItIsDismissed) {
    EXPECT_EQ(pixels(Role::Proposal), 0);
    find();
    EXPECT_GT(pixels(Role::Proposal), 200);
    EXPECT_FALSE(window->messages().sentence("beats").isEmpty());
    QApplication::processEvents();
    keepPicture("beats-proposed-light.png");
    applyTheme(*qApp, Appearance::Dark);
    EXPECT_GT(pixels(Role::Proposal), 200);
    keepPicture("beats-proposed-dark.png");
    applyTheme(*qApp, Appearance::Light);
    action(CommandId::LetGo).trigger();
    EXPECT_EQ(pixels(Role::Proposal), 0);
    EXPECT_TRUE(study().beatMap.marks().empty());
}

TEST_F(BeatFindingTest, BarsGoOnInTheMeterThatStandsWhereItListens) {
    // Two bars of four from 0.5 s, then bars of three from 4.5 s on.
    Study marked = study();
    marked.beatMap = BeatMap({{Beats(0), Seconds(0.5)},
                              {Beats(4), Seconds(2.5)},
                              {Beats(8), Seconds(4.5)},
                              {Beats(11), Seconds(6)},
                              {Beats(14), Seconds(7.5)}});
    marked.page.meters = {{3, {3, 4}}};
    window->session().apply("bars", marked);
    window->sheet().setStretch(Range<Seconds>{Seconds(4.4), Seconds(14)});
    find();
    for (const ProposedBeat& beat : proposed()) {
        const long since = std::lround((beat.time.value - 4.5) / 0.5);
        EXPECT_EQ(beat.barPosition, since % 3 + 1) << beat.time.value;
    }
}

TEST_F(BeatFindingTest, CallingTheListeningOffProposesNothing) {
    action(CommandId::FindBeats).trigger();
    EXPECT_TRUE(window->beatFinding().dismiss());
    EXPECT_FALSE(window->beatFinding().dismiss());
    EXPECT_FALSE(QTest::qWaitFor([&] { return window->beatFinding().hasProposal(); }, 1500));
    EXPECT_TRUE(window->messages().sentence("beats").isEmpty());
}

TEST_F(BeatFindingTest, ASelectedStretchIsAllThatIsListenedTo) {
    window->sheet().setStretch(Range<Seconds>{Seconds(6), Seconds(14)});
    find();
    EXPECT_GE(proposed().front().time.value, 5.9);
    EXPECT_LE(proposed().back().time.value, 14.1);
}

} // namespace
} // namespace earwright::ui
