#include "ui/desk/FileField.h"

#include <QFileDialog>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

const QStringList kinds{QStringLiteral("Pages (*.pdf)"), QStringLiteral("Drawings (*.svg)"),
                        QStringLiteral("Pictures (*.png)")};

class FileFieldTest : public testing::Test {
protected:
    FileFieldTest() { field.show(); }
    QLineEdit* edit() { return field.findChild<QLineEdit*>(); }
    QFileDialog* choose() {
        field.findChild<QPushButton*>()->click();
        return field.findChild<QFileDialog*>();
    }

    FileField field{"/music/lantern.svg", QStringLiteral("File"), QStringLiteral("Write the sheet"), kinds};
};

TEST_F(FileFieldTest, TellsTheNameAsItIsTyped) {
    QSignalSpy changed(&field, &FileField::changed);
    EXPECT_EQ(field.path(), "/music/lantern.svg");
    edit()->setText(QStringLiteral("  /music/two ways.pdf "));
    EXPECT_EQ(field.path(), "/music/two ways.pdf");
    EXPECT_EQ(changed.size(), 1);
    field.setPath("/music/shade.png");
    EXPECT_EQ(edit()->text(), QStringLiteral("/music/shade.png"));
    EXPECT_EQ(changed.size(), 2);
}

TEST_F(FileFieldTest, OffersTheKindThatTheNameHas) {
    QFileDialog* dialog = choose();
    ASSERT_TRUE(dialog);
    EXPECT_EQ(dialog->selectedNameFilter(), kinds[1]);
    EXPECT_EQ(dialog->defaultSuffix(), QStringLiteral("svg"));
    EXPECT_TRUE(dialog->testOption(QFileDialog::DontConfirmOverwrite)) << "asked when it is written";
    emit dialog->filterSelected(kinds[2]);
    EXPECT_EQ(dialog->defaultSuffix(), QStringLiteral("png")) << "of a name without an ending";
    emit dialog->fileSelected(QStringLiteral("/music/shade.png"));
    EXPECT_EQ(field.path(), "/music/shade.png");
}

TEST_F(FileFieldTest, KeepsTheKindWhereTheNameHasTheEndingOfNone) {
    edit()->setText(QStringLiteral("/music/No. 3"));
    QFileDialog* dialog = choose();
    ASSERT_TRUE(dialog);
    EXPECT_EQ(dialog->selectedNameFilter(), kinds[1]);
}

} // namespace
} // namespace earwright::ui
