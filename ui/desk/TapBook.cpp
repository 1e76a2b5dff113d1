#include "ui/desk/TapBook.h"

#include <algorithm>

namespace earwright::ui {

namespace {

/// Further back than any two keys are out of order: the loop has gone round.
constexpr Seconds backwards{0.2};
/// As long as a note that ended in another pass, or at once, is taken to be.
constexpr Seconds shortest{0.05};
/// Nobody plays one pitch twice as fast: the key bounced, or the record stands still.
constexpr Seconds fastest{0.01};

} // namespace

void TapBook::press(int key, Seconds at, int midi) {
    if (held.contains(key)) return;
    if (!list.empty() && at < list.back().held.begin - backwards) {
        list.clear();
        held.clear();
    }
    const bool isTwice = std::any_of(list.begin(), list.end(), [&](const FreeNote& note) {
        return note.midi == midi && note.held.begin <= at && at - note.held.begin < fastest;
    });
    if (isTwice) return;
    held[key] = list.size();
    list.push_back({{at, at + shortest}, midi});
}

void TapBook::release(int key, Seconds at) {
    const auto found = held.find(key);
    if (found == held.end()) return;
    FreeNote& note = list[found->second];
    if (at > note.held.end) note.held.end = at;
    held.erase(found);
}

void TapBook::releaseAll(Seconds at) {
    while (!held.empty())
        release(held.begin()->first, at);
}

} // namespace earwright::ui
