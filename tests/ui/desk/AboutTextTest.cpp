#include "ui/desk/AboutText.h"

#include "ui/page/MusicFont.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(AboutText, NamesTheProgramsOwnLicence) {
    EXPECT_TRUE(aboutText({}).contains(QStringLiteral("GNU General Public License, version 3 or later")));
    EXPECT_FALSE(aboutText({}).contains(QStringLiteral("Bravura"))) << "a build without the font";
}

TEST(AboutText, SaysWhoseTheMusicFontIs) {
    const QString text = aboutText(QStringLiteral("Copyright 2001, <Somebody>,\nall of it.\n\nThe licence"));
    EXPECT_TRUE(text.contains(QStringLiteral("Copyright 2001, &lt;Somebody&gt;, all of it.")));
    EXPECT_FALSE(text.contains(QStringLiteral("The licence")));
}

// The SIL Open Font License 1.1, condition 2, asks for copyright notice and licence with every copy, "as
// stand-alone text files, human-readable headers or in the appropriate machine-readable metadata fields".
TEST(AboutText, HasTheWholeLicenceThatCameWithTheFont) {
    const QString licence = MusicFont::licence();
    if (licence.isEmpty()) GTEST_SKIP() << "this build is without the music font";
    EXPECT_TRUE(licence.contains(QStringLiteral("SIL OPEN FONT LICENSE Version 1.1")));
    EXPECT_TRUE(licence.contains(QStringLiteral("PERMISSION AND CONDITIONS")));
    EXPECT_TRUE(aboutText(licence).contains(QStringLiteral("Reserved Font Name")));
}

} // namespace
} // namespace earwright::ui
