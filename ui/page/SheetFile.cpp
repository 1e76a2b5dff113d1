#include "ui/page/SheetFile.h"

#include "core/study/AtomicFile.h"
#include "ui/page/PagePainter.h"

#include <QBuffer>
#include <QImage>
#include <QPageLayout>
#include <QPainter>
#include <QPdfWriter>
#include <QSvgGenerator>

#include <cmath>
#include <optional>

namespace earwright::ui {

namespace {

constexpr double millimetresOfInch = 25.4;
constexpr int dotsOfInch = 300;
constexpr int pdfDotsOfInch = 1200;

Result<Done> keep(const QByteArray& bytes, const std::filesystem::path& file) {
    return replaceFile(file, std::string_view(bytes.constData(), static_cast<std::size_t>(bytes.size())));
}

void paintPage(QPainter& painter, const EngravedPage& page, double dotsOfSpace, MusicFont& font,
               const PageLook& look = {}) {
    painter.save();
    painter.scale(dotsOfSpace, dotsOfSpace);
    paintShapes(painter, page.shapes, font, look);
    painter.restore();
}

/// Before page `index` of so many.
bool mayGoOn(const SheetProgress& goesOn, std::size_t index, std::size_t count) {
    return !goesOn || goesOn(static_cast<double>(index) / static_cast<double>(count));
}

/// Nothing where it was called off.
std::optional<QByteArray> pdfOf(const std::vector<EngravedPage>& pages, const std::string& title,
                                const SheetPaper& paper, MusicFont& font, const SheetProgress& goesOn) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer(&buffer);
    writer.setTitle(QString::fromStdString(title));
    writer.setCreator(QStringLiteral("Earwright"));
    writer.setResolution(pdfDotsOfInch);
    writer.setPageLayout(QPageLayout(QPageSize(QSizeF(paper.width, paper.height), QPageSize::Millimeter),
                                     QPageLayout::Portrait, QMarginsF(0, 0, 0, 0)));
    QPainter painter(&writer);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        if (!mayGoOn(goesOn, i, pages.size())) return {};
        if (i > 0) writer.newPage();
        paintPage(painter, pages[i], paper.space / millimetresOfInch * pdfDotsOfInch, font);
    }
    painter.end();
    return bytes;
}

QByteArray svgOf(const EngravedPage& page, const std::string& title, const SheetPaper& paper,
                 MusicFont& font) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setTitle(QString::fromStdString(title));
    generator.setResolution(dotsOfInch);
    const double dots = dotsOfInch / millimetresOfInch;
    const QSizeF size(paper.width * dots, paper.height * dots);
    generator.setSize(size.toSize());
    generator.setViewBox(QRectF(QPointF(0, 0), size));
    QPainter painter(&generator);
    painter.fillRect(QRectF(QPointF(0, 0), size), Qt::white);
    // An SVG file names its fonts only, and who opens it may not have them.
    PageLook look;
    look.lettersAsOutlines = true;
    paintPage(painter, page, paper.space * dots, font, look);
    painter.end();
    return bytes;
}

QByteArray pngOf(const EngravedPage& page, const SheetPaper& paper, MusicFont& font) {
    const double dots = dotsOfInch / millimetresOfInch;
    QImage image(static_cast<int>(std::lround(paper.width * dots)),
                 static_cast<int>(std::lround(paper.height * dots)), QImage::Format_RGB32);
    image.setDotsPerMeterX(static_cast<int>(std::lround(dots * 1000)));
    image.setDotsPerMeterY(static_cast<int>(std::lround(dots * 1000)));
    image.fill(Qt::white);
    QPainter painter(&image);
    paintPage(painter, page, paper.space * dots, font);
    painter.end();
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "PNG");
    return bytes;
}

std::filesystem::path numbered(const std::filesystem::path& file, std::size_t index) {
    if (index == 0) return file;
    return file.parent_path() /
           (file.stem().string() + "-page-" + std::to_string(index + 1) + file.extension().string());
}

} // namespace

Result<std::vector<std::filesystem::path>> sheetFiles(const std::filesystem::path& file, std::size_t pages) {
    const std::string kind = file.extension().string();
    if (kind == ".pdf") return std::vector{file};
    if (kind != ".svg" && kind != ".png")
        return Error{ErrorKind::Unsupported,
                     "A sheet is written as .pdf, .svg or .png; " + file.filename().string() +
                         " is none of them.",
                     ""};
    std::vector<std::filesystem::path> files;
    for (std::size_t i = 0; i < pages; ++i)
        files.push_back(numbered(file, i));
    return files;
}

Result<std::vector<std::filesystem::path>> writeSheet(const std::vector<EngravedPage>& pages,
                                                      const std::string& title, const SheetPaper& paper,
                                                      MusicFont& font, const std::filesystem::path& file,
                                                      const SheetProgress& goesOn) {
    auto files = sheetFiles(file, pages.size());
    if (!files) return files.error();
    const Error calledOff{ErrorKind::Cancelled, "Writing the sheet was called off.", ""};
    const std::string kind = file.extension().string();
    if (kind == ".pdf") {
        const auto bytes = pdfOf(pages, title, paper, font, goesOn);
        if (!bytes) return calledOff;
        const auto kept = keep(*bytes, file);
        if (!kept) return kept.error();
        return files;
    }
    for (std::size_t i = 0; i < pages.size(); ++i) {
        if (!mayGoOn(goesOn, i, pages.size())) return calledOff;
        const auto kept = keep(
            kind == ".svg" ? svgOf(pages[i], title, paper, font) : pngOf(pages[i], paper, font), (*files)[i]);
        if (!kept) return kept.error();
    }
    return files;
}

} // namespace earwright::ui
