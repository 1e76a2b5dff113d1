#include "ui/desk/ExchangeDesk.h"

#include "core/exchange/OpenForeign.h"
#include "core/study/MeterEdits.h"
#include "core/study/NoteEdits.h"
#include "core/study/OwnTime.h"
#include "tests/core/study/TemporaryFolder.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/desk/ExportDialog.h"
#include "ui/page/PageView.h"

#include <QAbstractButton>
#include <QFile>
#include <QInputDialog>
#include <QMessageBox>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace earwright::ui {
namespace {

class ExchangeDeskTest : public TonesDesk {
protected:
    /// Of opening.
    QString told() { return window->messages().sentence(QStringLiteral("exchange")); }
    QString toldOfWriting() { return window->messages().sentence(QStringLiteral("export")); }
    std::filesystem::path score(bool hasTwoParts) {
        const auto part = [](const std::string& id, const char* step) {
            return "<part id=\"" + id + "\"><measure><note><pitch><step>" + step +
                   "</step><octave>4</octave></pitch><duration>4</duration><lyric><text>oh</text></lyric>"
                   "</note></measure></part>";
        };
        const std::string text =
            "<score-partwise><part-list><score-part id=\"a\"><part-name>Horn</part-name></score-part>"
            "<score-part id=\"b\"><part-name>Bass</part-name></score-part></part-list>" +
            part("a", "C") + (hasTwoParts ? part("b", "G") : "") + "</score-partwise>";
        fill(in("line.musicxml"), text);
        return in("line.musicxml");
    }
    /// Three bars of a note each, the last of them in 4/4.
    std::filesystem::path scoreIn(const std::string& beats, const std::string& beatType) {
        const auto bar = [](const std::string& top, const std::string& bottom, const char* length) {
            return "<measure><attributes><divisions>2</divisions><time><beats>" + top +
                   "</beats><beat-type>" + bottom +
                   "</beat-type></time></attributes><note><pitch><step>C</step><octave>4</octave></pitch>"
                   "<duration>" +
                   length + "</duration></note></measure>";
        };
        // 3/4 and 6/8 both last six eighths.
        fill(in("line.musicxml"),
             "<score-partwise><part-list><score-part id=\"a\"><part-name>Horn</part-name></score-part>"
             "</part-list><part id=\"a\">" +
                 bar(beats, beatType, "6") + bar(beats, beatType, "6") + bar("4", "4", "8") +
                 "</part></score-partwise>");
        return in("line.musicxml");
    }
    /// Opened in place of what is there, whatever is unsaved.
    void openInstead(const std::filesystem::path& path) {
        window->open(path);
        ASSERT_TRUE(soon([&] { return !window->messages().sentence("losing").isEmpty(); }));
        window->messages().choose("losing", 1); // don't save
        ASSERT_TRUE(soon([&] { return firstPitch() == 60; }));
    }
    /// When each bar begins in the recording.
    std::vector<double> barLines(std::int64_t bars) {
        std::vector<double> lines;
        for (std::int64_t bar = 1; bar <= bars; ++bar)
            lines.push_back(study().beatMap.seconds(study().meters().barStart(bar)).value);
        return lines;
    }
    /// Bar lines every two seconds from 0.5 s on, four of them.
    void markFourBars() {
        markBarsAndPhrase();
        for (const double at : {4.5, 6.5}) {
            earTo(at);
            press(Qt::Key_Return);
        }
        ASSERT_EQ(study().beatMap.marks().size(), 4u);
    }
    void writeTo(const std::filesystem::path& file) {
        ExportChoices wish;
        wish.file = file;
        window->exchange().write(wish);
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
        ASSERT_TRUE(window->exchange().isWriting());
    }
    QString toldBusy() { return window->messages().sentence(QStringLiteral("export busy")); }
    int firstPitch() {
        const auto& notes = window->session().study().notes;
        return notes.empty() ? 0 : notes.front().pitch.midi;
    }
};

TEST_F(ExchangeDeskTest, OpensALineWithoutARecordingAndTellsWhatWasLeftOut) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    EXPECT_EQ(firstPitch(), 60);
    EXPECT_EQ(window->session().study().title, "line");
    EXPECT_TRUE(told().contains("without a recording")) << told().toStdString();
    EXPECT_TRUE(told().contains("Words that are sung were left out.")) << told().toStdString();
    // A line without tempo and recording is there to be read all the same.
    EXPECT_TRUE(told().contains("No tempo is given")) << told().toStdString();
    EXPECT_TRUE(window->panel().grid()->hasColumns());
    const auto isOnPage = [&] { return !window->page().placeOf(study().notes.front().id).isEmpty(); };
    EXPECT_TRUE(!window->page().trouble().isEmpty() || soon(isOnPage));
    EXPECT_TRUE(window->keeping().hasUnsavedWork()) << "it is nowhere on disk";
    EXPECT_FALSE(window->close()) << "closing asks first";
    EXPECT_FALSE(window->messages().sentence("losing").isEmpty());
    window->messages().choose("losing", 2); // stay
    keepPicture(*window, "line-from-elsewhere.png");
}

TEST_F(ExchangeDeskTest, AsksForAPartWhereThereAreSeveral) {
    window->open(score(true));
    QInputDialog* dialog = nullptr;
    ASSERT_TRUE(soon([&] { return (dialog = window->findChild<QInputDialog*>()) != nullptr; }));
    EXPECT_EQ(dialog->comboBoxItems(), (QStringList{"1  Horn (1 note)", "2  Bass (1 note)"}));
    EXPECT_FALSE(window->session().isOpen());
    dialog->setTextValue("2  Bass (1 note)");
    dialog->accept();
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    EXPECT_EQ(firstPitch(), 67);
    EXPECT_TRUE(told().contains("Horn")) << told().toStdString();
}

TEST_F(ExchangeDeskTest, LeavesUnsavedWorkUntilItIsSettledAndKeepsTheRecording) {
    markBarsAndPhrase();
    const auto sound = window->session().recording();
    const auto marks = window->session().study().beatMap;
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return !window->messages().sentence("losing").isEmpty(); }));
    EXPECT_EQ(firstPitch(), 0) << "the study that is open";
    window->messages().choose("losing", 1); // don't save
    ASSERT_TRUE(soon([&] { return firstPitch() == 60; }));
    EXPECT_EQ(window->session().recording(), sound);
    EXPECT_EQ(window->session().study().beatMap, marks) << "bars stay where they were marked";
    EXPECT_TRUE(told().contains("tones.wav")) << told().toStdString();
}

// The bars were tapped in 4/4, which is what a study begins with.
TEST_F(ExchangeDeskTest, KeepsTheBarLinesAsTappedWhateverMeterThePageHas) {
    for (const auto& [beats, beatType] : {std::pair("3", "4"), {"6", "8"}}) {
        SCOPED_TRACE(beats);
        markFourBars();
        openInstead(scoreIn(beats, beatType));
        EXPECT_EQ(study().meter, (Meter{beats[0] - '0', beatType[0] - '0'}));
        EXPECT_EQ(study().meters().at(3), (Meter{4, 4}));
        EXPECT_EQ(barLines(4), (std::vector<double>{0.5, 2.5, 4.5, 6.5}));
        window->session().giveUp();
        openWindow();
    }
}

// Bar 2 of what is open goes in three, which the page knows nothing of.
TEST_F(ExchangeDeskTest, KeepsTheBarLinesWhereTheOpenStudyChangedItsMeter) {
    markFourBars();
    const auto inThree = changeMeter(study(), 2, Meter{3, 4}, 1);
    ASSERT_TRUE(inThree);
    window->session().apply("meter", *inThree);
    ASSERT_EQ(barLines(4), (std::vector<double>{0.5, 2.5, 4.5, 6.5}));
    openInstead(scoreIn("6", "8"));
    EXPECT_EQ(barLines(4), (std::vector<double>{0.5, 2.5, 4.5, 6.5}));
}

// Eighths, each up to 22 ms beside its line: 480 ticks a quarter, half a second long.
TEST_F(ExchangeDeskTest, WritesMidiThatAHandPlayedAsItIsCountedAndOffersItsTicks) {
    std::string events;
    for (const int since : {253, 228, 246, 223, 260, 231, 239, 249, 227, 252, 241, 235})
        events += std::string{static_cast<char>(0x80 | since >> 7), static_cast<char>(since & 0x7F)} +
                  "\x90\x3C\x50" + std::string("\0\x80\x3C\x40", 4);
    events += std::string("\0\xFF\x2F\0", 4);
    fill(in("hand.mid"), std::string("MThd\0\0\0\6\0\0\0\1\x01\xE0MTrk\0\0\0", 21) +
                             static_cast<char>(events.size()) + events);
    window->open(in("hand.mid"));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    const auto isOnEighths = [&] {
        return std::all_of(study().notes.begin(), study().notes.end(),
                           [](const Note& note) { return note.onset.denominator() <= 2; });
    };
    EXPECT_EQ(study().notes.size(), 12u);
    EXPECT_TRUE(isOnEighths());
    EXPECT_TRUE(told().contains("count what a hand played")) << told().toStdString();
    keepPicture(*window, "midi-played-by-hand.png");
    window->messages().choose(QStringLiteral("exchange"), 0);
    ASSERT_TRUE(soon([&] { return !window->messages().sentence("losing").isEmpty(); }));
    window->messages().choose("losing", 1); // don't save
    ASSERT_TRUE(soon([&] { return told().contains("the file's ticks are"); })) << told().toStdString();
    EXPECT_FALSE(isOnEighths());
}

TEST_F(ExchangeDeskTest, SaysWhyAFileCannotBeOpened) {
    fill(in("broken.mid"), "MThd");
    window->open(in("broken.mid"));
    ASSERT_TRUE(soon([&] { return told().contains("broken.mid"); }));
    EXPECT_FALSE(window->session().isOpen());
}

TEST_F(ExchangeDeskTest, WritesTheLineForOtherPrograms) {
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

TEST_F(ExchangeDeskTest, EnterInTheDialogWritesAsItDidTheLastTime) {
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
    window->exchange().write(wish);
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

TEST_F(ExchangeDeskTest, WritesMidiAsTheRecordPlaysTheNotes) {
    writeTheLine();
    ExportChoices wish;
    wish.file = in("played.mid");
    wish.asPlayed = true;
    window->exchange().write(wish);
    ASSERT_TRUE(isWritten("played.mid")) << toldOfWriting().toStdString();
    wish.file = in("written.mid");
    wish.asPlayed = false;
    window->exchange().write(wish);
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

TEST_F(ExchangeDeskTest, WritesTheStudyAsItWasWhenThatWasAsked) {
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

TEST_F(ExchangeDeskTest, SaysPlainlyWhereNoNoteIsHeard) {
    markBarsAndPhrase();
    // From 6.5 s on nothing sounds.
    writeNote(Beats(12), 48);
    writeNote(Beats(14), 52);
    ExportChoices wish;
    wish.file = in("silent.mid");
    wish.asPlayed = true;
    window->exchange().write(wish);
    ASSERT_TRUE(isWritten("silent.mid")) << toldOfWriting().toStdString();
    EXPECT_TRUE(toldOfWriting().contains("0 of 2 notes are heard")) << toldOfWriting().toStdString();
}

TEST_F(ExchangeDeskTest, CanBeCalledOffWhileItLooksForTheFileAndWhileItListens) {
    writeTheLine();
    ExportChoices wish;
    wish.asPlayed = true;
    wish.file = in("looked-for.mid");
    window->exchange().write(wish);
    EXPECT_EQ(toldOfWriting(), QStringLiteral("looked-for.mid is being written …"));
    window->messages().choose(QStringLiteral("export"), 0);
    EXPECT_EQ(toldOfWriting(), QStringLiteral("Writing looked-for.mid was called off."));
    EXPECT_FALSE(window->exchange().isWriting());
    wish.file = in("listened-to.mid");
    window->exchange().write(wish);
    ASSERT_TRUE(soon([&] { return toldOfWriting().startsWith("Listening"); }));
    window->messages().choose(QStringLiteral("export"), 0);
    EXPECT_EQ(toldOfWriting(), QStringLiteral("Writing listened-to.mid was called off."));
    EXPECT_FALSE(window->exchange().isWriting());
    writeTo(in("later.mid"));
    ASSERT_TRUE(isWritten("later.mid"));
    EXPECT_FALSE(std::filesystem::exists(in("looked-for.mid")));
    EXPECT_FALSE(std::filesystem::exists(in("listened-to.mid")));
}

TEST_F(ExchangeDeskTest, ListensNoMoreOnceAnotherRecordingIsOpen) {
    writeTheLine();
    ExportChoices wish;
    wish.asPlayed = true;
    wish.file = in("played.mid");
    window->exchange().write(wish);
    Opened other;
    other.study = withOwnTime(Study());
    window->session().begin(std::move(other));
    EXPECT_EQ(toldOfWriting(), QStringLiteral("Writing played.mid was called off."));
    EXPECT_FALSE(window->exchange().isWriting());
}

TEST_F(ExchangeDeskTest, WritesOneFileAfterTheOther) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    writeTo(in("first.mid"));
    writeTo(in("second.mid"));
    EXPECT_EQ(toldBusy(),
              QStringLiteral("first.mid is still being written; wait for it, or cancel it first."));
    ASSERT_TRUE(isWritten("first.mid"));
    EXPECT_FALSE(std::filesystem::exists(in("second.mid")));
}

TEST_F(ExchangeDeskTest, LeavesWhatWasLeftOutToBeReadWhileItWrites) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    const QString unanswered = told();
    ASSERT_TRUE(unanswered.contains("Words that are sung were left out.")) << unanswered.toStdString();
    writeTo(in("out.mid"));
    ASSERT_TRUE(isWritten("out.mid")) << toldOfWriting().toStdString();
    EXPECT_EQ(told(), unanswered);
}

TEST_F(ExchangeDeskTest, TellsOfAFileThatCannotBeOpenedBesideTheOneThatItWrites) {
    writeTheLine();
    fill(in("broken.mid"), "MThd");
    ExportChoices wish;
    wish.asPlayed = true;
    wish.file = in("played.mid");
    window->exchange().write(wish);
    window->open(in("broken.mid"));
    ASSERT_TRUE(soon([&] { return told().contains("broken.mid"); }));
    const QString trouble = told();
    ASSERT_TRUE(isWritten("played.mid")) << toldOfWriting().toStdString();
    EXPECT_EQ(told(), trouble);
}

TEST_F(ExchangeDeskTest, TellsThatItCalledOffWritingBesideTheStudyThatWasOpenedMeanwhile) {
    writeTheLine();
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return !window->messages().sentence("losing").isEmpty(); }));
    writeTo(in("out.mid"));
    window->messages().choose("losing", 1); // don't save
    EXPECT_EQ(firstPitch(), 60);
    EXPECT_EQ(toldOfWriting(), QStringLiteral("Writing out.mid was called off."));
    EXPECT_TRUE(told().contains("The line of line.musicxml is a new study")) << told().toStdString();
}

TEST_F(ExchangeDeskTest, SaysNothingOfCancellingWhereThatIsTooLate) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    beginToWrite("out.mid");
    writeTo(in("second.mid"));
    EXPECT_EQ(toldBusy(), QStringLiteral("out.mid is still being written; wait for it."));
}

TEST_F(ExchangeDeskTest, NamesTheFileThatIsWrittenOnceAnotherStudyIsOpen) {
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

TEST_F(ExchangeDeskTest, AsksNothingWhileAFileIsBeingWritten) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    beginToWrite("out.mid");
    window->exchange().askWhatToWrite();
    EXPECT_EQ(window->findChild<ExportDialog*>(), nullptr);
    EXPECT_TRUE(toldBusy().startsWith("out.mid is still being written")) << toldBusy().toStdString();
    ASSERT_TRUE(isWritten("out.mid")) << toldOfWriting().toStdString();
    window->exchange().askWhatToWrite();
    EXPECT_NE(window->findChild<ExportDialog*>(), nullptr);
}

} // namespace
} // namespace earwright::ui
