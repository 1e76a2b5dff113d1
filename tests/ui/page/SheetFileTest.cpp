#include "ui/page/SheetFile.h"

#include "core/engraving/Engraving.h"
#include "tests/ui/page/WrittenStudy.h"
#include "ui/page/ExampleSheet.h"

#include <QFile>
#include <QImage>
#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QXmlStreamReader>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

namespace fs = std::filesystem;

class SheetFile : public testing::Test {
protected:
    void SetUp() override {
        auto loaded = MusicFont::load();
        if (!loaded) GTEST_SKIP() << loaded.error().message;
        font = *std::move(loaded);
        ASSERT_TRUE(folder.isValid());
    }
    fs::path path(const char* name) const { return fs::path(folder.path().toStdString()) / name; }
    Result<std::vector<fs::path>> write(const char* name, double pageHeight = 297) {
        ExampleWish wish;
        wish.paper.height = pageHeight;
        const Study study = writtenStudy();
        const auto pages = engravePages(study, sheetOptions(study, wish), font->metrics());
        return writeSheet(*pages, study.title, wish.paper, *font, path(name));
    }
    QByteArray bytesOf(const char* name) const {
        QFile file(QString::fromStdString(path(name).string()));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
    /// What a program prints of a file; nothing where it is not installed.
    QByteArray told(const QString& program, const QStringList& words) const {
        QProcess process;
        process.start(program, words);
        process.waitForFinished();
        return process.readAllStandardOutput();
    }

    QTemporaryDir folder;
    std::shared_ptr<MusicFont> font;
};

TEST_F(SheetFile, IsAPdfWithItsWordsAndEmbeddedFonts) {
    ASSERT_TRUE(write("sheet.pdf"));
    EXPECT_TRUE(bytesOf("sheet.pdf").startsWith("%PDF-"));
    if (QStandardPaths::findExecutable(QStringLiteral("pdffonts")).isEmpty())
        GTEST_SKIP() << "poppler-utils is not installed: the fonts in the PDF are not looked at";
    const QString file = QString::fromStdString(path("sheet.pdf").string());
    const QByteArray words = told(QStringLiteral("pdftotext"), {file, QStringLiteral("-")});
    for (const char* word : {"Paper Lantern", "turn", "= 120", "G7", "C7"})
        EXPECT_TRUE(words.contains(word)) << word << " in " << words.toStdString();
    // Poppler's table: a heading, a rule, then a row a font with "yes" under "emb".
    const auto rows = told(QStringLiteral("pdffonts"), {file}).split('\n');
    ASSERT_GT(rows.size(), 3);
    const auto column = rows[0].indexOf("emb");
    for (qsizetype row = 2; row < rows.size() && !rows[row].isEmpty(); ++row)
        EXPECT_EQ(rows[row].mid(column, 3), "yes") << rows[row].toStdString();
}

TEST_F(SheetFile, IsADrawingThatAnXmlReaderTakes) {
    ASSERT_TRUE(write("sheet.svg"));
    QXmlStreamReader reader(bytesOf("sheet.svg"));
    int paths = 0;
    int texts = 0;
    while (!reader.atEnd()) {
        reader.readNext();
        paths += reader.isStartElement() && reader.name() == QLatin1String("path");
        texts += reader.isStartElement() && reader.name() == QLatin1String("text");
    }
    EXPECT_FALSE(reader.hasError()) << reader.errorString().toStdString();
    EXPECT_GE(paths, 8) << "a head for each note";
    EXPECT_EQ(texts, 0) << "the file names fonts that others may not have";
}

TEST_F(SheetFile, IsAPictureOfThePapersSize) {
    ASSERT_TRUE(write("sheet.png"));
    const QImage picture = QImage::fromData(bytesOf("sheet.png"));
    // A4 (ISO 216) at 300 dots to the inch.
    EXPECT_EQ(picture.size(), QSize(2480, 3508));
    int inked = 0;
    for (int y = 0; y < picture.height(); y += 7)
        for (int x = 0; x < picture.width(); x += 7)
            inked += qGray(picture.pixel(x, y)) < 128;
    EXPECT_GT(inked, 300);
    EXPECT_LT(inked, picture.width() * picture.height() / 49 / 10);
}

TEST_F(SheetFile, GivesFurtherPagesNamesThatNoExampleHas) {
    const auto files = sheetFiles(path("solo.png"), 3);
    ASSERT_TRUE(files);
    EXPECT_EQ(*files, (std::vector{path("solo.png"), path("solo-page-2.png"), path("solo-page-3.png")}));
    EXPECT_EQ(*sheetFiles(path("solo.pdf"), 3), std::vector{path("solo.pdf")});
}

TEST_F(SheetFile, RefusesOtherKindsAndFoldersThatAreNotThere) {
    EXPECT_EQ(write("sheet.doc").error().kind, ErrorKind::Unsupported);
    EXPECT_EQ(write("nowhere/sheet.pdf").error().kind, ErrorKind::NotWritable);
    EXPECT_FALSE(fs::exists(path("nowhere")));
}

} // namespace
} // namespace earwright::ui
