#include "ui/desk/ExportDesk.h"

#include "core/exchange/OpenForeign.h"
#include "core/study/NoteEdits.h"
#include "core/study/OwnTime.h"
#include "tests/ui/desk/ForeignLineDesk.h"
#include "ui/desk/ExportDialog.h"

#include <QAbstractButton>
#include <QFile>
#include <QMessageBox>

#include <utility>

namespace earwright::ui {
namespace {

class ExportDeskTest : public ForeignLineDesk {
protected:
    QString toldOfWriting() { return window->messages().sentence(QStringLiteral("export")); }
    void writeTo(const std::filesystem::path& file) {
        ExportChoices wish;
        wish.file = file;
        window->exports().write(wish);
    }
    bool isWritten(const char* name) {
        return soon([&] {
            return toldOfWriting().startsWith(QStringLiteral("The line is in %1.").arg(QLatin1String(name)));
        });
    }
    void replace() {
        for (QAbstractButton* button : window->findChild<QMessageBox*>()->buttons())
            if (button->text().contains(QStringLiteral("Replace"))) button->click();
    }
    /// Once the user has let it replace what was there it is written, which no one can call off: until soon()
    /// is called next it goes on.
    void beginToWrite(const char* name) {
        fill(in(name), "of the day before");
        writeTo(in(name));
        ASSERT_TRUE(soon([&] { return window->findChild<QMessageBox*>() != nullptr; }));
        replace();
        ASSERT_TRUE(window->exports().isWriting());
    }
    QString toldBusy() { return window->messages().sentence(QStringLiteral("export busy")); }
};

TEST_F(ExportDeskTest, WritesTheLineForOtherPrograms) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    for (const char* name : {"out.musicxml", "out.mxl", "out.mid"}) {
        writeTo(in(name));
        ASSERT_TRUE(isWritten(name)) << toldOfWriting().toStdString();
        const auto back = openForeign(in(name));
        ASSERT_TRUE(back.ok()) << describe(back.error());
        EXPECT_EQ(back->study.notes.size(), 1u);
    }
    writeTo(in("nowhere/out.mid"));
    ASSERT_TRUE(soon([&] { return toldOfWriting().contains("nowhere"); }));
    writeTo(in("out.pdf"));
    ASSERT_TRUE(soon([&] { return toldOfWriting().contains("none of"); }));
}

TEST_F(ExportDeskTest, EnterInTheDialogWritesAsItDidTheLastTime) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    press(Qt::Key_E, Qt::ControlModifier | Qt::ShiftModifier);
    auto* dialog = window->findChild<ExportDialog*>();
    ASSERT_TRUE(dialog);
    ExportChoices wish = dialog->choices();
    EXPECT_EQ(wish.file.filename(), "line.musicxml");
    EXPECT_EQ(wish.page.reading, Reading::Concert);
    dialog->reject();
    wish.file = in("alto.musicxml");
    wish.page.reading = Reading::EFlat;
    window->exports().write(wish);
    ASSERT_TRUE(soon([&] { return toldOfWriting().contains("The line is in alto.musicxml"); }));
    window->commands().action(CommandId::WriteForOthers)->trigger();
    ASSERT_TRUE(soon([&] { return (dialog = window->findChild<ExportDialog*>()) && dialog->isVisible(); }));
    EXPECT_EQ(dialog->choices().file, in("alto.musicxml"));
    QTest::keyClick(dialog, Qt::Key_Return);
    // It is there already.
    ASSERT_TRUE(soon([&] { return window->findChild<QMessageBox*>() != nullptr; }));
    window->messages().close(QStringLiteral("export"));
    replace();
    ASSERT_TRUE(isWritten("alto.musicxml"));
    // C4 as an alto reads it, a major sixth higher (common practice).
    QFile file(QString::fromStdString(in("alto.musicxml").string()));
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    EXPECT_TRUE(file.readAll().contains("<step>A</step>"));
}

TEST_F(ExportDeskTest, WritesMidiAsTheRecordPlaysTheNotes) {
    writeTheLine();
    ExportChoices wish;
    wish.file = in("played.mid");
    wish.asPlayed = true;
    window->exports().write(wish);
    ASSERT_TRUE(isWritten("played.mid")) << toldOfWriting().toStdString();
    wish.file = in("written.mid");
    wish.asPlayed = false;
    window->exports().write(wish);
    ASSERT_TRUE(isWritten("written.mid")) << toldOfWriting().toStdString();
    const auto bytes = [&](const char* name) {
        QFile file(QString::fromStdString(in(name).string()));
        EXPECT_TRUE(file.open(QIODevice::ReadOnly));
        return file.readAll();
    };
    const auto played = openForeign(in("played.mid"), {}, MidiRhythm::Ticks);
    ASSERT_TRUE(played.ok());
    EXPECT_EQ(played->study.notes.size(), study().notes.size());
    EXPECT_NE(bytes("played.mid"), bytes("written.mid")) << "the tones last for 0.48 of 0.5 seconds";
}

TEST_F(ExportDeskTest, WritesTheStudyAsItWasWhenThatWasAsked) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    fill(in("out.musicxml"), "of the day before");
    writeTo(in("out.musicxml"));
    ASSERT_TRUE(soon([&] { return window->findChild<QMessageBox*>() != nullptr; }));
    EXPECT_TRUE(toldOfWriting().isEmpty()) << "nothing is being written while it asks";
    window->session().apply("note", addNote(study(), {Pitch{62, {}}, Beats(4), Beats(1)}).study);
    replace();
    ASSERT_TRUE(isWritten("out.musicxml")) << toldOfWriting().toStdString();
    const auto back = openForeign(in("out.musicxml"));
    ASSERT_TRUE(back.ok()) << describe(back.error());
    EXPECT_EQ(back->study.notes.size(), 1u);
}

TEST_F(ExportDeskTest, SaysPlainlyWhereNoNoteIsHeard) {
    markBarsAndPhrase();
    // From 6.5 s on nothing sounds.
    writeNote(Beats(12), 48);
    writeNote(Beats(14), 52);
    ExportChoices wish;
    wish.file = in("silent.mid");
    wish.asPlayed = true;
    window->exports().write(wish);
    ASSERT_TRUE(isWritten("silent.mid")) << toldOfWriting().toStdString();
    EXPECT_TRUE(toldOfWriting().contains("0 of 2 notes are heard")) << toldOfWriting().toStdString();
}

TEST_F(ExportDeskTest, CanBeCalledOffWhileItLooksForTheFileAndWhileItListens) {
    writeTheLine();
    ExportChoices wish;
    wish.asPlayed = true;
    wish.file = in("looked-for.mid");
    window->exports().write(wish);
    EXPECT_EQ(toldOfWriting(), QStringLiteral("looked-for.mid is being written …"));
    window->messages().choose(QStringLiteral("export"), 0);
    EXPECT_EQ(toldOfWriting(), QStringLiteral("Writing looked-for.mid was called off."));
    EXPECT_FALSE(window->exports().isWriting());
    wish.file = in("listened-to.mid");
    window->exports().write(wish);
    ASSERT_TRUE(soon([&] { return toldOfWriting().startsWith("Listening"); }));
    window->messages().choose(QStringLiteral("export"), 0);
    EXPECT_EQ(toldOfWriting(), QStringLiteral("Writing listened-to.mid was called off."));
    EXPECT_FALSE(window->exports().isWriting());
    writeTo(in("later.mid"));
    ASSERT_TRUE(isWritten("later.mid"));
    EXPECT_FALSE(std::filesystem::exists(in("looked-for.mid")));
    EXPECT_FALSE(std::filesystem::exists(in("listened-to.mid")));
}

TEST_F(ExportDeskTest, ListensNoMoreOnceAnotherRecordingIsOpen) {
    writeTheLine();
    ExportChoices wish;
    wish.asPlayed = true;
    wish.file = in("played.mid");
    window->exports().write(wish);
    Opened other;
    other.study = withOwnTime(Study());
    window->session().begin(std::move(other));
    EXPECT_EQ(toldOfWriting(), QStringLiteral("Writing played.mid was called off."));
    EXPECT_FALSE(window->exports().isWriting());
}

TEST_F(ExportDeskTest, WritesOneFileAfterTheOther) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    writeTo(in("first.mid"));
    writeTo(in("second.mid"));
    EXPECT_EQ(toldBusy(),
              QStringLiteral("first.mid is still being written; wait for it, or cancel it first."));
    ASSERT_TRUE(isWritten("first.mid"));
    EXPECT_FALSE(std::filesystem::exists(in("second.mid")));
}

TEST_F(ExportDeskTest, LeavesWhatWasLeftOutToBeReadWhileItWrites) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    const QString unanswered = told();
    ASSERT_TRUE(unanswered.contains("Words that are sung were left out.")) << unanswered.toStdString();
    writeTo(in("out.mid"));
    ASSERT_TRUE(isWritten("out.mid")) << toldOfWriting().toStdString();
    EXPECT_EQ(told(), unanswered);
}

TEST_F(ExportDeskTest, TellsOfAFileThatCannotBeOpenedBesideTheOneThatItWrites) {
    writeTheLine();
    fill(in("broken.mid"), "MThd");
    ExportChoices wish;
    wish.asPlayed = true;
    wish.file = in("played.mid");
    window->exports().write(wish);
    window->open(in("broken.mid"));
    ASSERT_TRUE(soon([&] { return told().contains("broken.mid"); }));
    const QString trouble = told();
    ASSERT_TRUE(isWritten("played.mid")) << toldOfWriting().toStdString();
    EXPECT_EQ(told(), trouble);
}

TEST_F(ExportDeskTest, TellsThatItCalledOffWritingBesideTheStudyThatWasOpenedMeanwhile) {
    writeTheLine();
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return !window->messages().sentence("losing").isEmpty(); }));
    writeTo(in("out.mid"));
    window->messages().choose("losing", 1); // don't save
    EXPECT_EQ(firstPitch(), 60);
    EXPECT_EQ(toldOfWriting(), QStringLiteral("Writing out.mid was called off."));
    EXPECT_TRUE(told().contains("The line of line.musicxml is a new study")) << told().toStdString();
}

TEST_F(ExportDeskTest, SaysNothingOfCancellingWhereThatIsTooLate) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    beginToWrite("out.mid");
    writeTo(in("second.mid"));
    EXPECT_EQ(toldBusy(), QStringLiteral("out.mid is still being written; wait for it."));
}

TEST_F(ExportDeskTest, NamesTheFileThatIsWrittenOnceAnotherStudyIsOpen) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    beginToWrite("out.mid");
    Opened other;
    other.study = withOwnTime(study());
    window->session().begin(std::move(other));
    writeTo(in("second.mid"));
    EXPECT_EQ(toldBusy(), QStringLiteral("out.mid is still being written; wait for it."));
    ASSERT_TRUE(isWritten("out.mid")) << toldOfWriting().toStdString();
}

TEST_F(ExportDeskTest, AsksNothingWhileAFileIsBeingWritten) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    beginToWrite("out.mid");
    window->exports().askWhatToWrite();
    EXPECT_EQ(window->findChild<ExportDialog*>(), nullptr);
    EXPECT_TRUE(toldBusy().startsWith("out.mid is still being written")) << toldBusy().toStdString();
    ASSERT_TRUE(isWritten("out.mid")) << toldOfWriting().toStdString();
    window->exports().askWhatToWrite();
    EXPECT_NE(window->findChild<ExportDialog*>(), nullptr);
}

} // namespace
} // namespace earwright::ui
