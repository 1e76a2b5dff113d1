#include "ui/page/MusicFont.h"

#include <QCoreApplication>
#include <QFile>
#include <QString>
#include <QTransform>

namespace earwright::ui {

namespace {

/// An em is four staff spaces (SMuFL 1.4). Large, so that nothing of an outline is rounded to pixels.
constexpr double pixelsOfEm = 1024;
constexpr double spacesOfEm = 4;

std::filesystem::path installedFolder() {
    return std::filesystem::path(QCoreApplication::applicationDirPath().toStdString()) / ".." / "share" /
           "earwright" / "music-font";
}

std::filesystem::path builtFolder() {
#ifdef EARWRIGHT_MUSIC_FONT
    return EARWRIGHT_MUSIC_FONT;
#else
    return {};
#endif
}

/// As it is installed, else as it was built; empty where the font is in neither.
std::filesystem::path fontFolder() {
    std::error_code unknown;
    for (const auto& folder : {installedFolder(), builtFolder()})
        if (!folder.empty() && std::filesystem::exists(folder / "metadata.json", unknown)) return folder;
    return {};
}

QFont faceOf(TextRole role, double size) {
    QFont face;
    // What the layout measures with.
    face.setFamilies({QStringLiteral("Liberation Sans"), QStringLiteral("Nimbus Sans"),
                      QStringLiteral("Inter"), QStringLiteral("DejaVu Sans")});
    face.setHintingPreference(QFont::PreferNoHinting);
    // Tempo upright and bold, other words sloping (common practice).
    face.setBold(role == TextRole::Title || role == TextRole::PhraseName || role == TextRole::Tempo);
    face.setItalic(role == TextRole::Words);
    face.setPixelSize(static_cast<int>(size * MusicFont::pixelsOfSpace));
    return face;
}

} // namespace

Result<std::shared_ptr<MusicFont>> MusicFont::load() {
    if (const auto folder = fontFolder(); !folder.empty()) return load(folder);
    return Error{
        ErrorKind::NotFound,
        "Staff and tablature need the music font Bravura, which this build is without: build it where npm "
        "can fetch the package @vexflow-fonts/bravura.",
        ""};
}

Result<std::shared_ptr<MusicFont>> MusicFont::load(const std::filesystem::path& folder) {
    auto metrics = FontMetrics::read(folder / "metadata.json");
    if (!metrics) return metrics.error();
    const QRawFont opened(QString::fromStdString((folder / "bravura.otf").string()), pixelsOfEm,
                          QFont::PreferNoHinting);
    if (!opened.isValid())
        return Error{ErrorKind::Unreadable, "The music font bravura.otf could not be opened.", ""};
    return std::shared_ptr<MusicFont>(new MusicFont(*std::move(metrics), opened));
}

QString MusicFont::licence() {
    const std::filesystem::path folder = fontFolder();
    if (folder.empty()) return {};
    QFile file(QString::fromStdString((folder / "LICENSE.txt").string()));
    if (!file.open(QIODevice::ReadOnly | QIODevice::Text)) return {};
    return QString::fromUtf8(file.readAll());
}

const QPainterPath& MusicFont::outline(Smufl glyph) {
    const auto found = outlines.find(glyph);
    if (found != outlines.end()) return found->second;
    const auto indexes = font.glyphIndexesForString(QString(QChar(static_cast<char16_t>(glyph))));
    QPainterPath path;
    if (!indexes.isEmpty() && indexes.first() != 0) path = font.pathForGlyph(indexes.first());
    constexpr double scale = spacesOfEm / pixelsOfEm;
    return outlines.emplace(glyph, QTransform::fromScale(scale, scale).map(path)).first->second;
}

const QFont& MusicFont::face(TextRole role, double size) {
    const auto [found, isNew] = faces.try_emplace({role, size});
    if (isNew) found->second = faceOf(role, size);
    return found->second;
}

} // namespace earwright::ui
