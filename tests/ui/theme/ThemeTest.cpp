#include "ui/theme/Theme.h"

#include "ui/theme/QuietButton.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QDir>
#include <QImage>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QProxyStyle>
#include <QPushButton>
#include <QSlider>
#include <QSpinBox>
#include <QTreeWidget>
#include <QVBoxLayout>

#include <gtest/gtest.h>

using namespace earwright::ui;

namespace {

class Theme : public testing::TestWithParam<Appearance> {
protected:
    void SetUp() override { applyTheme(*qApp, GetParam()); }
    void TearDown() override { applyTheme(*qApp, Appearance::Light); }

    /// With EARWRIGHT_SHOTS set to a folder the picture is kept there.
    QImage grab(QWidget& widget, const QString& name) {
        widget.show();
        qApp->processEvents();
        QImage image(widget.size(), QImage::Format_RGB32);
        widget.render(&image);
        const QString folder = qEnvironmentVariable("EARWRIGHT_SHOTS");
        const QString suffix =
            GetParam() == Appearance::Dark ? QStringLiteral("-dark.png") : QStringLiteral(".png");
        if (!folder.isEmpty()) image.save(QDir(folder).filePath(name + suffix));
        return image;
    }
};

/// As on a desktop that wants icons on the buttons of dialogs; without a display there are none anyway.
class ButtonsWithIcons : public QProxyStyle {
public:
    int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                  QStyleHintReturn* returned) const override {
        return hint == SH_DialogButtonBox_ButtonsHaveIcons
                   ? 1
                   : QProxyStyle::styleHint(hint, option, widget, returned);
    }
};

} // namespace

TEST_P(Theme, GivesPlainWidgetsItsColours) {
    QWidget window;
    auto* column = new QVBoxLayout(&window);
    auto* line = new QLineEdit("F7 | B♭7");
    column->addWidget(line);
    column->addWidget(new QPlainTextEdit("F7 | B♭7 | F7 | Cm7 F7"));
    auto* spin = new QSpinBox;
    spin->setValue(4);
    column->addWidget(spin);
    auto* combo = new QComboBox;
    combo->addItems({"quarter", "eighth"});
    column->addWidget(combo);
    auto* box = new QCheckBox("bars only");
    box->setChecked(true);
    column->addWidget(box);
    auto* tree = new QTreeWidget;
    tree->setHeaderLabels({"does", "key"});
    tree->addTopLevelItem(new QTreeWidgetItem({"Mark a bar", "Enter"}));
    tree->addTopLevelItem(new QTreeWidgetItem({"Note in or out", "N"}));
    tree->setCurrentItem(tree->topLevelItem(1));
    column->addWidget(tree);
    auto* slider = new QSlider(Qt::Horizontal);
    slider->setValue(60);
    column->addWidget(slider);
    column->addWidget(new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel));
    window.resize(360, 480);
    const QImage image = grab(window, "plain-widgets");
    EXPECT_EQ(image.pixelColor(2, 2), color(Role::Paper));
    const QPoint inField = line->geometry().center() + QPoint(line->width() / 3, 0);
    EXPECT_EQ(image.pixelColor(inField), color(Role::Page));
}

TEST_P(Theme, AsksWithoutIconsOnTheButtons) {
    ButtonsWithIcons desktop;
    QDialogButtonBox dialog;
    dialog.setStyle(&desktop);
    dialog.setStandardButtons(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    ASSERT_EQ(dialog.buttons().size(), 2);
    for (const QAbstractButton* button : dialog.buttons())
        EXPECT_TRUE(button->icon().isNull()) << button->text().toStdString();
}

TEST_P(Theme, UnderlinesTheChoiceInUse) {
    QuietButton button("trade");
    button.setCheckable(true);
    const auto ink = [&] {
        const QImage image = grab(button, "quiet-button");
        int found = 0;
        for (int x = 0; x < image.width(); ++x)
            for (int y = image.height() / 2 + 6; y < image.height(); ++y)
                found += image.pixelColor(x, y) == color(Role::Ink) ? 1 : 0;
        return found;
    };
    const int without = ink();
    const QSize size = button.sizeHint();
    button.setChecked(true);
    EXPECT_GT(ink(), without + 30);
    EXPECT_EQ(button.sizeHint(), size) << "nothing moves when the choice does";
}

TEST_P(Theme, TellsItsAppearance) {
    EXPECT_EQ(currentAppearance(), GetParam());
}

INSTANTIATE_TEST_SUITE_P(Appearances, Theme, testing::Values(Appearance::Light, Appearance::Dark),
                         [](const auto& the) { return the.param == Appearance::Light ? "Light" : "Dark"; });
