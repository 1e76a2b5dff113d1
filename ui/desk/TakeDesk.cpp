#include "ui/desk/TakeDesk.h"

#include "core/study/TakeFolder.h"
#include "ui/desk/StudyPaths.h"
#include "ui/takes/InputRow.h"
#include "ui/takes/TakePanel.h"

#include <QDateTime>
#include <QSettings>
#include <QUrl>

#include <algorithm>
#include <utility>

namespace earwright::ui {

namespace {

const auto cautionSubject = QStringLiteral("caution");
const auto measuringSubject = QStringLiteral("measuring");
const auto nameKey = QStringLiteral("input/name");
const auto channelsKey = QStringLiteral("input/channels");
const auto cautionKey = QStringLiteral("input/cautionRead");

/// The last whole pass, or where there is none the last take.
std::size_t bestOf(const std::vector<RecordedTake>& takes) {
    for (std::size_t i = takes.size(); i > 0; --i)
        if (takes[i - 1].isWholePass) return i - 1;
    return takes.size() - 1;
}

std::vector<Take> takesOf(const std::vector<RecordedTake>& recorded, SampleRate rate, const QString& moment) {
    std::vector<Take> takes;
    for (const RecordedTake& one : recorded) {
        Take take;
        take.file = one.file.filename().string();
        take.part = one.part;
        take.at = rate.seconds(one.at);
        take.speed = one.speed;
        take.semitones = one.semitones;
        take.recorded = moment.toStdString();
        takes.push_back(take);
    }
    takes[bestOf(recorded)].chosen = true;
    return takes;
}

} // namespace

TakeDesk::TakeDesk(DeskSession& desk, ListeningDesk& ears, TakePanel& shown, MessageBar& bar,
                   QSettings& store)
    : session(desk), listening(ears), panel(shown), messages(bar), settings(store), keeping(desk, bar) {
    connect(&session, &DeskSession::opened, this, [this] {
        // Takes of the study before are none of this one, and what was to be recorded was about that.
        isOfStudyBefore = wasRecording;
        recordWhenOpen = false;
        stop();
        fresh.clear();
        heard.reset();
    });
    connect(&session, &DeskSession::studyChanged, this, [this] { playChosen(); });
    connect(&session, &DeskSession::fileChanged, this, [this] { playChosen(); });
    connect(&session, &DeskSession::recordingChanged, this, [this] {
        heard.reset();
        playChosen();
    });
    connectPanel();
}

void TakeDesk::connectPanel() {
    InputRow& row = *panel.inputRow();
    Input& input = session.engine().input();
    connect(&panel, &TakePanel::recordRequested, this, &TakeDesk::recordOrStop);
    connect(&panel, &TakePanel::edited, this,
            [this](const Study& study, const QString& what) { session.apply(what, study); });
    connect(&row, &InputRow::openRequested, this, &TakeDesk::openInput);
    connect(&row, &InputRow::closeRequested, this, [this, &input] {
        input.close();
        refuse();
    });
    connect(&row, &InputRow::choicesRequested, this, [this, &row, &input] {
        input.look();
        row.offer(input.choices(), static_cast<InputChannels>(settings.value(channelsKey, 0).toInt()));
    });
    connect(&row, &InputRow::inputChosen, this, [this](const QString& name) {
        settings.setValue(nameKey, name);
        openInput();
    });
    connect(&row, &InputRow::channelsChosen, this, [this](InputChannels channels) {
        settings.setValue(channelsKey, static_cast<int>(channels));
        openInput();
    });
    connect(&row, &InputRow::measureRequested, this, [this, &input] {
        messages.close(measuringSubject);
        session.engine().pause();
        input.measureRoundTrip();
    });
    connect(&row, &InputRow::monitorChosen, this, [&input](bool wanted) { input.setMonitor(wanted); });
    connect(&row, &InputRow::monitorLevelChosen, this,
            [&input](double level) { input.setMonitorLevel(level); });
    input.setMonitorLevel(0.5);
}

void TakeDesk::openInput() {
    // Whoever only opens it no longer wants to record at once.
    recordWhenOpen = false;
    if (settings.value(cautionKey, false).toBool()) return openNow();
    isAsking = true;
    messages.say(cautionSubject, MessageBar::Tone::Question, TakePanel::caution(),
                 {{tr("Open the input"),
                   [this] {
                       isAsking = false;
                       settings.setValue(cautionKey, true);
                       openNow();
                   }},
                  {tr("Not now"), [this] { refuse(); }}});
}

void TakeDesk::refuse() {
    isAsking = recordWhenOpen = false;
    emit inputRefused();
}

void TakeDesk::openNow() {
    InputWish wish;
    wish.name = settings.value(nameKey).toString().toStdString();
    wish.channels = static_cast<InputChannels>(std::clamp(settings.value(channelsKey, 0).toInt(), 0, 2));
    session.engine().input().open(wish);
}

bool TakeDesk::isRecording() const {
    return session.engine().input().recording().isRunning;
}

void TakeDesk::stop() {
    session.engine().input().stopRecording();
}

void TakeDesk::recordOrStop() {
    if (isRecording()) return stop();
    if (!session.recording()) return;
    if (session.engine().input().report().state == DeviceState::Running) return startRecording();
    openInput();
    recordWhenOpen = true;
}

void TakeDesk::startRecording() {
    // The one before may have ended a moment ago.
    collect();
    recordWhenOpen = false;
    wasGone = isBack = false;
    moment =
        QDateTime::currentDateTimeUtc().toString(QStringLiteral("yyyy-MM-ddThh:mm:ss")) + QLatin1Char('Z');
    const auto folder = session.takeFolder();
    recordedFile = folder / freshTakeFile(folder, moment.toStdString());
    session.engine().input().record(recordedFile, session.recording()->rate());
    wasRecording = true;
    if (listening.heard().playing) return;
    // With a loop the take begins where the loop does.
    if (const auto& loop = session.study().practice.loop) listening.hearFrom(loop->begin);
    listening.playOrPause();
}

void TakeDesk::follow() {
    Input& input = session.engine().input();
    const InputReport report = input.report();
    InputRow& row = *panel.inputRow();
    row.setReport(report);
    row.setLevel(input.level());
    row.setRoundTrip(input.roundTrip());
    row.setMonitored(input.isMonitored());
    panel.setReady(session.isOpen() && session.recording());
    panel.setRecording(recordingNow(report.state));
    measured();
    if (report.state == DeviceState::Running) recallRoundTrip();
    if (recordWhenOpen && report.state == DeviceState::Running && session.recording()) startRecording();
    if (report.state == DeviceState::Missing) recordWhenOpen = false;
    // Closed without an answer, it was not granted.
    if (isAsking && messages.sentence(cautionSubject).isEmpty()) refuse();
    collect();
}

/// What ended a recording is no longer said once the input is back.
RecordingReport TakeDesk::recordingNow(DeviceState state) {
    RecordingReport now = session.engine().input().recording();
    if (now.isRunning) return now;
    if (state == DeviceState::Running)
        isBack = wasGone;
    else
        wasGone = true;
    if (isBack) now.message.clear();
    return now;
}

/// Devices that are measured once are known from then on.
void TakeDesk::measured() {
    const RoundTripReport trip = session.engine().input().roundTrip();
    const bool isDone = std::exchange(wasMeasuring, trip.isRunning) && !trip.isRunning;
    if (!isDone) return;
    if (!trip.message.empty())
        messages.say(measuringSubject, MessageBar::Tone::Trouble, QString::fromStdString(trip.message));
    else if (trip.seconds && !knownPair.isEmpty())
        settings.setValue(knownPair, *trip.seconds);
}

QString TakeDesk::pairKey() {
    const DeviceReport output = session.engine().device();
    const InputReport input = session.engine().input().report();
    const QString names = QStringLiteral("%1 > %2").arg(QString::fromStdString(output.name),
                                                        QString::fromStdString(input.name));
    return QStringLiteral("roundTrip/") + QString::fromLatin1(QUrl::toPercentEncoding(names));
}

void TakeDesk::recallRoundTrip() {
    const QString pair = pairKey();
    if (pair == knownPair) return;
    knownPair = pair;
    bool isNumber = false;
    const double seconds = settings.value(pair).toDouble(&isNumber);
    session.engine().input().setRoundTrip(isNumber ? std::optional(seconds) : std::nullopt);
}

void TakeDesk::collect() {
    Input& input = session.engine().input();
    // Asked first: the last takes are there before a recording says that it has ended.
    const bool isRunning = input.recording().isRunning;
    for (RecordedTake& take : input.finishedTakes())
        fresh.push_back(std::move(take));
    if (!std::exchange(wasRecording, isRunning) || isRunning) return;
    if (std::exchange(isOfStudyBefore, false)) {
        fresh.clear();
        return messages.notice(
            tr("Another study was opened while you recorded; what you played is kept in %1.")
                .arg(textOf(recordedFile)));
    }
    if (fresh.empty()) {
        if (input.recording().message.empty())
            messages.notice(tr("Nothing was heard at the input, so there is no take."));
        return;
    }
    const std::vector<RecordedTake> recorded = std::exchange(fresh, {});
    if (session.isOpen())
        keeping.keep(takesOf(recorded, session.study().recording.rate, moment), recordedFile.parent_path());
}

void TakeDesk::playChosen() {
    if (!session.isOpen()) return;
    const Take* chosen = session.study().chosenTake();
    const auto folder = session.takeFolder();
    const std::optional<Take> wanted = chosen ? std::optional(*chosen) : std::nullopt;
    if (wanted == heard && (!wanted || folder == heardFolder)) return;
    heard = wanted;
    heardFolder = folder;
    openingJob.cancel();
    if (!wanted || !session.recording()) return session.engine().setTake(std::nullopt);
    openingJob.start<Result<std::shared_ptr<Recording>>>(
        [file = folder / wanted->file](const std::stop_token&, const BackgroundJob::Report&) {
            return Recording::open(file);
        },
        [this, take = *wanted](Result<std::shared_ptr<Recording>> sound) {
            if (!sound) {
                session.engine().setTake(std::nullopt);
                return messages.notice(QString::fromStdString(describe(sound.error())));
            }
            session.engine().setTake(TakePlayback{
                *sound, take.part, session.recording()->rate().frames(take.at), take.speed, take.semitones});
        });
}

} // namespace earwright::ui
