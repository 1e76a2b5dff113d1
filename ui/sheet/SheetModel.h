// What the chorus sheet shows.
#pragma once

#include "core/check/StudyChords.h"
#include "core/check/Verdict.h"
#include "core/engine/Climb.h"
#include "core/study/BeatProposal.h"
#include "core/study/Study.h"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <vector>

namespace earwright::ui {

struct SheetModel {
    std::shared_ptr<const Study> study = std::make_shared<const Study>();
    Seconds duration;
    /// Highest level over a stretch, 0 to 1; nothing where the overview does not reach yet.
    std::function<std::optional<float>(const Range<Seconds>&)> level;
    /// Where sounds begin, rising; empty until they are known.
    std::vector<Seconds> onsets;
    /// Answers of checks that were asked for and still hold.
    std::map<NoteId, Verdict> verdicts;
    /// The same for chords.
    std::vector<CheckedChord> chordAnswers;
    /// Beats found by listening that wait to be accepted.
    std::vector<ProposedBeat> proposal;
    /// Notes chosen in the note grid.
    std::set<NoteId> selected;
    /// The phrase in the note grid.
    std::optional<SpanId> phrase;
    Seconds heard;
    /// The place whose instant is held.
    std::optional<Seconds> held;
    /// Played ÷ original in per cent, as offered on the loop.
    std::vector<int> speedSteps;
    /// The climb on the loop, or the one that a click would start.
    Climb climb;
    bool climbing = false;
    /// Beats of silence after each pass of the loop.
    int gapBeats = 0;
    /// Record and written notes take turns; the written notes at a speed of their own in per cent, or 0 for
    /// the record's.
    bool trading = false;
    int yoursPercent = 0;

    /// What the user chose by dragging over the sheet.
    std::optional<Range<Seconds>> stretch;
    /// The mark near the hand, by its index in the beat map.
    std::optional<std::size_t> markInReach;
    /// A gesture in progress: the loop as it would be, and a mark on its way.
    std::optional<Range<Seconds>> draggedLoop;
    std::optional<Seconds> draggedMark;

    /// The answer for the chord at a place of the page, or for the one that sounds at a time; null where none
    /// holds. Points into the model.
    const CheckedChord* chordAnswer(std::int64_t bar, const Beats& withinBar) const;
    const CheckedChord* chordAnswerAt(Seconds time) const;
    std::optional<Range<Seconds>> loop() const { return draggedLoop ? draggedLoop : study->practice.loop; }
};

} // namespace earwright::ui
