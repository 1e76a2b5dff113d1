#include "app/desk/SheetCommand.h"

#include "core/check/AsWritten.h"
#include "core/listening/RecordingEvidence.h"
#include "core/playback/ExcerptSounds.h"
#include "core/study/StudyFile.h"
#include "ui/desk/Opening.h"
#include "ui/page/ExampleSheet.h"
#include "ui/page/ReadingChoices.h"

#include <QCommandLineParser>
#include <QGuiApplication>

#include <clocale>
#include <cstdio>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace earwright {

namespace {

using namespace ui;

constexpr int exitInput = 1;
constexpr int exitUsage = 2;

int complain(const std::string& sentence, int exitCode) {
    std::fprintf(stderr, "earwright: %s\n", sentence.c_str());
    return exitCode;
}

/// Error: the command line's fault.
Result<ExampleWish> wishOf(const QCommandLineParser& parser) {
    ExampleWish wish;
    if (parser.isSet(QStringLiteral("letter"))) wish.paper = letterPaper;
    wish.degrees = parser.isSet(QStringLiteral("degrees"));
    wish.tablature = !parser.isSet(QStringLiteral("no-tab"));
    wish.staff = !parser.isSet(QStringLiteral("no-staff"));
    if (!wish.staff && !wish.tablature)
        return Error{ErrorKind::OutOfRange,
                     "A page shows the staff, the tablature or both: leave out --no-staff or --no-tab.", ""};
    bool isNumber = true;
    wish.barsPerLine = parser.value(QStringLiteral("bars")).toInt(&isNumber);
    if (!isNumber || wish.barsPerLine < 1 || wish.barsPerLine > 16)
        return Error{ErrorKind::OutOfRange, "The option --bars takes a whole number from 1 to 16.", ""};
    const auto reading = chosenBy(readingChoices(), parser.value(QStringLiteral("reading")));
    if (!reading)
        return Error{ErrorKind::OutOfRange,
                     "The option --reading takes concert, b-flat, e-flat, tenor, baritone or guitar.", ""};
    wish.reading = *reading;
    if (parser.isSet(QStringLiteral("clef"))) {
        const auto clef = chosenBy(clefChoices(), parser.value(QStringLiteral("clef")));
        if (!clef || !*clef)
            return Error{ErrorKind::OutOfRange, "The option --clef takes treble, treble-8 or bass.", ""};
        wish.clef = *clef;
    }
    wish.slashes = parser.isSet(QStringLiteral("slashes"));
    wish.tempo = !parser.isSet(QStringLiteral("no-tempo"));
    return wish;
}

/// Played ÷ original. Error: the command line's fault.
Result<double> speedOf(const QCommandLineParser& parser) {
    bool isNumber = true;
    const double percent = parser.value(QStringLiteral("speed")).toDouble(&isNumber);
    if (isNumber && percent >= 10 && percent <= 200) return percent / 100;
    return Error{ErrorKind::OutOfRange, "The option --speed takes a number from 10 to 200, in percent.", ""};
}

using Files = std::vector<std::filesystem::path>;

void print(const Files& files) {
    for (const std::filesystem::path& file : files)
        std::printf("%s\n", file.c_str());
}

Result<Files> writeSounds(const std::filesystem::path& studyFile, const ExampleWish& examples,
                          const std::filesystem::path& sheet, double speed) {
    const auto opened = openFile(studyFile, {});
    if (!opened) return opened.error();
    if (!opened->recording)
        return opened->trouble.value_or(Error{ErrorKind::NotFound, "The recording is missing.", ""});
    if (!opened->study.beatMap.hasTempo())
        return Error{ErrorKind::OutOfRange,
                     studyFile.string() +
                         " has no beat marks, so nothing says when its notes sound; mark bars first.",
                     ""};
    // As at the desk, the notes are to be in tune with the record.
    const auto listened = RecordingEvidence::listen(opened->recording);
    if (!listened) return listened.error();
    const auto tuned = asWritten(opened->study, *listened);
    if (!tuned) return tuned.error();
    ExcerptWish wish;
    wish.tuningCents = tuned->tuningCurve().cents();
    wish.spans = excerptSpans(opened->study, examplesOf(opened->study, examples));
    wish.speed = speed;
    return writeExcerptSounds(opened->study, opened->recording, wish, sheet);
}

} // namespace

bool asksForASheet(int argc, char** argv) {
    return argc > 1 && std::string_view(argv[1]) == "--sheet";
}

int runSheet(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication application(argc, argv);
    // Qt takes the user's decimal comma; the page is the same everywhere.
    std::setlocale(LC_NUMERIC, "C");
    QCommandLineParser parser;
    parser.addOptions({{QStringLiteral("sheet"), {}},
                       {QStringLiteral("letter"), {}},
                       {QStringLiteral("degrees"), {}},
                       {QStringLiteral("no-tab"), {}},
                       {QStringLiteral("no-staff"), {}},
                       {QStringLiteral("slashes"), {}},
                       {QStringLiteral("no-tempo"), {}},
                       {QStringLiteral("clef"), {}, QStringLiteral("WORD")},
                       {QStringLiteral("bars"), {}, QStringLiteral("N"), QStringLiteral("4")},
                       {QStringLiteral("reading"), {}, QStringLiteral("WORD"), QStringLiteral("concert")},
                       {QStringLiteral("sound"), {}},
                       {QStringLiteral("speed"), {}, QStringLiteral("PERCENT"), QStringLiteral("50")}});
    if (!parser.parse(QCoreApplication::arguments()))
        return complain(parser.errorText().toStdString(), exitUsage);
    const QStringList files = parser.positionalArguments();
    if (files.size() != 2)
        return complain("--sheet takes a study and the file to write: --sheet STUDY OUT.pdf", exitUsage);
    const auto wish = wishOf(parser);
    if (!wish) return complain(describe(wish.error()), exitUsage);
    const auto speed = speedOf(parser);
    if (!speed) return complain(describe(speed.error()), exitUsage);
    const auto study = StudyFile::read(files[0].toStdString());
    if (!study) return complain(describe(study.error()), exitInput);
    const auto written = writeExampleSheet(*study, *wish, files[1].toStdString());
    if (!written) return complain(describe(written.error()), exitInput);
    print(*written);
    if (!parser.isSet(QStringLiteral("sound"))) return 0;
    const auto sounds = writeSounds(files[0].toStdString(), *wish, files[1].toStdString(), *speed);
    if (!sounds) return complain(describe(sounds.error()), exitInput);
    print(*sounds);
    return 0;
}

} // namespace earwright
