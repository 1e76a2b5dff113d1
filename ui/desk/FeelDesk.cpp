#include "ui/desk/FeelDesk.h"

#include "core/check/StudyPlaying.h"
#include "core/study/PlayedTime.h"
#include "ui/grid/FeelLine.h"

namespace earwright::ui {

FeelDesk::FeelDesk(DeskSession& desk, RecordingListener& listener, FeelLine& feelLine, MessageBar& bar,
                   QObject* parent)
    : QObject(parent),
      session(desk),
      line(feelLine),
      messages(bar),
      work(listener, bar, QStringLiteral("feel"), tr("Listening to how the phrase is played, %1 %")) {
    connect(&session, &DeskSession::studyChanged, this, &FeelDesk::follow);
    connect(&session, &DeskSession::opened, this, [this] { forget(); });
    connect(&session, &DeskSession::recordingChanged, this, [this] { forget(); });
}

void FeelDesk::setPhrase(std::optional<SpanId> phrase) {
    if (phrase == shown) return;
    shown = phrase;
    refresh();
}

void FeelDesk::tell(SpanId phrase) {
    const Span* span = session.study().span(phrase);
    if (!span || !session.recording()) return;
    std::vector<Note> notes = notesPlayedIn(session.study(), span->range);
    if (notes.empty())
        return messages.notice(
            tr("Nothing is written in this phrase yet: its feel is measured at the notes you "
               "write."));
    const auto asked = session.shared();
    work.start<Feel>(
        [asked, notes = std::move(notes),
         part = heardPart](const RecordingEvidence& recording, const std::stop_token& stop,
                           const BackgroundJob::Report& report) -> Result<Feel> {
            const auto played = measurePlaying(*asked, notes, recording, stop, report, part);
            if (!played) return played.error();
            return feelOf(*asked, notes, *played);
        },
        [this, phrase, part = heardPart](const Feel& feel) {
            told[phrase] = {feel, part};
            refresh();
        });
}

void FeelDesk::follow(const Study& before) {
    const Study& now = session.study();
    const bool sameLine = before.notes == now.notes && before.beatMap == now.beatMap &&
                          before.page == now.page && before.meter == now.meter &&
                          before.divisions == now.divisions && before.spans == now.spans;
    if (!sameLine) forget();
}

void FeelDesk::forget() {
    work.cancel();
    told.clear();
    refresh();
}

void FeelDesk::refresh() {
    const auto feel = shown ? told.find(*shown) : told.end();
    if (feel == told.end()) return line.clear();
    line.show(feel->second.feel, feel->second.listened);
}

} // namespace earwright::ui
