#include "core/study/Order.h"

#include <algorithm>

namespace earwright {

namespace {

template <class List>
void sortByPlace(List& list) {
    std::stable_sort(list.begin(), list.end(),
                     [](const auto& a, const auto& b) { return comesBefore(a, b); });
}

} // namespace

bool comesBefore(const Note& a, const Note& b) {
    if (a.onset != b.onset) return a.onset < b.onset;
    return a.pitch.midi < b.pitch.midi;
}

bool comesBefore(const Span& a, const Span& b) {
    if (a.range.begin != b.range.begin) return a.range.begin < b.range.begin;
    return a.range.end > b.range.end;
}

bool comesBefore(const LooseEnd& a, const LooseEnd& b) {
    return a.time < b.time;
}

void sortLists(Study& study) {
    sortByPlace(study.notes);
    sortByPlace(study.spans);
    sortByPlace(study.looseEnds);
}

} // namespace earwright
