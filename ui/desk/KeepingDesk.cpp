#include "ui/desk/KeepingDesk.h"

#include "core/exchange/OpenForeign.h"
#include "core/study/RecordingEdits.h"
#include "ui/desk/StudyPaths.h"

#include <QFileDialog>
#include <QInputDialog>

#include <utility>

namespace earwright::ui {

namespace fs = std::filesystem;
using Tone = MessageBar::Tone;

namespace {

const auto opening = QStringLiteral("opening");
const auto losing = QStringLiteral("losing");
const auto lostOfStudy = QStringLiteral("lost work of the study");
const auto lostUnsaved = QStringLiteral("lost unsaved work");
const auto missing = QStringLiteral("recording");

constexpr int noticeableMilliseconds = 400;

} // namespace

KeepingDesk::KeepingDesk(DeskSession& desk, MessageBar& bar, QWidget& owner)
    : QObject(&owner), session(desk), messages(bar), window(owner) {
    connect(&session, &DeskSession::opened, this, &KeepingDesk::showOpened);
    connect(&session, &DeskSession::lostWorkFound, this, &KeepingDesk::offerUnsaved);
    connect(&session, &DeskSession::recordingPicked, this, &KeepingDesk::showPicked);
    connect(&session, &DeskSession::recordingDiffers, this, &KeepingDesk::showDifferent);
    openingTimer.setSingleShot(true);
    openingTimer.setInterval(noticeableMilliseconds);
    connect(&openingTimer, &QTimer::timeout, this, &KeepingDesk::showOpening);
    connect(&session, &DeskSession::openingProgressed, this, [this](std::optional<double> share) {
        if (share) return openingTimer.start();
        openingTimer.stop();
        messages.close(opening);
    });
    connect(&session, &DeskSession::failed, this, [this](const QString& sentence) {
        pending = nullptr;
        messages.say(QStringLiteral("failed"), Tone::Trouble, sentence);
        if (auto deed = std::exchange(pendingOtherwise, nullptr)) deed();
    });
    connect(&session, &DeskSession::saved, this, [this] {
        onDisk = session.shared();
        recovered = false;
        settleLost();
        messages.close(losing);
        pendingOtherwise = nullptr;
        if (auto deed = std::exchange(pending, nullptr)) deed();
    });
}

bool KeepingDesk::hasUnsavedWork() const {
    if (!session.isOpen() || session.isSaved()) return false;
    // A recording that was only listened to is not work.
    return !session.studyFile().empty() || session.canUndo() || session.canRedo() || recovered;
}

void KeepingDesk::whenNothingIsLost(const QString& question, std::function<void()> deed) {
    if (!hasUnsavedWork()) return deed();
    messages.say(
        losing, Tone::Question, question,
        {{tr("Save"), [this, deed] { afterSaving(deed); }}, {tr("Don't save"), deed}, {tr("Stay here"), {}}});
}

void KeepingDesk::afterSaving(std::function<void()> deed, std::function<void()> otherwise) {
    pending = std::move(deed);
    pendingOtherwise = std::move(otherwise);
    save();
}

void KeepingDesk::open(const fs::path& path) {
    if (isForeign(path)) return emit foreignChosen(path);
    whenNothingIsLost(tr("“%1” has changes that are not saved.").arg(titleOf(session)),
                      [this, path] { startAt(path); });
}

void KeepingDesk::startAt(const fs::path& path) {
    openingName = nameOf(path);
    session.open(path);
}

void KeepingDesk::showOpening() {
    messages.say(opening, Tone::Question, tr("Opening %1 …").arg(openingName),
                 {{tr("Cancel"), [this] { session.cancelOpening(); }}});
}

void KeepingDesk::askWhatToOpen() {
    auto* dialog = new QFileDialog(&window, tr("Open a recording or a study"), startFolder(session));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setFileMode(QFileDialog::ExistingFile);
    const QString foreign = QStringLiteral("*.musicxml *.mxl *.xml *.mid *.midi");
    dialog->setNameFilters(
        {tr("Recordings, studies and pages (%1 *.study %2)").arg(soundFilePatterns(), foreign),
         tr("Studies (*.study)"), tr("MusicXML and MIDI (%1)").arg(foreign), tr("All files (*)")});
    connect(dialog, &QFileDialog::fileSelected, this, [this](const QString& file) { open(pathOf(file)); });
    dialog->open();
}

void KeepingDesk::save() {
    if (session.studyFile().empty()) return askWhereToSave();
    session.saveTo(session.studyFile());
}

void KeepingDesk::askWhereToSave() {
    auto* dialog = new QFileDialog(&window, tr("Save the study"), startFolder(session));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setDefaultSuffix(QStringLiteral("study"));
    dialog->setNameFilters({tr("Studies (*.study)")});
    dialog->selectFile(suggestedFile(session));
    connect(dialog, &QFileDialog::fileSelected, this,
            [this](const QString& file) { session.saveTo(pathOf(file)); });
    connect(dialog, &QFileDialog::rejected, this, [this] { pending = nullptr; });
    dialog->open();
}

void KeepingDesk::askForRecording() {
    auto* dialog = new QFileDialog(&window, tr("Where is the recording now?"), startFolder(session));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setFileMode(QFileDialog::ExistingFile);
    dialog->setNameFilters({tr("Recordings (%1)").arg(soundFilePatterns()), tr("All files (*)")});
    connect(dialog, &QFileDialog::fileSelected, this,
            [this](const QString& file) { session.pickRecording(pathOf(file)); });
    dialog->open();
}

void KeepingDesk::askForTitle() {
    auto* dialog = new QInputDialog(&window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setWindowTitle(tr("Name of the study"));
    dialog->setLabelText(tr("The study is called"));
    dialog->setTextValue(QString::fromStdString(session.study().title));
    connect(dialog, &QInputDialog::textValueSelected, this, [this](const QString& title) {
        session.apply(tr("name"), setTitle(session.study(), title.trimmed().toStdString()));
    });
    dialog->open();
}

void KeepingDesk::showOpened(const Opened& what) {
    onDisk = session.shared();
    recovered = what.recovered || what.isImported;
    for (const QString& subject : {losing, lostOfStudy, missing, QStringLiteral("failed")})
        messages.close(subject);
    if (what.trouble)
        messages.say(missing, Tone::Trouble, QString::fromStdString(describe(*what.trouble)),
                     {{tr("Find it…"), [this] { askForRecording(); }}});
    if (what.lostWork)
        offerLost(lostOfStudy, *what.lostWork,
                  tr("There is newer work on this study, from before the program stopped unexpectedly."));
    if (what.recovered) messages.notice(tr("The work is here again. Save it to keep it."));
}

void KeepingDesk::settleLost() {
    if (const auto lost = std::exchange(broughtBack, std::nullopt)) Recovery::forget(*lost);
}

void KeepingDesk::offerLost(const QString& subject, const LostWork& lost, const QString& sentence) {
    // Until this is settled no new recovery copy may take the place of the old one.
    messages.say(subject, Tone::Question, sentence,
                 {{tr("Bring it back"), [this, lost] { bringBack(lost); }},
                  {tr("Throw it away"), [this, lost] {
                       Recovery::forget(lost);
                       const bool ofThisStudy = session.isOpen() && lost.study == session.studyFile();
                       if (ofThisStudy) session.recoveryCopy().open(session.studyFile());
                   }}});
}

void KeepingDesk::bringBack(const LostWork& lost) {
    whenNothingIsLost(tr("“%1” has changes that are not saved.").arg(titleOf(session)), [this, lost] {
        // The copy of a study is taken over by its next one; a copy without a file stays until it is settled.
        if (lost.study.empty()) broughtBack = lost;
        openingName = tr("the work found");
        session.openLost(lost);
    });
}

void KeepingDesk::offerUnsaved(const LostWork& lost) {
    offerLost(lostUnsaved, lost,
              tr("There is work that was never saved, from before the program stopped unexpectedly."));
}

void KeepingDesk::showPicked(const PickedRecording& picked) {
    if (picked.recognised) {
        messages.close(missing);
        session.takeRecording(picked);
        messages.notice(tr("%1 is the recording of this study.").arg(nameOf(picked.recording->path())));
        return;
    }
    messages.say(
        missing, Tone::Trouble,
        tr("%1 is not the recording this study was made with: its contents differ, so marks and notes may "
           "not fit.")
            .arg(nameOf(picked.recording->path())),
        {{tr("Find another…"), [this] { askForRecording(); }},
         {tr("Use it all the same"), [this, picked] { session.takeRecording(picked); }}});
}

void KeepingDesk::showDifferent() {
    messages.say(
        missing, Tone::Trouble,
        tr("%1 has changed since this study was made: its contents differ, so marks and notes may not fit.")
            .arg(nameOf(session.recording()->path())),
        {{tr("Find the right one…"), [this] { askForRecording(); }},
         {tr("Use it all the same"), [this] { session.acceptRecording(); }}});
}

bool KeepingDesk::mayClose() {
    if (agreed || !session.isOpen()) return true;
    const auto close = [this] {
        session.giveUp();
        settleLost();
        agreed = true;
        emit closeAgreed();
    };
    if (hasUnsavedWork()) {
        whenNothingIsLost(tr("“%1” has changes that are not saved. Close?").arg(titleOf(session)), close);
        return false;
    }
    // Loop and speed are no work to ask about, but the study opens where it was left.
    const bool listenedElsewhere = !session.studyFile().empty() && onDisk && *session.shared() != *onDisk;
    if (listenedElsewhere) {
        afterSaving(close, close); // a place that cannot be written must not keep the window open
        return false;
    }
    session.giveUp();
    return true;
}

} // namespace earwright::ui
