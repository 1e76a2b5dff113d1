// Notes as they are tapped: when each key went down and came up, in the recording's time.
#pragma once

#include "core/study/FreePlaces.h"

#include <map>
#include <vector>

namespace earwright::ui {

/// Keeps one pass: what is tapped when a loop has gone round takes the place of the pass before.
/// Units: seconds of the recording. Threads: a value.
class TapBook {
public:
    /// A key went down; keys are told apart by any number. Ignored while that key is held.
    void press(int key, Seconds at, int midi);
    /// It came up; ignored where it was not held.
    void release(int key, Seconds at);
    void releaseAll(Seconds at);

    /// All notes begun so far; those still held end where they were last seen.
    const std::vector<FreeNote>& notes() const { return list; }
    bool isEmpty() const { return list.empty(); }

private:
    std::vector<FreeNote> list;
    /// Index into the list of what a key holds.
    std::map<int, std::size_t> held;
};

} // namespace earwright::ui
