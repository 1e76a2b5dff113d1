// The music font: its measures for the layout, its outlines for the painter, and the faces of words beside
// it.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"
#include "core/result/Result.h"

#include <QFont>
#include <QPainterPath>
#include <QRawFont>
#include <QString>

#include <filesystem>
#include <map>
#include <memory>
#include <utility>

namespace earwright::ui {

/// Bravura (SIL Open Font License 1.1), as the build fetched it or as it is installed beside the program.
/// Glyphs are painted as outlines, which are crisp at any size and need no font where the page is read.
///
/// Threads: one at a time, the one that loaded it, after QGuiApplication was made.
class MusicFont {
public:
    /// Error: NotFound, with what is missing, in a build without the font; what FontMetrics::read says.
    static Result<std::shared_ptr<MusicFont>> load();
    static Result<std::shared_ptr<MusicFont>> load(const std::filesystem::path& folder);

    /// The licence that comes with the font, as it is written; empty in a build without it. Its first
    /// paragraph says whose the font is. Threads: any, after QCoreApplication was made.
    static QString licence();

    const FontMetrics& metrics() const { return measures; }
    /// About the glyph's origin, in staff spaces, y downward; empty where the font has no such glyph.
    const QPainterPath& outline(Smufl glyph);
    /// Faces are made this large and painted smaller, whatever the page is painted on: a device would round a
    /// font of two pixels.
    static constexpr double pixelsOfSpace = 100;
    /// Of words on the page, `size` in staff spaces; kept, because looking a family up takes longer than
    /// painting in it.
    const QFont& face(TextRole role, double size);

private:
    MusicFont(FontMetrics read, const QRawFont& opened) : measures(std::move(read)), font(opened) {}

    FontMetrics measures;
    QRawFont font;
    std::map<Smufl, QPainterPath> outlines;
    std::map<std::pair<TextRole, double>, QFont> faces;
};

} // namespace earwright::ui
