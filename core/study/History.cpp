#include "core/study/History.h"

#include <algorithm>
#include <cassert>

namespace earwright {

History::History(Study opened, bool isOnDisk) : now(std::make_shared<const Study>(std::move(opened))) {
    if (isOnDisk) saved = now;
}

void History::apply(const std::string& name, Study next) {
    StudyDifference difference(*now, next);
    if (difference.isNothing()) return replacePresent(next);
    steps.erase(steps.begin() + static_cast<std::ptrdiff_t>(done), steps.end());
    steps.push_back({name, std::move(difference)});
    ++done;
    next.nextId = std::max(next.nextId, now->nextId);
    setPresent(std::move(next));
}

void History::amend(const Study& next) {
    assert(canUndo());
    const Study before = beforeLastStep();
    steps.erase(steps.begin() + static_cast<std::ptrdiff_t>(done), steps.end());
    steps.back().difference = StudyDifference(before, next);
    Study amended = steps.back().difference.redone(before);
    amended.nextId = std::max(next.nextId, now->nextId);
    setPresent(std::move(amended));
}

void History::replacePresent(const Study& next) {
    Study replaced = *now;
    replaced.recording = next.recording;
    replaced.practice = next.practice;
    replaced.earRecord = next.earRecord;
    setPresent(std::move(replaced));
}

void History::undo() {
    if (!canUndo()) return;
    setPresent(beforeLastStep());
    --done;
}

void History::redo() {
    if (!canRedo()) return;
    setPresent(steps[done].difference.redone(*now));
    ++done;
}

Study History::beforeLastStep() const {
    assert(canUndo());
    return steps[done - 1].difference.undone(*now);
}

bool History::isSaved() const {
    if (!saved || saved == now) return saved != nullptr;
    Study compared = *saved;
    compared.practice = now->practice;
    compared.nextId = now->nextId;
    return compared == *now;
}

} // namespace earwright
