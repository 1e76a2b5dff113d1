// The check of a phrase when it is asked for, and help for its places one step at a time.
#pragma once

#include "ui/desk/BackgroundJob.h"
#include "ui/desk/CheckBook.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListenedWork.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/RecordingListener.h"
#include "ui/grid/ColumnEvidence.h"
#include "ui/grid/HintText.h"

#include <QObject>

#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace earwright::ui {

class ChorusSheetView;
class NoteGridPanel;

/// Nothing is judged before a check is asked for. Listening to the recording takes its time elsewhere, with
/// progress and a way to call it off; what was heard is kept until another recording is there.
/// Threads: interface only.
class CheckDesk : public QObject {
    Q_OBJECT
public:
    CheckDesk(DeskSession& session, RecordingListener& listener, NoteGridPanel& panel, ChorusSheetView& sheet,
              MessageBar& messages, QObject* parent = nullptr);

    /// The phrase whose check the panel shows; none for bars without a phrase.
    void setPhrase(std::optional<SpanId> phrase);
    /// Checks phrases, or says that nothing is written in them yet. Of several the outcome is told in
    /// numbers, since the panel shows one of them. Nothing happens without the recording.
    void check(const std::vector<SpanId>& phrases);
    /// One step more, for the selected note or else the next place after the cursor.
    void help(SpanId phrase, Seconds cursor);
    /// What of the recording the next check and the last step of help listen to: what the user listens to, or
    /// where the line is clearest while that is everything.
    void listenTo(const HeardPart& part);
    /// Whether a check of the phrase still holds.
    bool hasAnswer(SpanId phrase) const { return checks.of(phrase) != nullptr; }
    bool hasPlaces(SpanId phrase) const { return !checks.places(phrase).empty(); }
    const CheckBook& book() const { return checks; }
    bool isBusy() const { return work.isBusy(); }

signals:
    /// Places came or went, or help was opened for one.
    void changed();

private:
    void start(const std::vector<SpanId>& phrases);
    void tellOf(const std::vector<PhraseCheck>& outcomes);
    /// What was found in phrases as they were when they were asked for.
    void take(const std::vector<Span>& asked, const Study& then, const std::vector<PhraseCheck>& outcomes);
    void giveUp();
    void follow(const Study& before);
    void refresh();
    void showHelp(const HelpedPlace& helped);
    void showEvidence(const HelpedPlace& helped);
    std::optional<Range<Beats>> beatsOf(const CheckedPlace& place) const;
    /// The stretch of the recording whose pitches the last step shows: where the note begins, if that is
    /// elsewhere.
    static Range<Seconds> shownTime(const CheckedPlace& place);
    std::optional<Range<Beats>> shownBeats(const CheckedPlace& place) const;
    HintNames namesFor(const HelpedPlace& helped) const;
    QString sentenceOf(const HelpedPlace& helped) const;

    DeskSession& session;
    RecordingListener& listener;
    NoteGridPanel& panel;
    ChorusSheetView& sheet;
    MessageBar& messages;
    CheckBook checks;
    /// By phrase: sounds its check found too far from any written note for help.
    std::map<SpanId, int> furtherOn;
    std::optional<SpanId> shown;
    HeardPart heardPart;
    ListenedWork work;
    BackgroundJob evidenceJob;
};

} // namespace earwright::ui
