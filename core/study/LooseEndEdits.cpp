#include "core/study/LooseEndEdits.h"

#include "core/study/Limits.h"
#include "core/study/Order.h"

#include <cassert>

namespace earwright {

StudyWithLooseEnd addLooseEnd(const Study& study, Seconds time, const std::string& text) {
    assert(isWithinLimits(time));
    StudyWithLooseEnd edited{study, LooseEndId{study.nextId}};
    ++edited.study.nextId;
    edited.study.looseEnds.push_back({edited.id, time, text, false});
    sortLists(edited.study);
    return edited;
}

Study retextLooseEnd(const Study& study, LooseEndId id, const std::string& text) {
    Study edited = study;
    for (LooseEnd& looseEnd : edited.looseEnds)
        if (looseEnd.id == id) looseEnd.text = text;
    return edited;
}

Study setLooseEndDone(const Study& study, LooseEndId id, bool done) {
    Study edited = study;
    for (LooseEnd& looseEnd : edited.looseEnds)
        if (looseEnd.id == id) looseEnd.done = done;
    return edited;
}

Study removeLooseEnd(const Study& study, LooseEndId id) {
    Study edited = study;
    std::erase_if(edited.looseEnds, [&](const LooseEnd& looseEnd) { return looseEnd.id == id; });
    return edited;
}

const LooseEnd* nextOpenLooseEnd(const Study& study, Seconds after) {
    const LooseEnd* first = nullptr;
    for (const LooseEnd& looseEnd : study.looseEnds) {
        if (looseEnd.done) continue;
        if (looseEnd.time > after) return &looseEnd;
        if (!first) first = &looseEnd;
    }
    return first;
}

} // namespace earwright
