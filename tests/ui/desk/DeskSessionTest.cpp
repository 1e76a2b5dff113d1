#include "ui/desk/DeskSession.h"

#include "core/study/MarkEdits.h"
#include "core/study/NoteEdits.h"
#include "core/study/PracticeEdits.h"
#include "core/study/StudyFile.h"
#include "tests/ui/Soon.h"
#include "tests/ui/desk/GeneratedRecording.h"
#include "ui/desk/StudyPaths.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <fstream>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

namespace fs = std::filesystem;

class DeskSessionTest : public testing::Test {
protected:
    DeskSessionTest() { writeRecording(recording(), 8, {{0.5, 0.5, 60}, {1.0, 0.5, 64}}); }

    fs::path in(const char* name) const { return fs::path(folder.path().toStdString()) / name; }
    fs::path recording() const { return in("tones.wav"); }
    static DeskSession::Options silently(const fs::path& unsaved) {
        DeskSession::Options options;
        options.engine.openDevice = false;
        options.unsavedWork = unsaved;
        return options;
    }
    void open(const fs::path& path) {
        QSignalSpy opened(&session, &DeskSession::opened);
        session.open(path);
        ASSERT_TRUE(opened.wait(5000)) << path;
    }
    std::string failureOf(const fs::path& path) {
        QSignalSpy failed(&session, &DeskSession::failed);
        session.open(path);
        if (!failed.wait(5000)) return "no failure";
        return failed[0][0].toString().toStdString();
    }
    void mark() { session.apply("bar", tapBar(tapBar(session.study(), Seconds(0.5)), Seconds(2.5))); }
    void save(const fs::path& path) {
        QSignalSpy saved(&session, &DeskSession::saved);
        session.saveTo(path);
        ASSERT_TRUE(saved.wait(5000));
    }

    QTemporaryDir folder;
    DeskSession session{silently(in("unsaved"))};
};

TEST_F(DeskSessionTest, BeginsAStudyOfARecording) {
    open(recording());
    EXPECT_EQ(session.study().title, "tones");
    EXPECT_EQ(session.study().recording.rate, SampleRate{22050});
    EXPECT_NEAR(session.duration().value, 8, 0.01);
    EXPECT_TRUE(session.recording());
    EXPECT_TRUE(session.studyFile().empty());
}

TEST_F(DeskSessionTest, DrawsTheOverviewAndTakesTheFingerprintInTheBackground) {
    open(recording());
    ASSERT_TRUE(soon([&] { return session.level({Seconds(0.6), Seconds(0.7)}).value_or(0) > 0.1F; }));
    ASSERT_TRUE(soon([&] { return session.study().recording.contentHash.size() == 32; }));
    EXPECT_LT(session.level({Seconds(5), Seconds(6)}).value(), 0.01F);
    EXPECT_FALSE(session.canUndo());
}

TEST_F(DeskSessionTest, StillTakesTheFingerprintWhenTheOverviewIsCalledOff) {
    QObject::connect(&session, &DeskSession::recordingChanged, &session,
                     [this] { session.cancelOverview(); });
    QSignalSpy overview(&session, &DeskSession::overviewProgressed);
    open(recording());
    EXPECT_FALSE(overview.isEmpty());
    EXPECT_FALSE(overview.back()[0].value<std::optional<double>>());
    ASSERT_TRUE(soon([&] { return session.study().recording.contentHash.size() == 32; }));
}

TEST_F(DeskSessionTest, UndoesAndRedoesEditsButNotHowOneListens) {
    open(recording());
    mark();
    session.adjust(setSpeed(session.study(), 0.5));
    EXPECT_TRUE(session.study().beatMap.hasTempo());
    EXPECT_EQ(session.undoName(), "bar");
    session.undo();
    EXPECT_FALSE(session.study().beatMap.hasTempo());
    EXPECT_DOUBLE_EQ(session.study().practice.speed, 0.5);
    session.redo();
    EXPECT_TRUE(session.study().beatMap.hasTempo());
}

TEST_F(DeskSessionTest, HasASoundForWhatIsWrittenOnceBarsAreMarkedInARecording) {
    EXPECT_FALSE(session.hasMarkedSound()) << "nothing is open";
    open(recording());
    EXPECT_FALSE(session.hasMarkedSound()) << "no bars";
    mark();
    EXPECT_TRUE(session.hasMarkedSound());
    Opened alone;
    alone.study = session.study();
    session.begin(std::move(alone));
    EXPECT_FALSE(session.hasMarkedSound()) << "bars without a recording";
}

TEST_F(DeskSessionTest, SavesAndOpensAnEqualStudy) {
    open(recording());
    ASSERT_TRUE(soon([&] { return !session.study().recording.contentHash.empty(); }));
    mark();
    session.apply("note", addNote(session.study(), {Pitch{60, {}}, Beats(0), Beats(1)}).study);
    save(in("tones.study"));
    EXPECT_TRUE(session.isSaved());
    EXPECT_EQ(session.study().recording.path, "tones.wav");
    const Study kept = session.study();
    open(in("tones.study"));
    EXPECT_EQ(session.study(), kept);
    EXPECT_TRUE(session.recording());
}

TEST_F(DeskSessionTest, StaysUnsavedWhenEditedWhileTheDiskIsBusy) {
    open(recording());
    mark();
    QSignalSpy saved(&session, &DeskSession::saved);
    session.saveTo(in("tones.study"));
    session.apply("bar", tapBar(session.study(), Seconds(4.5)));
    ASSERT_TRUE(saved.wait(5000));
    EXPECT_FALSE(session.isSaved());
}

TEST_F(DeskSessionTest, StaysAsItIsWhereTheNewPlaceCannotBeWritten) {
    open(recording());
    ASSERT_TRUE(soon([&] { return !session.study().recording.contentHash.empty(); }));
    save(in("tones.study"));
    mark();
    const Study before = session.study();
    QSignalSpy failed(&session, &DeskSession::failed);
    session.saveTo(in("no such folder") / "tones.study");
    ASSERT_TRUE(failed.wait(5000));
    EXPECT_EQ(session.study(), before);
    EXPECT_EQ(session.studyFile(), in("tones.study"));
    EXPECT_FALSE(session.isSaved());
}

TEST_F(DeskSessionTest, NeverSavesOverTheRecording) {
    open(recording());
    const auto size = fs::file_size(recording());
    fs::create_symlink(recording(), in("link.study"));
    for (const char* name : {"tones.wav", "link.study"}) {
        QSignalSpy failed(&session, &DeskSession::failed);
        session.saveTo(in(name));
        ASSERT_EQ(failed.size(), 1) << name;
        EXPECT_TRUE(failed[0][0].toString().contains("the recording itself")) << name;
    }
    EXPECT_EQ(fs::file_size(recording()), size);
    EXPECT_TRUE(session.studyFile().empty());
}

TEST_F(DeskSessionTest, RefersToTheRecordingFromWhereItWasSaved) {
    open(recording());
    // A fingerprint that comes while the disk is busy is not in the file, and the study rightly unsaved.
    ASSERT_TRUE(soon([&] { return !session.study().recording.contentHash.empty(); }));
    save(in("tones.study"));
    fs::create_directory(in("elsewhere"));
    save(in("elsewhere") / "tones.study");
    EXPECT_EQ(session.study().recording.path, "../tones.wav");
    EXPECT_TRUE(session.isSaved());
    open(in("elsewhere") / "tones.study");
    EXPECT_TRUE(session.recording());
}

TEST_F(DeskSessionTest, IsSavedAgainOnceAnEditMadeMeanwhileIsUndone) {
    open(recording());
    ASSERT_TRUE(soon([&] { return !session.study().recording.contentHash.empty(); }));
    mark();
    save(in("tones.study"));
    mark();
    QSignalSpy saved(&session, &DeskSession::saved);
    session.saveTo(in("tones.study"));
    session.apply("bar", tapBar(session.study(), Seconds(4.5)));
    ASSERT_TRUE(saved.wait(5000));
    EXPECT_FALSE(session.isSaved());
    session.undo();
    EXPECT_TRUE(session.isSaved());
}

TEST_F(DeskSessionTest, KeepsWhatIsOpenWhenAnotherFileCannotBeOpened) {
    open(recording());
    ASSERT_TRUE(soon([&] { return !session.study().recording.contentHash.empty(); }));
    mark();
    const Study before = session.study();
    std::ofstream(in("words.wav")) << "these are words, not sound";
    std::ofstream(in("empty.wav"));
    std::ofstream(in("broken.study")) << "{ \"version\": 1, ";
    for (const char* name : {"words.wav", "empty.wav", "gone.wav", "broken.study", "gone.study"}) {
        const std::string sentence = failureOf(in(name));
        EXPECT_NE(sentence.find(name), std::string::npos) << sentence;
        EXPECT_EQ(sentence.find('\n'), std::string::npos) << sentence;
        EXPECT_EQ(session.study(), before) << name;
        EXPECT_TRUE(session.recording()) << name;
    }
}

TEST_F(DeskSessionTest, CallsOpeningOff) {
    QSignalSpy opened(&session, &DeskSession::opened);
    session.open(recording());
    session.cancelOpening();
    QTest::qWait(100);
    EXPECT_EQ(opened.size(), 0);
    EXPECT_FALSE(session.isOpen());
}

TEST_F(DeskSessionTest, FindsAMovedRecordingByItsContents) {
    open(recording());
    ASSERT_TRUE(soon([&] { return !session.study().recording.contentHash.empty(); }));
    save(in("tones.study"));
    fs::rename(recording(), in("moved.wav"));
    writeRecording(in("other.wav"), 8, {{0.5, 0.5, 61}});
    QSignalSpy opened(&session, &DeskSession::opened);
    session.open(in("tones.study"));
    ASSERT_TRUE(opened.wait(5000));
    EXPECT_FALSE(session.recording());
    EXPECT_TRUE(opened[0][0].value<Opened>().trouble);
    EXPECT_NEAR(session.duration().value, 8, 0.01);

    QSignalSpy picked(&session, &DeskSession::recordingPicked);
    session.pickRecording(in("other.wav"));
    ASSERT_TRUE(picked.wait(5000));
    EXPECT_FALSE(picked[0][0].value<PickedRecording>().recognised);
    EXPECT_FALSE(session.recording()); // refused unless it is accepted
    session.pickRecording(in("moved.wav"));
    ASSERT_TRUE(picked.wait(5000));
    EXPECT_TRUE(picked[1][0].value<PickedRecording>().recognised);
    session.takeRecording(picked[1][0].value<PickedRecording>());
    EXPECT_TRUE(session.recording());
    EXPECT_EQ(session.study().recording.path, "moved.wav");
}

TEST_F(DeskSessionTest, NoticesARecordingThatWasReplaced) {
    open(recording());
    ASSERT_TRUE(soon([&] { return !session.study().recording.contentHash.empty(); }));
    save(in("tones.study"));
    writeRecording(recording(), 8, {{0.5, 0.5, 61}});
    QSignalSpy differs(&session, &DeskSession::recordingDiffers);
    open(in("tones.study"));
    ASSERT_TRUE(differs.size() == 1 || differs.wait(5000));
    const std::string before = session.study().recording.contentHash;
    session.acceptRecording();
    EXPECT_NE(session.study().recording.contentHash, before);
}

TEST_F(DeskSessionTest, OffersWorkThatACrashLeftBehind) {
    open(recording());
    save(in("tones.study"));
    mark();
    const Study lost = session.study();
    session.recoveryCopy().finish();
    // As after a crash: the copy lies beside the file, and nobody holds it any more.
    fs::copy_file(in("tones.study.recovery"), in("crashed.recovery"));
    session.giveUp();
    session.recoveryCopy().finish();
    fs::copy_file(in("crashed.recovery"), in("tones.study.recovery"));

    QSignalSpy opened(&session, &DeskSession::opened);
    session.open(in("tones.study"));
    ASSERT_TRUE(opened.wait(5000));
    const auto what = opened[0][0].value<Opened>();
    ASSERT_TRUE(what.lostWork);
    EXPECT_FALSE(session.study().beatMap.hasTempo());
    session.openLost(*what.lostWork);
    ASSERT_TRUE(opened.wait(5000));
    EXPECT_EQ(session.study().beatMap, lost.beatMap);
    EXPECT_EQ(session.studyFile(), in("tones.study"));
    EXPECT_FALSE(session.isSaved());
}

} // namespace
} // namespace earwright::ui
