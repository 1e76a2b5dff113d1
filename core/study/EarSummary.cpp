#include "core/study/EarSummary.h"

#include <algorithm>
#include <cstdlib>

namespace earwright {

namespace {

void add(EarCount& count, const FoundNote& note) {
    ++(note.isUnaided() ? count.unaided : count.helped);
}

} // namespace

Day periodOf(Day day, EarPeriod period) {
    using namespace std::chrono;
    if (period == EarPeriod::Week) return day - (weekday(day) - Monday);
    const year_month_day date(day);
    return sys_days(date.year() / date.month() / 1);
}

EarSummary summaryOf(const EarRecord& record, EarPeriod period) {
    EarSummary summary;
    for (const PhraseRecord& phrase : record.phrases)
        for (const FoundNote& note : phrase.found) {
            add(summary.all, note);
            add(summary.byPeriod[periodOf(note.day, period)], note);
            if (note.interval)
                add(summary.byInterval[std::min(std::abs(*note.interval), EarSummary::wider)], note);
            add(summary.byMistake[note.mistake], note);
        }
    return summary;
}

} // namespace earwright
