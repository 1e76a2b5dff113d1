#include "ui/desk/ExportChoices.h"

#include "core/exchange/WriteForeign.h"
#include "ui/desk/StudyPaths.h"
#include "ui/page/ReadingChoices.h"

#include <QSettings>

namespace earwright::ui {

namespace {

QString key(const char* name) {
    return QStringLiteral("export/") + QLatin1String(name);
}

} // namespace

ExportChoices rememberedExport(const QSettings& settings) {
    ExportChoices choices;
    MusicXmlOptions& page = choices.page;
    page.reading =
        chosenBy(readingChoices(), settings.value(key("reading")).toString()).value_or(page.reading);
    page.places = settings.value(key("places"), page.places).toBool();
    page.tablature = page.places && settings.value(key("tablature"), page.tablature).toBool();
    page.degrees = settings.value(key("degrees"), page.degrees).toBool();
    choices.midi.swings = settings.value(key("swings"), choices.midi.swings).toBool();
    choices.asPlayed = settings.value(key("asPlayed"), choices.asPlayed).toBool();
    const double tempo = settings.value(key("tempo"), 0).toDouble();
    if (tempo >= slowestExport && tempo <= fastestExport) choices.midi.tempo = tempo;
    return choices;
}

QString rememberedExportKind(const QSettings& settings) {
    const QString kind = settings.value(key("kind")).toString();
    return foreignWriter(pathOf(QStringLiteral("a.") + kind)).ok() ? kind : QStringLiteral("musicxml");
}

void rememberExport(const ExportChoices& choices, QSettings& settings) {
    const MusicXmlOptions& page = choices.page;
    settings.setValue(key("reading"), wordFor(readingChoices(), page.reading));
    settings.setValue(key("places"), page.places);
    settings.setValue(key("tablature"), page.tablature);
    settings.setValue(key("degrees"), page.degrees);
    settings.setValue(key("swings"), choices.midi.swings);
    settings.setValue(key("asPlayed"), choices.asPlayed);
    settings.setValue(key("tempo"), choices.midi.tempo.value_or(0));
    settings.setValue(key("kind"), textOf(choices.file.extension()).mid(1));
}

} // namespace earwright::ui
