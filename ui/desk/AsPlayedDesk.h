// As written or as played: whether the written notes sound on the grid or as the record plays them.
#pragma once

#include "core/study/PlayedNote.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListenedWork.h"

#include <QObject>
#include <QTimer>

#include <map>

namespace earwright::ui {

/// Measures how the notes are played when that is first asked for, and again what is written otherwise while
/// it is on. Until a note was measured, and where its beginning is not heard, it sounds as written.
/// Threads: interface only; the listening goes on elsewhere.
class AsPlayedDesk : public QObject {
    Q_OBJECT
public:
    AsPlayedDesk(DeskSession& session, RecordingListener& listener, MessageBar& messages,
                 QObject* parent = nullptr);

    bool isOn() const { return on; }
    /// What is measured from the next time it is switched on: where the user listens then, or where the line
    /// is clearest while that is everything. Another focus meanwhile changes nothing.
    void listenTo(const HeardPart& part) { heardPart = part; }
    /// Nothing happens without a recording and marked bars; then it says what is missing.
    void switchTo(bool asPlayed);
    bool isBusy() const { return work.isBusy() || pause.isActive(); }
    const PlayedNotes& played() const { return notes; }

signals:
    void changed();

private:
    /// What of a note was measured, so that it is not measured twice where nothing was heard.
    struct Asked {
        Range<Seconds> written;
        int midi = 60;
        friend bool operator==(const Asked&, const Asked&) = default;
    };

    std::vector<Note> notesToMeasure() const;
    Asked askedOf(const Note& note) const;
    void measure();
    void take(const std::vector<Note>& measured, const Study& study, const PlayedNotes& heard);
    void follow();
    void forget();
    void switchOff();

    DeskSession& session;
    MessageBar& messages;
    bool on = false;
    /// The first measure since it was switched on is told about when it ends.
    bool tellsOutcome = false;
    HeardPart heardPart;
    /// Where `notes` were measured.
    HeardPart measuredIn;
    PlayedNotes notes;
    std::map<NoteId, Asked> asked;
    /// Edits come in bursts; they are measured once it is quiet.
    QTimer pause;
    ListenedWork work;
};

} // namespace earwright::ui
