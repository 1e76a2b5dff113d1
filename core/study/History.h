// Undo and redo of everything that changes the study, each step with the name of the edit that led to it.
#pragma once

#include "core/study/Study.h"
#include "core/study/StudyDifference.h"

#include <cstddef>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace earwright {

/// The study as it is now, and the way back to everything it was before and on to what was undone.
///
/// Undo takes back the work: title, meter, marks, chords, spans, notes, divisions, loose ends and takes. How
/// the user listens (practice), which file is meant (recording) and what was found by ear stay as they are
/// now, and ids given out stay given out.
///
/// Ownership: holds the present as a shared const value; taking it is cheap and it never changes afterwards.
/// Of the steps it holds the differences, so that a long session stays small.
///
/// Threads: interface thread only; the studies it hands out may go to any thread.
class History {
public:
    /// A study just opened (saved) or just begun (not saved, so that closing asks).
    explicit History(Study opened, bool saved = true);

    const Study& present() const { return *now; }
    std::shared_ptr<const Study> shared() const { return now; }

    /// A new step named as the user would say it, "add note". What was undone is gone. Where the work stays
    /// the same there is no step, and this is replacePresent().
    void apply(const std::string& name, Study next);
    /// The last step with another outcome, so that a whole drag is one step: `next` starts from
    /// `beforeLastStep()`. What was undone is gone. Requires: canUndo().
    void amend(const Study& next);
    /// Another recording, practice or ear record, without a step. The work in `next` is not looked at.
    void replacePresent(const Study& next);

    bool canUndo() const { return done > 0; }
    bool canRedo() const { return done < steps.size(); }
    /// Names of the edits that undo() and redo() would take back or do again; empty where there is none.
    std::string undoName() const { return canUndo() ? steps[done - 1].name : std::string(); }
    std::string redoName() const { return canRedo() ? steps[done].name : std::string(); }
    /// Nothing happens where there is nothing to undo or redo.
    void undo();
    void redo();

    /// The study as undo() would make it. Requires: canUndo().
    Study beforeLastStep() const;

    /// This study, handed out by shared(), is on disk now; the present may have moved on while it was
    /// written.
    void markSaved(std::shared_ptr<const Study> written) { saved = std::move(written); }
    void markSaved() { markSaved(shared()); }
    /// True while the present holds the same work, recording and ear record as what is on disk, whether or
    /// not it was listened to in another way since, and after undoing back to it.
    bool isSaved() const;

private:
    struct Step {
        std::string name;
        StudyDifference difference;
    };

    void setPresent(Study next) { now = std::make_shared<const Study>(std::move(next)); }

    /// Never null.
    std::shared_ptr<const Study> now;
    /// The first `done` of them led to the present; the others were undone.
    std::vector<Step> steps;
    std::size_t done = 0;
    /// What is on disk; null if nothing is.
    std::shared_ptr<const Study> saved;
};

} // namespace earwright
