// What repeats say at one bar.
#pragma once

#include "core/music/PageMarks.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// The bracket over a bar that stands under an ending.
struct EndingPart {
    /// "1.", "1.–3."; said where the bracket begins.
    std::string number;
    bool begins = false;
    bool ends = false;
    /// It is closed with a hook: the music turns back there. The last ending goes on, open.
    bool isClosed = false;
    friend bool operator==(const EndingPart&, const EndingPart&) = default;
};

struct RepeatSigns {
    bool opens = false;
    bool closes = false;
    /// How often it is played, where that is more than twice and no ending says so; else 0.
    int saidTimes = 0;
    std::optional<EndingPart> ending;
    friend bool operator==(const RepeatSigns&, const RepeatSigns&) = default;
};

/// The last ending is as long as the first, and ends before the next repeat begins. Threads: any.
RepeatSigns repeatSignsAt(const std::vector<Repeat>& repeats, std::int64_t bar);

} // namespace earwright
