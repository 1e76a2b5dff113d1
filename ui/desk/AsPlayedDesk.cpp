#include "ui/desk/AsPlayedDesk.h"

#include "core/check/StudyPlaying.h"
#include "core/study/PlayedTime.h"

#include <algorithm>

namespace earwright::ui {

namespace {

const auto subject = QStringLiteral("as played");
constexpr int quietMilliseconds = 500;
/// Notes this near to a new one are measured again with it: its loudness is against theirs.
constexpr Seconds neighbourhood{2.5};

} // namespace

AsPlayedDesk::AsPlayedDesk(DeskSession& desk, RecordingListener& listener, MessageBar& bar, QObject* parent)
    : QObject(parent),
      session(desk),
      messages(bar),
      work(listener, bar, QStringLiteral("as played work"),
           tr("Listening to how the notes are played, %1 %")) {
    pause.setSingleShot(true);
    pause.setInterval(quietMilliseconds);
    connect(&pause, &QTimer::timeout, this, &AsPlayedDesk::measure);
    connect(&session, &DeskSession::studyChanged, this, &AsPlayedDesk::follow);
    connect(&session, &DeskSession::opened, this, [this] { forget(); });
    connect(&session, &DeskSession::recordingChanged, this, [this] { forget(); });
    connect(&work, &ListenedWork::calledOff, this, [this] { switchOff(); });
    connect(&work, &ListenedWork::failed, this, [this] { switchOff(); });
}

void AsPlayedDesk::switchTo(bool asPlayed) {
    if (asPlayed == on) return emit changed();
    if (!asPlayed) return switchOff();
    if (!session.hasMarkedSound()) {
        messages.notice(tr("How the notes are played is measured in the recording: open it and mark two bars "
                           "first."));
        return emit changed();
    }
    if (heardPart != measuredIn) {
        notes.clear();
        asked.clear();
        measuredIn = heardPart;
    }
    on = true;
    tellsOutcome = true;
    emit changed();
    measure();
}

void AsPlayedDesk::switchOff() {
    on = false;
    pause.stop();
    work.cancel();
    messages.close(subject);
    session.playAs({});
    emit changed();
}

void AsPlayedDesk::forget() {
    notes.clear();
    asked.clear();
    switchOff();
}

void AsPlayedDesk::follow() {
    if (on && !notesToMeasure().empty()) pause.start();
}

AsPlayedDesk::Asked AsPlayedDesk::askedOf(const Note& note) const {
    return {playedTime(session.study(), note.range()), note.pitch.midi};
}

std::vector<Note> AsPlayedDesk::notesToMeasure() const {
    const Study& study = session.study();
    std::vector<Note> wanted;
    if (!study.beatMap.hasTempo()) return wanted;
    std::vector<Seconds> fresh;
    for (const Note& note : study.notes) {
        const auto known = asked.find(note.id);
        if (known == asked.end() || known->second != askedOf(note))
            fresh.push_back(playedTime(study, note.onset));
    }
    std::copy_if(study.notes.begin(), study.notes.end(), std::back_inserter(wanted), [&](const Note& note) {
        const Seconds onset = playedTime(study, note.onset);
        const auto near = std::lower_bound(fresh.begin(), fresh.end(), onset - neighbourhood);
        return near != fresh.end() && *near <= onset + neighbourhood;
    });
    return wanted;
}

void AsPlayedDesk::measure() {
    if (!on) return;
    std::vector<Note> wanted = notesToMeasure();
    if (wanted.empty()) {
        tellsOutcome = false;
        session.playAs(notes);
        return;
    }
    const auto study = session.shared();
    work.start<PlayedNotes>(
        [study, wanted, part = measuredIn](const RecordingEvidence& recording, const std::stop_token& stop,
                                           const BackgroundJob::Report& report) {
            return measurePlaying(*study, wanted, recording, stop, report, part);
        },
        [this, study, wanted](const PlayedNotes& heard) { take(wanted, *study, heard); });
}

void AsPlayedDesk::take(const std::vector<Note>& measured, const Study& study, const PlayedNotes& heard) {
    for (const Note& note : measured) {
        notes.erase(note.id);
        asked[note.id] = {playedTime(study, note.range()), note.pitch.midi};
    }
    notes.insert(heard.begin(), heard.end());
    session.playAs(notes);
    if (std::exchange(tellsOutcome, false) && heard.size() < measured.size())
        messages.say(subject, MessageBar::Tone::Notice,
                     tr("%1 of %2 notes are heard to begin and sound as played, the others as written.")
                         .arg(heard.size())
                         .arg(measured.size()));
    emit changed();
    follow();
}

} // namespace earwright::ui
