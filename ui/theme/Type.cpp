#include "ui/theme/Type.h"

#include <QFontDatabase>

#include <algorithm>

namespace earwright::ui {

namespace {

QString firstInstalled(const QStringList& families, QFontDatabase::SystemFont otherwise) {
    const QStringList installed = QFontDatabase::families();
    const auto found = std::find_if(families.begin(), families.end(),
                                    [&](const QString& family) { return installed.contains(family); });
    return found == families.end() ? QFontDatabase::systemFont(otherwise).family() : *found;
}

QFont words(int pixels, QFont::Weight weight) {
    static const QString family = firstInstalled(wordFamilies(), QFontDatabase::GeneralFont);
    QFont result(family);
    result.setPixelSize(pixels);
    result.setWeight(weight);
    result.setStyleHint(QFont::SansSerif);
    return result;
}

QFont chords(int pixels) {
    static const QString family = firstInstalled(chordFamilies(), QFontDatabase::GeneralFont);
    QFont result(family);
    result.setPixelSize(pixels);
    result.setWeight(QFont::Bold);
    result.setStyleHint(QFont::Serif);
    return result;
}

} // namespace

QFont font(TextStyle style) {
    switch (style) {
    case TextStyle::Place:
        return words(21, QFont::DemiBold);
    case TextStyle::Title:
        return words(16, QFont::DemiBold);
    case TextStyle::Body:
        return words(13, QFont::Normal);
    case TextStyle::Strong:
        return words(13, QFont::DemiBold);
    case TextStyle::Small:
        return words(12, QFont::Normal);
    case TextStyle::Label:
        return words(11, QFont::Normal);
    case TextStyle::Chord:
        return chords(17);
    case TextStyle::ChordSmall:
        return chords(15);
    }
    return words(13, QFont::Normal);
}

QStringList wordFamilies() {
    return {QStringLiteral("Inter"),     QStringLiteral("Source Sans 3"), QStringLiteral("Noto Sans"),
            QStringLiteral("Open Sans"), QStringLiteral("Cantarell"),     QStringLiteral("DejaVu Sans")};
}

QStringList chordFamilies() {
    // Both carry the flat and sharp signs in bold, so that no other font steps in for them.
    return {QStringLiteral("DejaVu Serif"), QStringLiteral("Libertinus Serif")};
}

} // namespace earwright::ui
