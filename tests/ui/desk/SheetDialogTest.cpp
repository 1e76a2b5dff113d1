#include "ui/desk/SheetDialog.h"

#include "tests/ui/Picture.h"
#include "tests/ui/page/WrittenStudy.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QSpinBox>
#include <QTableWidget>
#include <QTemporaryDir>

#include <gtest/gtest.h>
#include <optional>

namespace earwright::ui {
namespace {

class SheetDialogTest : public testing::Test {
protected:
    SheetDialogTest() {
        Study two = writtenStudy();
        two.spans[1].range.end = Seconds(2);
        two.spans.push_back({SpanId{91}, SpanKind::Phrase, "answer", {Seconds(2), Seconds(4)}});
        two.spans.push_back({SpanId{92}, SpanKind::Phrase, "nothing written", {Seconds(5), Seconds(6)}});
        study = std::make_shared<const Study>(std::move(two));
        SheetChoices start;
        start.file = "/music/lantern.pdf";
        dialog = std::make_unique<SheetDialog>(study, start, true,
                                               [this](const SheetChoices& made) { written = made; });
    }
    template <typename Widget>
    Widget* find(const QString& words) {
        for (Widget* one : dialog->findChildren<Widget*>())
            if (one->accessibleName() == words || one->property("text").toString() == words) return one;
        return nullptr;
    }
    QTableWidget* phrases() { return find<QTableWidget>(QStringLiteral("Phrases on the sheet")); }
    QPushButton* button() { return find<QPushButton>(QStringLiteral("&Write")); }
    QLineEdit* file() { return find<QLineEdit>(QStringLiteral("File, .pdf, .svg or .png")); }

    std::shared_ptr<const Study> study;
    std::unique_ptr<SheetDialog> dialog;
    std::optional<SheetChoices> written;
};

TEST_F(SheetDialogTest, ListsThePhrasesInWhichSomethingIsWrittenAllChosen) {
    dialog->show();
    keepPicture(*dialog, QStringLiteral("sheet-dialog.png"));
    ASSERT_EQ(phrases()->rowCount(), 2);
    EXPECT_EQ(phrases()->item(0, 0)->text(), QStringLiteral("turn"));
    EXPECT_EQ(phrases()->item(1, 0)->text(), QStringLiteral("answer"));
    button()->click();
    ASSERT_TRUE(written);
    EXPECT_TRUE(written->wish.phrases.empty()) << "all, also those that are named later";
    EXPECT_FALSE(written->wish.title) << "the study's, whatever it comes to be";
    EXPECT_EQ(written->file, "/music/lantern.pdf");
    EXPECT_FALSE(written->sound);
}

TEST_F(SheetDialogTest, HandsOnWhatWasChosen) {
    phrases()->item(0, 0)->setCheckState(Qt::Unchecked);
    phrases()->item(1, 2)->setText(QStringLiteral("Watch the third. "));
    find<QCheckBox>(QStringLiteral("Ta&blature"))->click();
    find<QCheckBox>(QStringLiteral("&Degrees on the chords"))->click();
    find<QCheckBox>(QStringLiteral("&Sound of each example"))->click();
    dialog->findChildren<QComboBox*>()[0]->setCurrentIndex(1);
    const SheetChoices made = dialog->choices();
    EXPECT_EQ(made.wish.phrases, std::vector{SpanId{91}});
    EXPECT_EQ(made.wish.words.at(SpanId{91}), "Watch the third.");
    EXPECT_FALSE(made.wish.tablature);
    EXPECT_TRUE(made.wish.degrees);
    EXPECT_TRUE(made.wish.chordSymbols);
    EXPECT_TRUE(made.sound);
    EXPECT_DOUBLE_EQ(made.speed, 0.5);
    EXPECT_EQ(made.wish.reading, Reading::BFlat);
}

TEST_F(SheetDialogTest, WaitsForAPhraseAndAFileOfAKindItKnows) {
    EXPECT_TRUE(button()->isEnabled());
    for (int row = 0; row < 2; ++row)
        phrases()->item(row, 0)->setCheckState(Qt::Unchecked);
    EXPECT_FALSE(button()->isEnabled());
    phrases()->item(1, 0)->setCheckState(Qt::Checked);
    EXPECT_TRUE(button()->isEnabled());
    for (const char* name : {"/music/lantern.doc", "/music/lantern", "/music/.pdf", ""}) {
        file()->setText(QString::fromLatin1(name));
        EXPECT_FALSE(button()->isEnabled()) << name;
    }
    file()->setText(QStringLiteral("/music/lantern.svg"));
    EXPECT_TRUE(button()->isEnabled());
}

TEST_F(SheetDialogTest, WaitsForTheStaffOrTheTablature) {
    QCheckBox* staff = find<QCheckBox>(QStringLiteral("Staff of f&ive lines"));
    staff->click();
    EXPECT_TRUE(button()->isEnabled());
    EXPECT_FALSE(dialog->choices().wish.staff);
    find<QCheckBox>(QStringLiteral("Ta&blature"))->click();
    EXPECT_FALSE(button()->isEnabled());
    staff->click();
    EXPECT_TRUE(button()->isEnabled());
}

TEST_F(SheetDialogTest, KeepsTheWishForSoundWhereThereIsNoRecording) {
    SheetChoices start;
    start.sound = true;
    const SheetDialog silent(study, start, false, {});
    for (const QCheckBox* box : silent.findChildren<QCheckBox*>()) {
        if (!box->text().contains("Sound")) continue;
        EXPECT_FALSE(box->isEnabled());
        EXPECT_FALSE(box->isChecked());
    }
    EXPECT_TRUE(silent.choices().sound);
}

TEST(SheetChoices, AreRememberedButForThoseOfTheStudy) {
    const QTemporaryDir folder;
    QSettings settings(folder.filePath(QStringLiteral("settings.ini")), QSettings::IniFormat);
    SheetChoices made;
    made.wish.title = "Two ways down";
    made.wish.phrases = {SpanId{7}};
    made.wish.words[SpanId{7}] = "Watch the third.";
    made.wish.degrees = true;
    made.wish.tablature = false;
    made.wish.staff = false;
    made.wish.reading = Reading::EFlat;
    made.wish.clef = Clef::Bass;
    made.wish.barsPerLine = 3;
    made.wish.paper = letterPaper;
    made.sound = true;
    made.speed = 0.7;
    made.file = "/music/lantern.svg";
    rememberChoices(made, settings);
    const SheetChoices kept = rememberedChoices(settings);
    EXPECT_TRUE(kept.wish.degrees);
    EXPECT_FALSE(kept.wish.tablature);
    EXPECT_FALSE(kept.wish.staff);
    EXPECT_EQ(kept.wish.reading, Reading::EFlat);
    EXPECT_EQ(kept.wish.clef, Clef::Bass);
    EXPECT_EQ(kept.wish.barsPerLine, 3);
    EXPECT_EQ(kept.wish.paper.width, letterPaper.width);
    EXPECT_TRUE(kept.sound);
    EXPECT_DOUBLE_EQ(kept.speed, 0.7);
    EXPECT_EQ(rememberedKind(settings), QStringLiteral("svg"));
    EXPECT_FALSE(kept.wish.title);
    EXPECT_TRUE(kept.wish.phrases.empty());
    EXPECT_TRUE(kept.wish.words.empty());
    EXPECT_TRUE(kept.file.empty());
}

TEST(SheetChoices, ThatWereKeptWronglyAreTheUsualOnes) {
    const QTemporaryDir folder;
    QSettings settings(folder.filePath(QStringLiteral("settings.ini")), QSettings::IniFormat);
    for (const char* name : {"reading", "clef", "bars", "paper", "speed", "kind"})
        settings.setValue(QStringLiteral("sheet/") + QLatin1String(name), QStringLiteral("-3 lanterns"));
    const SheetChoices kept = rememberedChoices(settings);
    EXPECT_EQ(kept.wish.reading, Reading::Concert);
    EXPECT_EQ(kept.wish.clef, std::nullopt);
    EXPECT_EQ(kept.wish.barsPerLine, 4);
    EXPECT_EQ(kept.wish.paper.width, a4Paper.width);
    EXPECT_DOUBLE_EQ(kept.speed, 0.5);
    EXPECT_EQ(rememberedKind(settings), QStringLiteral("pdf"));
}

} // namespace
} // namespace earwright::ui
