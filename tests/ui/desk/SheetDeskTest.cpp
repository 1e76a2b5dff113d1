#include "ui/desk/SheetDesk.h"

#include "core/study/NoteEdits.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/desk/SheetDialog.h"
#include "ui/page/MusicFont.h"

#include <QFile>
#include <QMessageBox>
#include <QPointer>
#include <QPushButton>

namespace earwright::ui {
namespace {

class SheetDeskTest : public TonesDesk {
protected:
    void SetUp() override {
        if (const auto font = MusicFont::load(); !font) GTEST_SKIP() << font.error().message;
        TonesDesk::SetUp();
        markBarsAndPhrase();
        writeNote(Beats(4), 60);
        writeNote(Beats(5), 64);
    }
    static SheetChoices choicesFor(const std::filesystem::path& file, bool sound = false) {
        SheetChoices made;
        made.file = file;
        made.sound = sound;
        return made;
    }
    void write(const SheetChoices& choices) {
        window->sheets().write(choices);
        ASSERT_TRUE(soon([&] { return !window->sheets().isWriting(); }));
    }
    QString said() const { return window->messages().sentence(QStringLiteral("sheet")); }
    QMessageBox* question() const { return window->findChild<QMessageBox*>(); }
    static QByteArray bytesOf(const std::filesystem::path& path) {
        QFile file(path);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
};

TEST_F(SheetDeskTest, WritesPageAndSoundsAndNamesThem) {
    write(choicesFor(in("lantern.pdf"), true));
    for (const char* name : {"lantern.pdf", "lantern.wav", "lantern-50.wav", "lantern-notes.wav"}) {
        EXPECT_TRUE(std::filesystem::exists(in(name))) << name;
        EXPECT_TRUE(said().contains(QString::fromLatin1(name))) << said().toStdString();
    }
    EXPECT_TRUE(bytesOf(in("lantern.pdf")).startsWith("%PDF-"));
    EXPECT_TRUE(bytesOf(in("lantern-notes.wav")).startsWith("RIFF"));
}

TEST_F(SheetDeskTest, AsksBeforeItReplacesFiles) {
    write(choicesFor(in("lantern.svg")));
    const QByteArray first = bytesOf(in("lantern.svg"));
    ASSERT_FALSE(first.isEmpty());
    SheetChoices other = choicesFor(in("lantern.svg"));
    other.wish.title = "Another title";
    write(other);
    ASSERT_TRUE(soon([&] { return question() != nullptr; }));
    EXPECT_TRUE(question()->text().contains(QStringLiteral("lantern.svg")));
    question()->button(QMessageBox::Cancel)->click();
    ASSERT_TRUE(soon([&] { return question() == nullptr; }));
    EXPECT_EQ(bytesOf(in("lantern.svg")), first);
    write(other);
    ASSERT_TRUE(soon([&] { return question() != nullptr; }));
    for (QAbstractButton* button : question()->buttons())
        if (question()->buttonRole(button) == QMessageBox::AcceptRole) button->click();
    ASSERT_TRUE(soon([&] { return bytesOf(in("lantern.svg")) != first; }));
}

TEST_F(SheetDeskTest, NeverTakesThePlaceOfTheRecording) {
    const QByteArray before = bytesOf(recording());
    write(choicesFor(in("tones.pdf"), true));
    EXPECT_TRUE(said().contains(QStringLiteral("tones.wav"))) << said().toStdString();
    EXPECT_EQ(question(), nullptr);
    EXPECT_EQ(bytesOf(recording()), before);
    EXPECT_FALSE(std::filesystem::exists(in("tones.pdf")));
}

TEST_F(SheetDeskTest, NeverTakesThePlaceOfATake) {
    const std::filesystem::path takes = window->session().takeFolder();
    std::filesystem::create_directories(takes);
    std::filesystem::copy_file(recording(), takes / "first.wav");
    const QByteArray before = bytesOf(takes / "first.wav");
    write(choicesFor(takes / "first.pdf", true));
    EXPECT_TRUE(said().contains(QStringLiteral("a take"))) << said().toStdString();
    EXPECT_EQ(question(), nullptr);
    EXPECT_EQ(bytesOf(takes / "first.wav"), before);
}

TEST_F(SheetDeskTest, WritesOneSheetAfterTheOther) {
    window->sheets().write(choicesFor(in("lantern.pdf"), true));
    window->sheets().write(choicesFor(in("shade.pdf")));
    EXPECT_TRUE(window->messages().sentence(QStringLiteral("sheet busy")).contains("still being written"));
    ASSERT_TRUE(soon([&] { return !window->sheets().isWriting(); }));
    EXPECT_TRUE(std::filesystem::exists(in("lantern-notes.wav")));
    EXPECT_FALSE(std::filesystem::exists(in("shade.pdf")));
}

TEST_F(SheetDeskTest, GoesWithItsStudy) {
    window->sheets().ask();
    QPointer<SheetDialog> dialog = window->findChild<SheetDialog*>();
    ASSERT_TRUE(dialog && dialog->isVisible());
    window->session().giveUp();
    window->session().open(recording());
    ASSERT_TRUE(soon([&] { return !dialog || !dialog->isVisible(); }));
}

TEST_F(SheetDeskTest, SaysWhereAFolderIsMissing) {
    write(choicesFor(in("nowhere/lantern.pdf")));
    EXPECT_TRUE(said().contains(QStringLiteral("lantern.pdf"))) << said().toStdString();
    EXPECT_FALSE(std::filesystem::exists(in("nowhere")));
}

TEST_F(SheetDeskTest, OffersWhatWasChosenForTheStudyBefore) {
    SheetChoices made = choicesFor(in("lantern.pdf"));
    made.wish.title = "Two ways down";
    made.wish.degrees = true;
    write(made);
    window->commands().action(CommandId::WriteSheet)->trigger();
    auto* dialog = window->findChild<SheetDialog*>();
    ASSERT_TRUE(dialog);
    EXPECT_EQ(dialog->choices().wish.title, "Two ways down");
    EXPECT_EQ(dialog->choices().file, in("lantern.pdf"));
    dialog->reject();
    // Another study begins with the look of the last sheet and a name of its own.
    QCoreApplication::sendPostedEvents(dialog, QEvent::DeferredDelete);
    window->session().giveUp();
    window->session().open(recording());
    ASSERT_TRUE(soon([&] { return study().notes.empty(); }));
    window->session().apply(QStringLiteral("note"),
                            addNote(study(), {Pitch{60, {}}, Beats(4), Beats(1)}).study);
    window->sheets().ask();
    dialog = window->findChild<SheetDialog*>();
    ASSERT_TRUE(dialog);
    EXPECT_TRUE(dialog->choices().wish.degrees);
    EXPECT_FALSE(dialog->choices().wish.title) << "its own";
    EXPECT_EQ(dialog->choices().file.filename(), "tones examples.pdf");
}

} // namespace
} // namespace earwright::ui
