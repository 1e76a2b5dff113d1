// What stands over a passage of bars: its meter, its key, how it swings, its tempo in words, its repeat.
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <cstdint>
#include <optional>
#include <string>

namespace earwright {

/// A tempo as the page states it; both empty for none.
struct StatedTempo {
    std::string words;
    /// Quarters a minute, 10 to 600.
    std::optional<double> quartersPerMinute;
    friend bool operator==(const StatedTempo&, const StatedTempo&) = default;
};

/// How often a passage is played on the page; once for no repeat.
struct StatedRepeat {
    int times = 1;
    int endingBars = 0;
    friend bool operator==(const StatedRepeat&, const StatedRepeat&) = default;
};

/// How long the pickup is on the page; nothing for as long as its notes need.
struct StatedPickup {
    std::optional<Beats> length;
    friend bool operator==(const StatedPickup&, const StatedPickup&) = default;
};

/// Only what is given changes.
struct PassageChange {
    std::int64_t firstBar = 1;
    /// So many bars, behind which goes on what stood there before; without it, up to the next change.
    std::optional<std::int64_t> bars;
    std::optional<Meter> meter;
    std::optional<KeySignature> key;
    std::optional<Swing> swing;
    std::optional<StatedTempo> tempo;
    std::optional<StatedRepeat> repeat;
    /// Wherever the passage is.
    std::optional<StatedPickup> pickup;
};

/// All of it as one edit. Meters as changeMeter() sets them: everything stays with the sound. A repeat
/// changes what the page shows and never when anything sounds: a solo is written as it was played through.
///
/// Error: OutOfRange, with a sentence, for what a page cannot say.
Result<Study> changePassage(const Study& study, const PassageChange& change);

} // namespace earwright
