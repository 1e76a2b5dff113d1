#include "ui/desk/SheetChoices.h"

#include "ui/desk/StudyPaths.h"
#include "ui/page/ReadingChoices.h"

#include <QSettings>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

QString key(const char* name) {
    return QStringLiteral("sheet/") + QLatin1String(name);
}

struct Shown {
    const char* name;
    bool ExampleWish::*member;
};
constexpr Shown shown[]{{"chords", &ExampleWish::chordSymbols}, {"staff", &ExampleWish::staff},
                        {"tablature", &ExampleWish::tablature}, {"degrees", &ExampleWish::degrees},
                        {"tempo", &ExampleWish::tempo},         {"slashes", &ExampleWish::slashes}};

int within(int least, int value, int most, int otherwise) {
    return value >= least && value <= most ? value : otherwise;
}

} // namespace

SheetChoices rememberedChoices(const QSettings& settings) {
    SheetChoices choices;
    ExampleWish& wish = choices.wish;
    for (const auto& [name, member] : shown)
        wish.*member = settings.value(key(name), wish.*member).toBool();
    wish.reading =
        chosenBy(readingChoices(), settings.value(key("reading")).toString()).value_or(wish.reading);
    wish.clef = chosenBy(clefChoices(), settings.value(key("clef")).toString()).value_or(wish.clef);
    wish.barsPerLine =
        within(1, settings.value(key("bars"), wish.barsPerLine).toInt(), mostBarsOfLine, wish.barsPerLine);
    if (settings.value(key("paper")).toString() == QLatin1String("letter")) wish.paper = letterPaper;
    choices.sound = settings.value(key("sound"), choices.sound).toBool();
    choices.speed =
        within(slowestPercent, settings.value(key("speed"), 50).toInt(), fastestPercent, 50) / 100.0;
    return choices;
}

QString rememberedKind(const QSettings& settings) {
    const QString kind = settings.value(key("kind")).toString();
    return sheetFiles(pathOf(QStringLiteral("a.") + kind), 1).ok() ? kind : QStringLiteral("pdf");
}

void rememberChoices(const SheetChoices& choices, QSettings& settings) {
    const ExampleWish& wish = choices.wish;
    for (const auto& [name, member] : shown)
        settings.setValue(key(name), wish.*member);
    settings.setValue(key("reading"), wordFor(readingChoices(), wish.reading));
    settings.setValue(key("clef"), wordFor(clefChoices(), wish.clef));
    settings.setValue(key("bars"), wish.barsPerLine);
    settings.setValue(key("paper"), wish.paper.width == letterPaper.width ? QStringLiteral("letter")
                                                                          : QStringLiteral("a4"));
    settings.setValue(key("sound"), choices.sound);
    settings.setValue(key("speed"), static_cast<int>(std::lround(choices.speed * 100)));
    settings.setValue(key("kind"), textOf(choices.file.extension()).mid(1));
}

} // namespace earwright::ui
