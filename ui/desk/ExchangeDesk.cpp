#include "ui/desk/ExchangeDesk.h"

#include "core/check/StudyPlaying.h"
#include "core/exchange/OpenForeign.h"
#include "core/exchange/WriteForeign.h"
#include "core/study/MeterEdits.h"
#include "core/study/OwnTime.h"
#include "core/study/RecordingLocator.h"
#include "ui/desk/ExportDialog.h"
#include "ui/desk/ReplaceQuestion.h"
#include "ui/desk/StudyDialog.h"
#include "ui/desk/StudyPaths.h"

#include <QInputDialog>

#include <algorithm>
#include <utility>

namespace earwright::ui {

namespace {

namespace fs = std::filesystem;
using Tone = MessageBar::Tone;

/// Of opening, and of writing: what one says is no answer to the other.
const auto openingSubject = QStringLiteral("exchange");
const auto writingSubject = QStringLiteral("export");

std::size_t partsWithNotes(const Imported& imported) {
    return static_cast<std::size_t>(std::count_if(imported.parts.begin(), imported.parts.end(),
                                                  [](const ForeignPart& part) { return part.notes > 0; }));
}

/// The marks of the open study under the page's meters: bars stay where they were tapped, and what lies
/// between them is counted as the page does.
BeatMap marksUnder(const Study& page, const Study& open) {
    Study counted;
    counted.meter = open.meter;
    counted.beatMap = open.beatMap;
    counted.page.meters = open.page.meters;
    for (auto change = open.page.meters.rbegin(); change != open.page.meters.rend(); ++change)
        counted = removeMeterChange(counted, change->bar);
    counted = setMeter(counted, page.meter);
    for (const MeterChange& change : page.page.meters)
        if (auto next = changeMeter(counted, change.bar, change.meter)) counted = *std::move(next);
    return counted.beatMap;
}

/// The recording that is open, and where its bars are marked, hold for the new line too.
void attach(Study& study, const DeskSession& session) {
    const Study& open = session.study();
    study.recording = open.recording;
    study.recording.path = referenceTo(session.recording()->path(), {});
    if (open.beatMap.hasTempo()) study.beatMap = marksUnder(study, open);
}

QString listeningShare() {
    return ExchangeDesk::tr("Listening to how the notes are played, %1 %");
}

QString beingWritten(const fs::path& file) {
    return ExchangeDesk::tr("%1 is being written …").arg(nameOf(file));
}

/// `heard`: how many notes stand in it as the record plays them; nothing where that was not asked for.
QString outcomeText(const fs::path& file, std::size_t notes, std::optional<std::size_t> heard) {
    const QString there = ExchangeDesk::tr("The line is in %1.").arg(nameOf(file));
    if (!heard || *heard == notes) return there;
    const QString rest = *heard == 0
                             ? ExchangeDesk::tr("%1 of %2 notes are heard to begin, so that all stand "
                                                "there as written.")
                             : ExchangeDesk::tr("%1 of %2 notes are heard to begin and stand there as "
                                                "played, the others as written.");
    return there + QLatin1Char(' ') + rest.arg(*heard).arg(notes);
}

} // namespace

ExchangeDesk::ExchangeDesk(DeskSession& desk, KeepingDesk& keeping, RecordingListener& listener,
                           MessageBar& bar, QSettings& store, QWidget& over)
    : QObject(&over),
      session(desk),
      keeper(keeping),
      messages(bar),
      window(over),
      settings(store),
      listening(listener, bar, writingSubject, listeningShare()) {
    // What is measured would be that of another recording.
    connect(&session, &DeskSession::recordingChanged, this, [this] {
        if (isPreparing()) callOff();
    });
    connect(&session, &DeskSession::opened, this, [this] { lastFile.clear(); });
    connect(&listening, &ListenedWork::calledOff, this, &ExchangeDesk::tellCalledOff);
    connect(&listening, &ListenedWork::ended, this, [this] {
        if (auto done = std::exchange(measured, std::nullopt)) put(done->plan, std::move(done->played));
    });
    connect(&keeper, &KeepingDesk::foreignChosen, this, &ExchangeDesk::open);
}

void ExchangeDesk::open(const fs::path& path) {
    read({.path = path, .asksForPart = true});
}

void ExchangeDesk::openPart(const fs::path& path, const std::string& part, MidiRhythm rhythm) {
    read({.path = path, .part = part, .rhythm = rhythm});
}

void ExchangeDesk::read(const Wish& wish) {
    reading.start<Result<Imported>>(
        [wish](const std::stop_token&, const BackgroundJob::Report&) {
            return openForeign(wish.path, wish.part, wish.rhythm);
        },
        [this, path = wish.path, asks = wish.asksForPart](Result<Imported> outcome) {
            if (!outcome)
                return messages.say(openingSubject, Tone::Trouble,
                                    QString::fromStdString(describe(outcome.error())));
            if (asks && partsWithNotes(*outcome) > 1) return askForPart(path, *outcome);
            take(path, *std::move(outcome));
        });
}

void ExchangeDesk::askForPart(const fs::path& path, const Imported& imported) {
    QStringList choices;
    int chosen = 0;
    for (std::size_t i = 0; i < imported.parts.size(); ++i) {
        const ForeignPart& part = imported.parts[i];
        if (part.notes == 0) continue;
        if (i == imported.part) chosen = static_cast<int>(choices.size());
        const QString notes = part.notes == 1 ? tr("1 note") : tr("%1 notes").arg(part.notes);
        choices.append(QStringLiteral("%1  %2 (%3)")
                           .arg(QString::number(i + 1), QString::fromStdString(part.name), notes));
    }
    auto* dialog = new QInputDialog(&window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setWindowTitle(tr("Which part?"));
    dialog->setLabelText(tr("%1 has several parts. A study holds one line; open").arg(nameOf(path)));
    dialog->setComboBoxItems(choices);
    dialog->setTextValue(choices[chosen]);
    connect(dialog, &QInputDialog::textValueSelected, this, [this, path](const QString& choice) {
        openPart(path, choice.section(QLatin1Char(' '), 0, 0).toStdString());
    });
    dialog->open();
}

void ExchangeDesk::take(const fs::path& path, Imported imported) {
    keeper.whenNothingIsLost(tr("“%1” has changes that are not saved.").arg(titleOf(session)),
                             [this, path, imported] {
                                 Opened fresh;
                                 fresh.study = imported.study;
                                 fresh.isImported = true;
                                 if (fresh.study.title.empty()) fresh.study.title = path.stem().string();
                                 fresh.recording = session.recording();
                                 if (fresh.recording)
                                     attach(fresh.study, session);
                                 else
                                     fresh.study = withOwnTime(fresh.study);
                                 session.begin(std::move(fresh));
                                 tell(path, imported);
                             });
}

void ExchangeDesk::tell(const fs::path& path, const Imported& imported) {
    QString sentence =
        session.recording()
            ? tr("The line of %1 is a new study with %2.")
                  .arg(nameOf(path), nameOf(session.recording()->path()))
            : tr("The line of %1 is a new study, without a recording so far.").arg(nameOf(path));
    if (!session.recording() && !imported.study.beatMap.hasTempo() && !imported.study.notes.empty())
        sentence += QLatin1Char('\n') + tr("No tempo is given, so its bars are counted evenly.");
    for (const std::string& left : imported.leftOut)
        sentence += QLatin1Char('\n') + QString::fromStdString(left);
    // What was left out, and what can be chosen, is there until it was read.
    bool isPassing = imported.leftOut.empty();
    std::vector<MessageBar::Answer> answers;
    if (const auto other = otherRhythm(path, imported)) {
        const bool isByHand = imported.rhythm->taken == MidiRhythm::ByHand;
        sentence += QLatin1Char('\n') +
                    (isByHand ? tr("Its notes are written where one would count what a hand played.")
                              : tr("Its notes stand where the file's ticks are."));
        answers.push_back(*other);
        isPassing = false;
    }
    if (!session.recording()) answers.push_back({tr("Find one…"), [this] { keeper.askForRecording(); }});
    messages.say(openingSubject, isPassing ? Tone::Notice : Tone::Question, sentence, std::move(answers));
}

std::optional<MessageBar::Answer> ExchangeDesk::otherRhythm(const fs::path& path, const Imported& imported) {
    // So few notes off the lines of the beat are a turn or a trill.
    constexpr double asGoodAsAll = 0.9;
    if (!imported.rhythm) return std::nullopt;
    const bool isByHand = imported.rhythm->taken == MidiRhythm::ByHand;
    if (!isByHand && imported.rhythm->onLines >= asGoodAsAll) return std::nullopt;
    const std::string part = std::to_string(imported.part + 1);
    return MessageBar::Answer{isByHand ? tr("By the file's ticks") : tr("As played by hand"),
                              [this, path, part, isByHand] {
                                  openPart(path, part, isByHand ? MidiRhythm::Ticks : MidiRhythm::ByHand);
                              }};
}

void ExchangeDesk::askWhatToWrite() {
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

void ExchangeDesk::write(ExportChoices choices) {
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

bool ExchangeDesk::mayWrite() {
    if (!session.isOpen() || tellBusy()) return false;
    if (!session.study().notes.empty()) return true;
    messages.say(writingSubject, Tone::Notice, tr("Nothing is written yet for other programs to read."));
    return false;
}

bool ExchangeDesk::tellBusy() {
    if (!isWriting()) return false;
    const QString sentence = isPreparing() ? tr("%1 is still being written; wait for it, or cancel it first.")
                                           : tr("%1 is still being written; wait for it.");
    // Beside the row that tells of it.
    messages.say(writingSubject + QStringLiteral(" busy"), Tone::Notice, sentence.arg(nameOf(fileUnderWay)));
    return true;
}

/// A look at the disk may take its time.
void ExchangeDesk::lookForFile(const Plan& plan) {
    tellUnderWay(beingWritten(plan.choices.file));
    looking.start<Result<bool>>(
        [file = plan.choices.file](const std::stop_token&, const BackgroundJob::Report&) {
            std::error_code unknown;
            return Result<bool>(fs::exists(file, unknown));
        },
        [this, plan](Result<bool> isThere) {
            if (!*isThere) return carryOut(plan);
            messages.close(writingSubject);
            openForThisStudy(*new ReplaceQuestion(
                                 {plan.choices.file}, [this, plan] { carryOut(plan); }, &window),
                             session);
        });
}

void ExchangeDesk::tellUnderWay(const QString& what) {
    messages.say(writingSubject, Tone::Question, what, {{tr("Cancel"), [this] { callOff(); }}});
}

void ExchangeDesk::carryOut(const Plan& plan) {
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

void ExchangeDesk::callOff() {
    looking.cancel();
    listening.cancel();
    tellCalledOff();
}

void ExchangeDesk::tellCalledOff() {
    messages.say(writingSubject, Tone::Notice, tr("Writing %1 was called off.").arg(nameOf(fileUnderWay)));
}

void ExchangeDesk::put(const Plan& plan, PlayedNotes played) {
    messages.say(writingSubject, Tone::Question, beingWritten(plan.choices.file));
    const QString said = outcomeText(plan.choices.file, plan.study->notes.size(),
                                     plan.measuredIn ? std::optional(played.size()) : std::nullopt);
    writing.start<Result<Done>>(
        [plan, played = std::move(played)](const std::stop_token&, const BackgroundJob::Report&) {
            return writeForeign(*plan.study, plan.choices.file, plan.choices.page, plan.choices.midi, played);
        },
        [this, said](Result<Done> outcome) {
            outcome ? messages.say(writingSubject, Tone::Notice, said)
                    : messages.say(writingSubject, Tone::Trouble,
                                   QString::fromStdString(describe(outcome.error())));
        });
}

} // namespace earwright::ui
