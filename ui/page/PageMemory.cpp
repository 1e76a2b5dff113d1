#include "ui/page/PageMemory.h"

#include "ui/page/ReadingChoices.h"

#include <QSettings>

namespace earwright::ui {

namespace {

constexpr double leastZoom = 0.6;
constexpr double mostZoom = 2.5;

QString key(const char* name) {
    return QStringLiteral("page/") + QLatin1String(name);
}

} // namespace

PageWish rememberedWish(const QSettings& settings) {
    PageWish wish;
    wish.reading =
        chosenBy(readingChoices(), settings.value(key("reading")).toString()).value_or(wish.reading);
    wish.clef = chosenBy(clefChoices(), settings.value(key("clef")).toString()).value_or(wish.clef);
    wish.tablature = settings.value(key("tablature"), wish.tablature).toBool();
    wish.degrees = settings.value(key("degrees"), wish.degrees).toBool();
    wish.chordSymbols = settings.value(key("chords"), wish.chordSymbols).toBool();
    wish.barsPerLine =
        chosenBy(barsPerLineChoices(), settings.value(key("bars")).toString()).value_or(wish.barsPerLine);
    const double zoom = settings.value(key("zoom"), wish.zoom).toDouble();
    if (zoom >= leastZoom && zoom <= mostZoom) wish.zoom = zoom;
    return wish;
}

void rememberWish(const PageWish& wish, QSettings& settings) {
    settings.setValue(key("reading"), wordFor(readingChoices(), wish.reading));
    settings.setValue(key("clef"), wordFor(clefChoices(), wish.clef));
    settings.setValue(key("tablature"), wish.tablature);
    settings.setValue(key("degrees"), wish.degrees);
    settings.setValue(key("chords"), wish.chordSymbols);
    settings.setValue(key("bars"), wordFor(barsPerLineChoices(), wish.barsPerLine));
    settings.setValue(key("zoom"), wish.zoom);
}

} // namespace earwright::ui
