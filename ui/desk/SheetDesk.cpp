#include "ui/desk/SheetDesk.h"

#include "core/playback/ExcerptSounds.h"
#include "ui/desk/ReplaceQuestion.h"
#include "ui/desk/SheetDialog.h"
#include "ui/desk/StudyDialog.h"
#include "ui/desk/StudyPaths.h"
#include "ui/page/ExampleSheet.h"

#include <QSettings>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace earwright::ui {

namespace {

namespace fs = std::filesystem;
using Tone = MessageBar::Tone;
using Files = std::vector<fs::path>;

const auto subject = QStringLiteral("sheet");
/// The pages' share of the work where there is sound as well.
constexpr double pagesShare = 0.1;

bool isSame(const fs::path& one, const fs::path& other) {
    std::error_code unknown;
    return fs::equivalent(one, other, unknown);
}

} // namespace

struct SheetDesk::Plan {
    std::shared_ptr<const Study> study;
    std::shared_ptr<Recording> recording;
    /// The study's own file, empty where it has none, and its takes, when the sheet was asked for.
    fs::path studyFile;
    fs::path takeFolder;
    fs::path file;
    LaidSheet sheet;
    /// Of no span where no sound is wanted.
    ExcerptWish sounds;
    /// All that will be written, and what of it is there already.
    Files files;
    Files there;

    /// Lays the sheet out and looks what it would replace. Errors: of layOutSheet() and sheetFiles();
    /// NotWritable where something would go that never may.
    Result<Done> prepare(const ExampleWish& wish) {
        auto laid = layOutSheet(*study, wish);
        if (!laid) return laid.error();
        sheet = *std::move(laid);
        auto pages = sheetFiles(file, sheet.pages.size());
        if (!pages) return pages.error();
        files = *std::move(pages);
        const Files wavs = excerptSoundFiles(sounds, file);
        files.insert(files.end(), wavs.begin(), wavs.end());
        std::error_code unknown;
        std::copy_if(files.begin(), files.end(), std::back_inserter(there),
                     [&](const fs::path& one) { return fs::exists(one, unknown); });
        for (const fs::path& one : there)
            if (const QString kept = whatMayNotGo(one); !kept.isEmpty())
                return Error{ErrorKind::NotWritable,
                             tr("The sheet's files would take the place of %1, %2. Nothing was written; give "
                                "the sheet another name.")
                                 .arg(kept, nameOf(one))
                                 .toStdString(),
                             ""};
        return Done{};
    }

    /// Which of the things that are never replaced a file that is there is; empty where it is none.
    QString whatMayNotGo(const fs::path& one) const {
        if (recording && isSame(one, recording->path())) return tr("the recording");
        if (isSame(one, studyFile)) return tr("the study");
        return isSame(one.parent_path(), takeFolder) ? tr("a take") : QString();
    }

    Result<Files> write(const std::stop_token& stop, const BackgroundJob::Report& tell) const {
        const double pages = sounds.spans.empty() ? 1 : pagesShare;
        // Sound tells of every block; a line that says per cent needs to hear of a hundredth.
        auto report = [&, told = -1L](double share) mutable {
            if (const long percent = std::lround(share * 100); std::exchange(told, percent) != percent)
                tell(share);
        };
        auto written = writeLaidSheet(sheet, file, [&](double share) {
            report(share * pages);
            return !stop.stop_requested();
        });
        if (!written || sounds.spans.empty()) return written;
        const auto wavs = writeExcerptSounds(
            *study, recording, sounds, file, [&](double share) { report(pages + share * (1 - pages)); },
            stop);
        if (!wavs) return wavs.error();
        written->insert(written->end(), wavs->begin(), wavs->end());
        return written;
    }
};

SheetDesk::SheetDesk(DeskSession& desk, const TuningDesk& tuningDesk, MessageBar& bar, QSettings& store,
                     QWidget& over)
    : QObject(&over), session(desk), tuning(tuningDesk), messages(bar), settings(store), window(over) {
    connect(&session, &DeskSession::opened, this, [this] { last.reset(); });
    connect(&job, &BackgroundJob::progressed, this, &SheetDesk::showProgress);
}

fs::path SheetDesk::suggestedSheet() const {
    const fs::path folder = pathOf(startFolder(session));
    const QString name = tr("%1 examples").arg(textOf(pathOf(suggestedFile(session)).stem()));
    return folder / pathOf(name + QLatin1Char('.') + rememberedKind(settings));
}

SheetChoices SheetDesk::startChoices() const {
    SheetChoices start = last ? *last : rememberedChoices(settings);
    if (start.file.empty()) start.file = suggestedSheet();
    return start;
}

void SheetDesk::ask() {
    if (!session.isOpen() || tellBusy()) return;
    if (session.study().notes.empty())
        return messages.say(subject, Tone::Notice, tr("Nothing is written yet to make a sheet of."));
    auto* dialog = new SheetDialog(
        session.shared(), startChoices(), session.hasMarkedSound(),
        [this](const SheetChoices& made) { write(made); }, &window);
    openForThisStudy(*dialog, session);
}

bool SheetDesk::tellBusy() {
    if (!job.isRunning()) return false;
    // Beside the row that tells how far it is.
    messages.say(subject + QStringLiteral(" busy"), Tone::Notice,
                 tr("An example sheet is still being written; wait for it, or cancel it first."));
    return true;
}

void SheetDesk::write(SheetChoices choices) {
    if (!session.isOpen() || tellBusy()) return;
    if (choices.file.is_relative()) choices.file = pathOf(startFolder(session)) / choices.file;
    last = choices;
    rememberChoices(choices, settings);
    auto plan = std::make_shared<Plan>();
    plan->study = session.shared();
    plan->recording = session.recording();
    plan->studyFile = session.studyFile();
    plan->takeFolder = session.takeFolder();
    plan->file = choices.file;
    if (choices.sound && session.hasMarkedSound()) {
        plan->sounds.spans = excerptSpans(*plan->study, examplesOf(*plan->study, choices.wish));
        plan->sounds.speed = choices.speed;
        plan->sounds.tuningCents = tuning.record().value_or(0);
    }
    job.start<Result<Planned>>(
        [plan, wish = choices.wish](const std::stop_token&, const BackgroundJob::Report&) -> Result<Planned> {
            const auto prepared = plan->prepare(wish);
            return prepared ? Result<Planned>(plan) : Result<Planned>(prepared.error());
        },
        [this](Result<Planned> outcome) {
            if (!outcome) return fail(outcome.error());
            (*outcome)->there.empty() ? carryOut(*outcome) : askToReplace(*outcome);
        });
}

void SheetDesk::askToReplace(const Planned& plan) {
    openForThisStudy(*new ReplaceQuestion(
                         plan->there, [this, plan] { carryOut(plan); }, &window),
                     session);
}

void SheetDesk::carryOut(const Planned& plan) {
    job.start<Result<Files>>(
        [plan](const std::stop_token& stop, const BackgroundJob::Report& report) {
            return plan->write(stop, report);
        },
        [this](Result<Files> outcome) { outcome ? tell(*outcome) : fail(outcome.error()); });
}

void SheetDesk::showProgress(double share) {
    messages.say(subject, Tone::Question,
                 tr("The example sheet is being written … %1 %").arg(std::lround(share * 100)),
                 {{tr("Cancel"), [this] {
                       job.cancel();
                       messages.say(subject, Tone::Notice,
                                    tr("Writing the example sheet was called off. Files that were finished "
                                       "are there."));
                   }}});
}

void SheetDesk::tell(const Files& written) {
    messages.say(subject, Tone::Notice,
                 tr("Written in %1: %2.").arg(textOf(written.front().parent_path()), namesOf(written)));
}

void SheetDesk::fail(const Error& error) {
    messages.say(subject, Tone::Trouble, QString::fromStdString(describe(error)));
}

} // namespace earwright::ui
