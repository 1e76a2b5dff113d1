// The record of found notes, counted over time, by interval and by first mistake.
#pragma once

#include "core/study/EarRecord.h"

#include <array>
#include <map>
#include <optional>

namespace earwright {

/// Notes that were found.
struct EarCount {
    int unaided = 0;
    int helped = 0;
    int all() const { return unaided + helped; }
    friend bool operator==(const EarCount&, const EarCount&) = default;
};

/// How days are taken together: from Monday (ISO 8601) or from the first of the month.
enum class EarPeriod { Week, Month };

/// Only what was found is in it; groups without a note are left out.
struct EarSummary {
    EarCount all;
    /// By the first day of each period.
    std::map<Day, EarCount> byPeriod;
    /// By semitones from the note before, up or down alike; what is wider than an octave under `wider`. Notes
    /// that begin a phrase are in none.
    std::map<int, EarCount> byInterval;
    /// Key for what was right at once: nothing.
    std::map<std::optional<Mistake>, EarCount> byMistake;
    friend bool operator==(const EarSummary&, const EarSummary&) = default;

    static constexpr int wider = 13;
};

/// The first day of the period a day lies in.
Day periodOf(Day day, EarPeriod period);

/// A pure function.
EarSummary summaryOf(const EarRecord& record, EarPeriod period);

} // namespace earwright
