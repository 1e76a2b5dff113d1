// How the notes of a phrase are played, when it is asked for.
#pragma once

#include "core/check/StudyPlaying.h"
#include "core/listening/HeardPart.h"
#include "core/music/Span.h"
#include "ui/commands/KeyWords.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListenedWork.h"

#include <QObject>

#include <map>
#include <optional>
#include <vector>

namespace earwright::ui {

class CheckBook;
class NoteGrid;
class PlayingLine;

/// Measured for a phrase at a time; then the line tells of the selected note and the written signs carry
/// their answers, until it is put away. A note that is changed has to be measured again, its signs have not:
/// what was measured stays, and they are judged by it. Threads: interface only; the listening goes on
/// elsewhere.
class PlayingDesk : public QObject {
    Q_OBJECT
public:
    /// `book`: what the check said of a note that is not heard as it is written.
    PlayingDesk(DeskSession& session, RecordingListener& listener, const CheckBook& book, NoteGrid& grid,
                PlayingLine& line, MessageBar& messages, QObject* parent = nullptr);

    /// The key each command has now; the table's own until told.
    void setKeys(KeyOf keys);

    /// Where the next phrase is listened to: where the user does, or where its line is clearest while that is
    /// everything.
    void listenTo(const HeardPart& part) { heardPart = part; }
    /// The phrase in sight; none for bars without a phrase.
    void setPhrase(std::optional<SpanId> phrase);
    /// Measures a phrase, or says that nothing is written in it yet; puts it away where all of it is told as
    /// it is listened to now.
    /// Nothing happens without the recording.
    void tellOrPutAway(SpanId phrase);
    /// Another note is selected, or the check has other answers.
    void refresh();
    bool isBusy() const { return work.isBusy(); }

private:
    const MeasuredNote* measured(const Note& note) const;
    /// Behind where the line's swing puts an off-beat eighth that is written evenly; nothing for other notes,
    /// and where the line does not swing or too little was measured to tell.
    std::optional<Seconds> behindSwing(const std::vector<Note>& notes, const Note& note) const;
    bool isAllMeasured(const std::vector<Note>& notes) const;
    QString sentence(const std::vector<Note>& notes) const;
    /// Of a note that does not stand as it was measured, or between the notes it was measured between.
    QString outOfDate(const Note& note) const;
    /// Of a note that is not heard at its pitch: what the check has to say to it, and what to press.
    QString notHeard(const Note& note) const;
    /// Whether every step of help for its place is open.
    bool isFullyHelped(const Note& note) const;
    QString sumUp(const std::vector<Note>& notes) const;
    void forget();

    DeskSession& session;
    const CheckBook& book;
    NoteGrid& grid;
    PlayingLine& line;
    MessageBar& messages;
    KeyOf keyOf = tableKey;
    HeardPart heardPart;
    /// Of all phrases that were asked about.
    MeasuredNotes known;
    /// Where each was listened to.
    std::map<SpanId, HeardPart> told;
    std::optional<SpanId> shown;
    ListenedWork work;
};

} // namespace earwright::ui
