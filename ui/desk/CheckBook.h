// The answers of the checks that were asked for, as far as they still hold, and the help opened for each
// place.
#pragma once

#include "core/check/HintLadder.h"
#include "core/check/PhraseCheck.h"
#include "core/study/Study.h"

#include <map>
#include <optional>
#include <set>
#include <vector>

namespace earwright::ui {

/// A place that a check found wanting, and how far help was opened for it.
struct HelpedPlace {
    CheckedPlace place;
    HelpStep step = HelpStep::None;
};

/// Grid, sheet and panel show verdicts from here and from nowhere else.
///
/// A verdict holds until what it was about is changed: pitch, place, length or trill of its note, a note
/// written where an unwritten sound is, the phrase itself. How a note is phrased else was not judged and
/// changes nothing.
class CheckBook {
public:
    /// A phrase's answers take the place of its earlier ones; help opened for places still there stays open.
    void keep(const PhraseCheck& check);
    /// Lets go of what an edit made out of date.
    void follow(const Study& before, const Study& after);
    void clear();

    /// What still holds of a phrase's check; null if it was not checked.
    const PhraseCheck* of(SpanId phrase) const;
    std::map<NoteId, Verdict> verdicts() const;
    /// What still holds of a phrase's notes, and of the notes of all other phrases, which are seen beside it;
    /// nothing if none was checked.
    std::optional<PhraseCheck> answersAround(std::optional<SpanId> phrase) const;
    /// Notes in checked phrases that have no verdict: changed or written since.
    std::set<NoteId> unjudged(const Study& study) const;
    /// How many notes of a phrase were changed, written or taken out since it was checked.
    int changedSince(SpanId phrase, const Study& study) const;

    /// Places of a phrase that are not supported, by time.
    std::vector<HelpedPlace> places(SpanId phrase) const;
    /// The place help goes to next: the one of the chosen note if it has one that is not fully shown, else
    /// the one helped last if it is not, else the first after `cursor` that is not, round to the phrase's
    /// start. Once all are shown they are gone through again. Nothing where there is no place.
    std::optional<HelpedPlace> nextPlace(SpanId phrase, std::optional<NoteId> chosen, Seconds cursor) const;
    /// One more step for a place of that phrase; its state afterwards.
    HelpedPlace open(SpanId phrase, const CheckedPlace& place);
    /// The place helped last, if it still is one.
    std::optional<HelpedPlace> current(SpanId phrase) const;

private:
    /// A place is the same place after another check if it is about the same note, or one of the same run, or
    /// the same time.
    static bool isSame(const CheckedPlace& a, const CheckedPlace& b);

    struct Entry {
        PhraseCheck check;
        /// The notes that were judged, whatever became of them.
        std::vector<NoteId> judged;
        std::vector<HelpedPlace> helped;
        std::optional<CheckedPlace> last;
    };
    static std::set<NoteId> unjudged(const Entry& entry, const std::vector<Note>& written);
    HelpStep stepOf(const Entry& entry, const CheckedPlace& place) const;
    /// Where every place is fully shown: the chosen note's, else the one after the one helped last.
    std::optional<HelpedPlace> shownAgain(SpanId phrase, std::optional<NoteId> chosen, Seconds cursor) const;

    std::map<SpanId, Entry> phrases;
};

/// What the opened steps let through for all helped places of a phrase, for the grid.
std::vector<Hint> hintsOf(const CheckBook& book, SpanId phrase, const Study& study);
/// The same for one place.
Hint hintOf(const HelpedPlace& helped, const Study& study);

} // namespace earwright::ui
