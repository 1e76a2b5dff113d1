// Undo and redo as a list of studies, each step with the name of the edit that led to it.
#pragma once

#include "core/study/Study.h"

#include <cstddef>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace earwright {

/// The study as it is now, everything it was before, and what was undone.
///
/// Undo takes back the work: title, meter, marks, chords, spans, notes, divisions and loose ends. It leaves
/// how the user listens (practice), which file is meant (recording) and what was found by ear as they are
/// now, and ids given out stay given out.
///
/// Ownership: holds its studies as shared const values; taking one is cheap and it never changes afterwards.
///
/// Threads: interface thread only; the studies it hands out may go to any thread.
class History {
public:
    /// A study just opened (saved) or just begun (not saved, so that closing asks).
    explicit History(Study opened, bool saved = true);

    const Study& present() const { return *steps[now].study; }
    std::shared_ptr<const Study> shared() const { return steps[now].study; }

    /// A new step named as the user would say it, "add note". What was undone is gone. An edit that changes
    /// nothing makes no step.
    void apply(const std::string& name, Study next);
    /// The last step with another outcome, so that a whole drag is one step; the study before it is
    /// `beforeLastStep()`. Requires: canUndo().
    void amend(Study next);
    /// Another present without a step, for what undo leaves alone.
    void replacePresent(Study next);

    bool canUndo() const { return now > 0; }
    bool canRedo() const { return now + 1 < steps.size(); }
    /// Names of the edits that undo() and redo() would take back or do again; empty where there is none.
    std::string undoName() const { return canUndo() ? steps[now].name : std::string(); }
    std::string redoName() const { return canRedo() ? steps[now + 1].name : std::string(); }
    /// Nothing happens where there is nothing to undo or redo.
    void undo();
    void redo();

    /// Requires: canUndo().
    const Study& beforeLastStep() const;

    /// This study, handed out by shared(), is on disk now; the present may have moved on while it was
    /// written.
    void markSaved(std::shared_ptr<const Study> written) { saved = std::move(written); }
    void markSaved() { markSaved(shared()); }
    /// True while the present holds the same work as what is on disk, whether or not it was listened to in
    /// another way since, and after undoing back to it.
    bool isSaved() const;

private:
    struct Step {
        std::string name;
        std::shared_ptr<const Study> study;
    };

    void goTo(std::size_t step);

    std::vector<Step> steps;
    std::size_t now = 0;
    /// What is on disk; null if nothing is.
    std::shared_ptr<const Study> saved;
};

} // namespace earwright
