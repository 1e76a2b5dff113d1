#include "ui/desk/ExportDesk.h"

#include "core/check/StudyPlaying.h"
#include "core/exchange/WriteForeign.h"
#include "ui/desk/ExportDialog.h"
#include "ui/desk/ReplaceQuestion.h"
#include "ui/desk/StudyDialog.h"
#include "ui/desk/StudyPaths.h"

#include <utility>

namespace earwright::ui {

namespace {

namespace fs = std::filesystem;
using Tone = MessageBar::Tone;

const auto subject = QStringLiteral("export");

QString listeningShare() {
    return ExportDesk::tr("Listening to how the notes are played, %1 %");
}

QString beingWritten(const fs::path& file) {
    return ExportDesk::tr("%1 is being written …").arg(nameOf(file));
}

/// `heard`: how many notes stand in it as the record plays them; nothing where that was not asked for.
QString outcomeText(const fs::path& file, std::size_t notes, std::optional<std::size_t> heard) {
    const QString there = ExportDesk::tr("The line is in %1.").arg(nameOf(file));
    if (!heard || *heard == notes) return there;
    const QString rest = *heard == 0 ? ExportDesk::tr("%1 of %2 notes are heard to begin, so that all stand "
                                                      "there as written.")
                                     : ExportDesk::tr("%1 of %2 notes are heard to begin and stand there as "
                                                      "played, the others as written.");
    return there + QLatin1Char(' ') + rest.arg(*heard).arg(notes);
}

} // namespace

ExportDesk::ExportDesk(DeskSession& desk, RecordingListener& listener, MessageBar& bar, QSettings& store,
                       QWidget& over)
    : QObject(&over),
      session(desk),
      messages(bar),
      window(over),
      settings(store),
      listening(listener, bar, subject, listeningShare()) {
    // What is measured would be that of another recording.
    connect(&session, &DeskSession::recordingChanged, this, [this] {
        if (isPreparing()) callOff();
    });
    connect(&session, &DeskSession::opened, this, [this] { lastFile.clear(); });
    connect(&listening, &ListenedWork::calledOff, this, &ExportDesk::tellCalledOff);
    connect(&listening, &ListenedWork::ended, this, [this] {
        if (auto done = std::exchange(measured, std::nullopt)) put(done->plan, std::move(done->played));
    });
}

void ExportDesk::askWhatToWrite() {
    if (!mayWrite()) return;
    ExportChoices start = rememberedExport(settings);
    const QString name =
        textOf(pathOf(suggestedFile(session)).stem()) + QLatin1Char('.') + rememberedExportKind(settings);
    start.file = lastFile.empty() ? pathOf(startFolder(session)) / pathOf(name) : lastFile;
    openForThisStudy(
        *new ExportDialog(
            start, session.hasMarkedSound(), [this](const ExportChoices& made) { write(made); }, &window),
        session);
}

void ExportDesk::write(ExportChoices choices) {
    if (!mayWrite()) return;
    if (choices.file.is_relative()) choices.file = pathOf(startFolder(session)) / choices.file;
    lastFile = choices.file;
    fileUnderWay = choices.file;
    rememberExport(choices, settings);
    Plan plan{std::move(choices), session.shared(), std::nullopt};
    if (plan.choices.asPlayed && plan.choices.file.extension() == ".mid" && session.hasMarkedSound())
        plan.measuredIn = heardPart;
    lookForFile(plan);
}

bool ExportDesk::mayWrite() {
    if (!session.isOpen() || tellBusy()) return false;
    if (!session.study().notes.empty()) return true;
    messages.say(subject, Tone::Notice, tr("Nothing is written yet for other programs to read."));
    return false;
}

bool ExportDesk::tellBusy() {
    if (!isWriting()) return false;
    const QString sentence = isPreparing() ? tr("%1 is still being written; wait for it, or cancel it first.")
                                           : tr("%1 is still being written; wait for it.");
    // Beside the row that tells of it.
    messages.say(subject + QStringLiteral(" busy"), Tone::Notice, sentence.arg(nameOf(fileUnderWay)));
    return true;
}

/// A look at the disk may take its time.
void ExportDesk::lookForFile(const Plan& plan) {
    tellUnderWay(beingWritten(plan.choices.file));
    looking.start<Result<bool>>(
        [file = plan.choices.file](const std::stop_token&, const BackgroundJob::Report&) {
            std::error_code unknown;
            return Result<bool>(fs::exists(file, unknown));
        },
        [this, plan](Result<bool> isThere) {
            if (!*isThere) return carryOut(plan);
            messages.close(subject);
            openForThisStudy(*new ReplaceQuestion(
                                 {plan.choices.file}, [this, plan] { carryOut(plan); }, &window),
                             session);
        });
}

void ExportDesk::tellUnderWay(const QString& what) {
    messages.say(subject, Tone::Question, what, {{tr("Cancel"), [this] { callOff(); }}});
}

void ExportDesk::carryOut(const Plan& plan) {
    if (!plan.measuredIn) return put(plan, {});
    tellUnderWay(listeningShare().arg(0));
    listening.start<PlayedNotes>(
        [plan](const RecordingEvidence& recording, const std::stop_token& stop,
               const BackgroundJob::Report& report) {
            return measurePlaying(*plan.study, plan.study->notes, recording, stop, report, *plan.measuredIn);
        },
        // Written once its row, which is also that of the writing, is closed.
        [this, plan](PlayedNotes played) {
            measured = {plan, std::move(played)};
        });
}

void ExportDesk::callOff() {
    looking.cancel();
    listening.cancel();
    tellCalledOff();
}

void ExportDesk::tellCalledOff() {
    messages.say(subject, Tone::Notice, tr("Writing %1 was called off.").arg(nameOf(fileUnderWay)));
}

void ExportDesk::put(const Plan& plan, PlayedNotes played) {
    messages.say(subject, Tone::Question, beingWritten(plan.choices.file));
    const QString said = outcomeText(plan.choices.file, plan.study->notes.size(),
                                     plan.measuredIn ? std::optional(played.size()) : std::nullopt);
    writing.start<Result<Done>>(
        [plan, played = std::move(played)](const std::stop_token&, const BackgroundJob::Report&) {
            return writeForeign(*plan.study, plan.choices.file, plan.choices.page, plan.choices.midi, played);
        },
        [this, said](Result<Done> outcome) {
            outcome ? messages.say(subject, Tone::Notice, said)
                    : messages.say(subject, Tone::Trouble, QString::fromStdString(describe(outcome.error())));
        });
}

} // namespace earwright::ui
