// The check of the chords when it is asked for.
#pragma once

#include "core/check/StudyChords.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListenedWork.h"

#include <QObject>

#include <vector>

namespace earwright::ui {

class ChorusSheetView;

/// Asks comping and bass about the chords of a stretch and shows each answer at its symbol, until the symbol,
/// its place or its time changes. Threads: interface only; the listening goes on elsewhere.
class ChordDesk : public QObject {
    Q_OBJECT
public:
    ChordDesk(DeskSession& session, RecordingListener& listener, ChorusSheetView& sheet, MessageBar& messages,
              QObject* parent = nullptr);

    /// The chords over the bars that begin in the stretch; answers outside it stay. Nothing happens without
    /// the recording.
    void check(const Range<Seconds>& stretch);
    /// Says what speaks for and against the chord that sounds at a time; nothing where none was checked.
    void tell(Seconds place);
    bool hasAnswerAt(Seconds place) const;
    const std::vector<CheckedChord>& answers() const { return answered; }

signals:
    void changed();

private:
    void take(const Range<Seconds>& stretch, const std::vector<CheckedChord>& found);
    void show(std::vector<CheckedChord> answers);
    void forget();

    DeskSession& session;
    ChorusSheetView& sheet;
    MessageBar& messages;
    std::vector<CheckedChord> answered;
    ListenedWork work;
};

} // namespace earwright::ui
