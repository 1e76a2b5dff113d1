// The desk: `earwright [FILE]`, where FILE is a recording or a study; or `earwright --sheet STUDY OUT`.
#include "app/desk/SheetCommand.h"
#include "core/midi/MidiPorts.h"
#include "ui/desk/DeskWindow.h"
#include "ui/desk/SoundDesk.h"
#include "ui/desk/StudyPaths.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QCommandLineParser>
#include <QIcon>
#include <QScreen>
#include <QSettings>
#include <QStandardPaths>

#include <algorithm>
#include <clocale>
#include <cstdio>
#include <string>

namespace {

using namespace earwright;
using namespace earwright::ui;

/// As chosen before, or else as the system's own colours are.
Appearance startingAppearance(const QSettings& settings) {
    constexpr int middle = 128;
    const QString chosen = settings.value(QStringLiteral("desk/appearance")).toString();
    if (chosen == QLatin1String("dark")) return Appearance::Dark;
    if (chosen == QLatin1String("light")) return Appearance::Light;
    return QApplication::palette().color(QPalette::Window).lightness() < middle ? Appearance::Dark
                                                                                : Appearance::Light;
}

void nameProgram() {
    QCoreApplication::setApplicationName(QStringLiteral("earwright"));
    QCoreApplication::setApplicationVersion(QStringLiteral(EARWRIGHT_VERSION));
    QGuiApplication::setApplicationDisplayName(QStringLiteral("Earwright"));
    QGuiApplication::setDesktopFileName(QStringLiteral("earwright"));
}

/// Asked only for words, the program answers without a display, too.
bool asksOnlyForWords(int argc, char** argv) {
    return std::any_of(argv + 1, argv + argc, [](const std::string& word) {
        return word == "--version" || word == "-v" || word == "--help" || word == "-h" ||
               word == "--help-all";
    });
}

/// The file to open, if one is given; says how the program is used where that is asked for or needed.
QString fileFrom(const QCoreApplication& application) {
    QCommandLineParser parser;
    parser.setApplicationDescription(QCoreApplication::translate(
        "main", "Opens the desk, with a recording to begin a study of, or with a study kept before."));
    parser.addHelpOption();
    parser.addVersionOption();
    // Taken before, where it is the first word.
    parser.addOption(
        {QStringLiteral("sheet"),
         QCoreApplication::translate(
             "main", "Writes the phrases of STUDY as a page with staff and tablature, without a display: "
                     "--sheet STUDY OUT.pdf, or .svg or .png."),
         QStringLiteral("STUDY OUT")});
    parser.addPositionalArgument(QStringLiteral("file"),
                                 QCoreApplication::translate("main", "A recording or a *.study file."),
                                 QStringLiteral("[FILE]"));
    parser.process(application);
    if (parser.positionalArguments().size() > 1) {
        std::fputs("earwright: takes one file at most\n", stderr);
        std::exit(2);
    }
    return parser.positionalArguments().value(0);
}

} // namespace

int main(int argc, char** argv) {
    nameProgram();
    if (asksForASheet(argc, argv)) return runSheet(argc, argv);
    if (asksOnlyForWords(argc, argv)) fileFrom(QCoreApplication(argc, argv));
    QApplication application(argc, argv);
    // Qt takes the user's decimal comma, which no file has.
    std::setlocale(LC_NUMERIC, "C");
    application.setWindowIcon(QIcon(QStringLiteral(":/icons/earwright.svg")));
    const QString file = fileFrom(application);
    QSettings settings(QSettings::IniFormat, QSettings::UserScope, QStringLiteral("earwright"),
                       QStringLiteral("earwright"));
    applyTheme(application, startingAppearance(settings));

    DeskSession::Options options;
    options.engine.device = SoundDesk::remembered(settings);
    options.unsavedWork = pathOf(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) +
                                 QStringLiteral("/unsaved"));
    options.cache = pathOf(QStandardPaths::writableLocation(QStandardPaths::GenericCacheLocation) +
                           QStringLiteral("/earwright"));
    DeskWindow window(options, settings, systemMidiPorts());
    window.showWithin(window.screen()->availableSize());
    window.session().findLostWork();
    if (!file.isEmpty()) window.open(pathOf(file));
    return QApplication::exec();
}
