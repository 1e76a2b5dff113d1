#include "ui/desk/DeskSession.h"

#include "core/playback/TimedNotes.h"
#include "core/sound/ContentHash.h"
#include "core/study/RecordingEdits.h"
#include "core/study/RecordingLocator.h"
#include "core/study/StudyFile.h"
#include "core/study/TakeFolder.h"

#include <algorithm>

namespace earwright::ui {

namespace fs = std::filesystem;

namespace {

/// A recording of hiss alone (40 dB under full scale) is not drawn as if it were music.
constexpr float quietest = 0.01F;

float levelOf(const Peak& peak) {
    return std::max(peak.most, -peak.least);
}

} // namespace

DeskSession::DeskSession(const Options& options, QObject* parent)
    : QObject(parent),
      unsavedFolder(options.unsavedWork),
      recovery(options.unsavedWork),
      player(options.engine) {
    connect(&openingJob, &BackgroundJob::ended, this, [this] { emit openingProgressed(std::nullopt); });
    connect(&overviewJob, &BackgroundJob::progressed, this, [this](double share) { showOverview(share); });
    connect(&overviewJob, &BackgroundJob::ended, this, [this] { showOverview(std::nullopt); });
}

DeskSession::~DeskSession() = default;

void DeskSession::apply(const QString& name, Study next) {
    const auto before = shared();
    history->apply(name.toStdString(), std::move(next));
    present(*before);
}

void DeskSession::adjust(Study next) {
    const auto before = shared();
    history->replacePresent(std::move(next));
    present(*before);
}

void DeskSession::undo() {
    const auto before = shared();
    history->undo();
    present(*before);
}

void DeskSession::redo() {
    const auto before = shared();
    history->redo();
    present(*before);
}

QString DeskSession::undoName() const {
    return history ? QString::fromStdString(history->undoName()) : QString();
}

QString DeskSession::redoName() const {
    return history ? QString::fromStdString(history->redoName()) : QString();
}

void DeskSession::present(const Study& before) {
    if (study() == before) return;
    recovery.keep(shared());
    tellEngine(&before);
    emit studyChanged(before);
    emit fileChanged();
}

void DeskSession::tellEngine(const Study* before) {
    const Study& now = study();
    const bool sameTimes = before && before->beatMap == now.beatMap && before->recording == now.recording &&
                           before->page == now.page && before->meter == now.meter &&
                           before->divisions == now.divisions;
    if (!sameTimes || before->notes != now.notes) player.setNotes(timedNotes(now, played));
    if (!before || before->practice.loop != now.practice.loop) {
        std::optional<Range<Frames>> loop;
        if (now.practice.loop)
            loop = Range{framesOf(now.practice.loop->begin), framesOf(now.practice.loop->end)};
        player.setLoop(loop);
    }
    player.setPlaying({now.practice.speed, now.practice.semitones, now.practice.cents});
}

void DeskSession::playAs(PlayedNotes notes) {
    if (notes == played) return;
    played = std::move(notes);
    if (isOpen()) player.setNotes(timedNotes(study(), played));
}

void DeskSession::open(const fs::path& path) {
    openBy([path](const std::stop_token& stop) { return openFile(path, stop); });
}

void DeskSession::openLost(const LostWork& lost) {
    openBy([lost](const std::stop_token& stop) { return openLostWork(lost, stop); });
}

void DeskSession::openBy(std::function<Result<Opened>(const std::stop_token&)> work) {
    openingJob.start<Result<Opened>>(
        [work = std::move(work)](const std::stop_token& stop, const BackgroundJob::Report&) {
            return work(stop);
        },
        [this](Result<Opened> outcome) {
            if (outcome)
                take(*std::move(outcome));
            else
                emit failed(QString::fromStdString(describe(outcome.error())));
        });
    emit openingProgressed(0.0);
}

void DeskSession::begin(Opened fresh) {
    openingJob.cancel();
    take(std::move(fresh));
}

void DeskSession::cancelOpening() {
    openingJob.cancel();
}

void DeskSession::take(Opened fresh) {
    const bool onDisk = !fresh.studyFile.empty() && !fresh.recovered;
    savingJob.cancel(); // still written, but it is no longer this study's file
    recovery.close();
    history.emplace(fresh.study, onDisk);
    file = fresh.studyFile;
    // Lost work is settled by the user first: until then its copy must not be overwritten.
    if (!fresh.lostWork) recovery.open(file);
    if (fresh.recovered || fresh.isImported) recovery.keep(shared());
    measuredHash.clear();
    takeSound(fresh.recording);
    tellEngine(nullptr);
    emit opened(fresh);
    emit fileChanged();
}

void DeskSession::takeSound(std::shared_ptr<Recording> recording) {
    overviewJob.cancel();
    fingerprintJob.cancel();
    sound = std::move(recording);
    peaks.reset();
    if (sound) {
        player.setRecording(sound);
        drawOverview();
    } else {
        player.pause();
    }
    emit recordingChanged();
}

void DeskSession::drawOverview() {
    peaks = std::make_shared<PeakPyramid>(sound->length());
    overviewJob.start<Result<Done>>(
        [levels = peaks, recording = sound](const std::stop_token& stop,
                                            const BackgroundJob::Report& report) {
            return levels->fill(*recording, stop, report);
        },
        [this](Result<Done> outcome) {
            if (!outcome) emit failed(QString::fromStdString(describe(outcome.error())));
        });
    emit overviewProgressed(0.0);
}

void DeskSession::showOverview(std::optional<double> share) {
    if (peaks) loudest = std::max(levelOf(peaks->over({Frames(0), peaks->known()})), quietest);
    emit overviewProgressed(share);
    if (!share && sound) fingerprint();
}

void DeskSession::fingerprint() {
    fingerprintJob.start<Result<std::string>>(
        [path = sound->path()](const std::stop_token& stop, const BackgroundJob::Report&) {
            return contentHash(path, stop);
        },
        [this](Result<std::string> hash) {
            if (hash) compareFingerprint(*hash);
        });
}

void DeskSession::compareFingerprint(const std::string& hash) {
    measuredHash = hash;
    const std::string& known = study().recording.contentHash;
    if (known.empty())
        acceptRecording();
    else if (known != hash)
        emit recordingDiffers();
}

void DeskSession::acceptRecording() {
    if (!sound) return;
    adjust(setRecording(study(),
                        {referenceTo(sound->path(), file), measuredHash, sound->rate(), sound->length()}));
}

fs::path DeskSession::takeFolder() const {
    return file.empty() ? unsavedFolder / "takes" : takeFolderOf(file);
}

void DeskSession::saveTo(const fs::path& path) {
    const fs::path target = fs::absolute(path);
    if (std::error_code unknown; sound && fs::equivalent(target, sound->path(), unknown)) {
        emit failed(
            tr("%1 is the recording itself, which is never changed; save the study under another name.")
                .arg(QString::fromStdString(target.string())));
        return;
    }
    std::shared_ptr<const Study> work = shared();
    if (sound && target != file) {
        Study elsewhere = *work;
        elsewhere.recording.path = referenceTo(sound->path(), target);
        work = std::make_shared<const Study>(std::move(elsewhere));
    }
    savingJob.start<Result<Done>>(
        [work, target, takes = takeFolder()](const std::stop_token&, const BackgroundJob::Report&) {
            const auto brought = bringTakes(*work, takes, takeFolderOf(target));
            return brought ? StudyFile::write(*work, target) : brought;
        },
        [this, work, target](Result<Done> outcome) {
            if (outcome)
                takeSaved(work, target);
            else
                emit failed(QString::fromStdString(describe(outcome.error())));
        });
}

void DeskSession::takeSaved(std::shared_ptr<const Study> written, const fs::path& target) {
    // Only now does the study live there: a disk that refused leaves name and reference as they were.
    if (target != file) {
        file = target;
        recovery.open(file);
        referToSoundFrom(file);
    }
    // An edit made while the disk was busy keeps the study unsaved.
    history->markSaved(std::move(written));
    if (history->isSaved())
        recovery.discard();
    else
        recovery.keep(shared());
    emit fileChanged();
    emit saved();
}

void DeskSession::referToSoundFrom(const fs::path& studyFile) {
    if (!sound) return;
    RecordingRef reference = study().recording;
    reference.path = referenceTo(sound->path(), studyFile);
    adjust(setRecording(study(), reference));
}

void DeskSession::pickRecording(const fs::path& path) {
    pickingJob.start<Result<PickedRecording>>(
        [path, wanted = study().recording](const std::stop_token& stop, const BackgroundJob::Report&) {
            return openPicked(path, wanted, stop);
        },
        [this](Result<PickedRecording> outcome) {
            if (outcome)
                emit recordingPicked(*outcome);
            else
                emit failed(QString::fromStdString(describe(outcome.error())));
        });
}

void DeskSession::takeRecording(const PickedRecording& picked) {
    measuredHash = picked.contentHash;
    adjust(setRecording(study(), {referenceTo(picked.recording->path(), file), picked.contentHash,
                                  picked.recording->rate(), picked.recording->length()}));
    takeSound(picked.recording);
    tellEngine(nullptr);
}

void DeskSession::giveUp() {
    recovery.close();
}

void DeskSession::findLostWork() {
    searchJob.start<std::vector<LostWork>>(
        [folder = unsavedFolder](const std::stop_token&, const BackgroundJob::Report&) {
            return Recovery::lostUnsavedWork(folder);
        },
        [this](std::vector<LostWork> found) {
            if (!found.empty()) emit lostWorkFound(found.front());
        });
}

Seconds DeskSession::duration() const {
    if (sound) return sound->duration();
    return history ? study().recording.rate.seconds(study().recording.length) : Seconds(0);
}

std::optional<float> DeskSession::level(const Range<Seconds>& range) const {
    if (!peaks || !sound) return std::nullopt;
    const Range<Frames> frames{sound->rate().frames(range.begin), sound->rate().frames(range.end)};
    if (frames.begin >= peaks->known()) return std::nullopt;
    return std::min(levelOf(peaks->over(frames)) / loudest, 1.0F);
}

} // namespace earwright::ui
