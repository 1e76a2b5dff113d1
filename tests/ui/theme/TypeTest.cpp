#include "ui/theme/Type.h"

#include <QFontDatabase>
#include <QFontInfo>
#include <QRawFont>

#include <gtest/gtest.h>

using namespace earwright::ui;

TEST(Type, TakesTheFirstFamilyThatIsInstalledOrTheSystemsOwn) {
    const QStringList installed = QFontDatabase::families();
    QString first = QFontDatabase::systemFont(QFontDatabase::GeneralFont).family();
    for (const QString& family : wordFamilies())
        if (installed.contains(family)) {
            first = family;
            break;
        }
    EXPECT_EQ(font(TextStyle::Body).family().toStdString(), first.toStdString());
}

TEST(Type, GrowsFromLabelToPlace) {
    const TextStyle rising[] = {TextStyle::Label, TextStyle::Small, TextStyle::Body, TextStyle::Title,
                                TextStyle::Place};
    for (std::size_t i = 1; i < std::size(rising); ++i)
        EXPECT_LT(font(rising[i - 1]).pixelSize(), font(rising[i]).pixelSize());
}

TEST(Type, ChordsAreBoldAndHaveTheSignsOfPrint) {
    const QFont chord = font(TextStyle::Chord);
    EXPECT_GE(chord.weight(), QFont::Bold);
    if (!QFontInfo(chord).exactMatch()) GTEST_SKIP() << "none of the chord families is installed";
    for (const QChar sign : {QChar(u'♭'), QChar(u'♯'), QChar(u'°'), QChar(u'ø')})
        EXPECT_TRUE(QRawFont::fromFont(chord).supportsCharacter(sign)) << static_cast<int>(sign.unicode());
}
