#include "core/study/History.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace earwright {

namespace {

/// `target` with what undo leaves alone taken from `present`.
Study withTheLastingOf(const Study& present, Study target) {
    target.recording = present.recording;
    target.practice = present.practice;
    target.earRecord = present.earRecord;
    target.nextId = std::max(target.nextId, present.nextId);
    return target;
}

bool isSameWork(const Study& a, Study b) {
    b.practice = a.practice;
    b.nextId = a.nextId;
    return a == b;
}

} // namespace

History::History(Study opened, bool isOnDisk)
    : steps{{"", std::make_shared<const Study>(std::move(opened))}} {
    if (isOnDisk) saved = shared();
}

void History::apply(const std::string& name, Study next) {
    if (next == present()) return;
    steps.resize(now + 1);
    steps.push_back({name, std::make_shared<const Study>(std::move(next))});
    ++now;
}

void History::amend(Study next) {
    assert(canUndo());
    steps.resize(now + 1);
    replacePresent(std::move(next));
}

void History::replacePresent(Study next) {
    steps[now].study = std::make_shared<const Study>(std::move(next));
}

void History::undo() {
    if (canUndo()) goTo(now - 1);
}

void History::redo() {
    if (canRedo()) goTo(now + 1);
}

const Study& History::beforeLastStep() const {
    assert(canUndo());
    return *steps[now - 1].study;
}

bool History::isSaved() const {
    return saved && (saved == steps[now].study || isSameWork(*saved, present()));
}

void History::goTo(std::size_t step) {
    Study target = withTheLastingOf(present(), *steps[step].study);
    if (target != *steps[step].study) steps[step].study = std::make_shared<const Study>(std::move(target));
    now = step;
}

} // namespace earwright
