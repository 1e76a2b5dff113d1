// What was found by ear and what with help, place by place; the study keeps it so that practice shows.
#pragma once

#include "core/music/Span.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// How much of the hint ladder was opened for a place.
enum class HelpStep { None = 0, SomethingOff = 1, WhichWay = 2, HowFar = 3, ShowIt = 4 };

/// A place that a check found contradicted or unwritten, or for which help was opened, and what became of it.
struct EarPlace {
    Seconds time;
    HelpStep help = HelpStep::None;
    /// A later check of the phrase supports what is written there now.
    bool settled = false;
    /// When last found wanting, a sound with no note; otherwise a written note that was contradicted.
    bool unwritten = false;
    friend bool operator==(const EarPlace&, const EarPlace&) = default;

    /// Contradicted or unwritten before, supported now, and no step of the ladder opened for it.
    bool foundByEar() const { return settled && help == HelpStep::None; }
};

/// What the checks of one phrase have found so far. Edits before its first check don't count: there is no
/// entry until then.
struct PhraseRecord {
    SpanId phrase;
    std::vector<EarPlace> places;
    friend bool operator==(const PhraseRecord&, const PhraseRecord&) = default;
};

struct EarRecord {
    std::vector<PhraseRecord> phrases;
    friend bool operator==(const EarRecord&, const EarRecord&) = default;
    int foundByEar() const;
    int foundWithHelp() const;
};

} // namespace earwright
