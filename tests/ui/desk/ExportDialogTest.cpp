#include "ui/desk/ExportDialog.h"

#include "tests/ui/Picture.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QSpinBox>
#include <QTemporaryDir>

#include <algorithm>
#include <gtest/gtest.h>
#include <memory>
#include <optional>

namespace earwright::ui {
namespace {

class ExportDialogTest : public testing::Test {
protected:
    ExportDialogTest() {
        start.file = "/music/lantern.musicxml";
        open(true);
    }
    void open(bool hasSound) {
        dialog = std::make_unique<ExportDialog>(start, hasSound,
                                                [this](const ExportChoices& made) { written = made; });
        dialog->show();
    }
    QComboBox* list(const char* entry) {
        for (QComboBox* one : dialog->findChildren<QComboBox*>())
            if (one->findText(QLatin1String(entry)) >= 0) return one;
        ADD_FAILURE() << entry;
        return nullptr;
    }
    void choose(const char* entry) {
        QComboBox* box = list(entry);
        box->setCurrentText(QLatin1String(entry));
        emit box->activated(box->currentIndex());
    }
    QLineEdit* file() {
        for (QLineEdit* one : dialog->findChildren<QLineEdit*>())
            if (one->accessibleName() == QLatin1String("File, .musicxml, .mxl or .mid")) return one;
        return nullptr;
    }
    QPushButton* button() {
        for (QPushButton* one : dialog->findChildren<QPushButton*>())
            if (one->isDefault()) return one;
        return nullptr;
    }

    ExportChoices start;
    std::unique_ptr<ExportDialog> dialog;
    std::optional<ExportChoices> written;
};

TEST_F(ExportDialogTest, WritesAsItCameUpWhereNothingIsChosen) {
    keepPicture(*dialog, QStringLiteral("export-dialog.png"));
    button()->click();
    ASSERT_TRUE(written);
    EXPECT_EQ(written->file, start.file);
    EXPECT_EQ(written->page.reading, Reading::Concert);
    EXPECT_TRUE(written->page.places);
    EXPECT_FALSE(written->page.tablature);
    EXPECT_TRUE(written->midi.swings);
    EXPECT_FALSE(written->midi.tempo);
    EXPECT_FALSE(written->asPlayed);
}

TEST_F(ExportDialogTest, OffersWhatAPageCanCarry) {
    choose("For tenor saxophone");
    choose("a part in tablature as well");
    dialog->findChild<QCheckBox*>()->setChecked(true);
    const ExportChoices made = dialog->choices();
    EXPECT_EQ(made.page.reading, Reading::Tenor);
    EXPECT_TRUE(made.page.places && made.page.tablature && made.page.degrees);
    choose("left out");
    EXPECT_FALSE(dialog->choices().page.places);
    EXPECT_FALSE(dialog->choices().page.tablature);
    EXPECT_FALSE(list("as written, even")->isVisible()) << "that is of MIDI";
}

TEST_F(ExportDialogTest, OffersWhatMidiCanCarry) {
    choose("MIDI, for what plays it");
    keepPicture(*dialog, QStringLiteral("export-dialog-midi.png"));
    EXPECT_EQ(file()->text(), QStringLiteral("/music/lantern.mid"));
    EXPECT_FALSE(list("left out")->isVisible()) << "no strings in MIDI";
    choose("as written, even");
    EXPECT_FALSE(dialog->choices().midi.swings);
    choose("as the record plays them");
    EXPECT_TRUE(dialog->choices().asPlayed);
    for (QCheckBox* one : dialog->findChildren<QCheckBox*>())
        if (one->isVisible()) one->setChecked(true);
    dialog->findChild<QSpinBox*>()->setValue(90);
    EXPECT_EQ(dialog->choices().midi.tempo, 90);
}

TEST_F(ExportDialogTest, DoesNotOfferThePlayingWithoutARecording) {
    start.file = "/music/lantern.mid";
    start.asPlayed = true;
    open(false);
    QComboBox* box = list("as written, even");
    EXPECT_TRUE(box->isVisible());
    EXPECT_EQ(box->currentText(), QStringLiteral("as written, with their swing"));
    EXPECT_FALSE(box->model()->flags(box->model()->index(2, 0)).testFlag(Qt::ItemIsEnabled));
    EXPECT_TRUE(dialog->choices().asPlayed) << "kept for a study that has one";
}

TEST_F(ExportDialogTest, TheKindFollowsTheNameAndTheNameTheKind) {
    file()->setText(QStringLiteral("/music/No. 3.mid"));
    EXPECT_TRUE(list("as written, even")->isVisible());
    choose("MusicXML, compressed");
    EXPECT_EQ(file()->text(), QStringLiteral("/music/No. 3.mxl"));
    file()->setText(QStringLiteral("/music/No. 3"));
    EXPECT_FALSE(button()->isEnabled());
    choose("MusicXML, compressed");
    EXPECT_EQ(file()->text(), QStringLiteral("/music/No. 3.mxl")) << "3 is no ending";
    EXPECT_TRUE(button()->isEnabled());
    file()->setText(QStringLiteral("/music/line.pdf"));
    EXPECT_FALSE(button()->isEnabled());
    const auto labels = dialog->findChildren<QLabel*>();
    EXPECT_TRUE(std::any_of(labels.begin(), labels.end(), [](const QLabel* one) {
        return one->isVisible() && one->text().contains(QStringLiteral("ends in .musicxml, .mxl or .mid"));
    }));
}

TEST(ExportChoices, AreRememberedAndWhatWasKeptWronglyIsNot) {
    const QTemporaryDir folder;
    QSettings settings(folder.filePath(QStringLiteral("settings.ini")), QSettings::IniFormat);
    EXPECT_EQ(rememberedExportKind(settings), QStringLiteral("musicxml"));
    ExportChoices wish;
    wish.file = "/music/lantern.mid";
    wish.page.reading = Reading::GuitarOctave;
    wish.page.tablature = true;
    wish.page.degrees = true;
    wish.midi.swings = false;
    wish.midi.tempo = 72;
    wish.asPlayed = true;
    rememberExport(wish, settings);
    const ExportChoices back = rememberedExport(settings);
    EXPECT_EQ(back.page.reading, Reading::GuitarOctave);
    EXPECT_TRUE(back.page.tablature && back.page.degrees && back.asPlayed);
    EXPECT_FALSE(back.midi.swings);
    EXPECT_EQ(back.midi.tempo, 72);
    EXPECT_EQ(rememberedExportKind(settings), QStringLiteral("mid"));
    settings.setValue(QStringLiteral("export/tempo"), QStringLiteral("fast"));
    settings.setValue(QStringLiteral("export/reading"), QStringLiteral("lute"));
    settings.setValue(QStringLiteral("export/kind"), QStringLiteral("pdf"));
    EXPECT_EQ(rememberedExport(settings).midi.tempo, std::nullopt);
    EXPECT_EQ(rememberedExport(settings).page.reading, Reading::Concert);
    EXPECT_EQ(rememberedExportKind(settings), QStringLiteral("musicxml"));
}

} // namespace
} // namespace earwright::ui
