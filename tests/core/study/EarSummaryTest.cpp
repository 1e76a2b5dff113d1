#include "core/study/EarSummary.h"

#include "core/study/DayText.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

Day on(const char* text) {
    return *dayFrom(text);
}

FoundNote found(const char* day, HelpStep help, std::optional<int> interval,
                std::optional<Mistake> mistake = std::nullopt) {
    return {Seconds(1), NoteId{1}, on(day), help, interval, mistake};
}

EarRecord sample() {
    EarRecord record;
    record.phrases = {{SpanId{1},
                       {{Seconds(9), HelpStep::ShowIt, false, false, Mistake::Octave, NoteId{9}}},
                       {found("2031-05-05", HelpStep::None, std::nullopt),
                        found("2031-05-11", HelpStep::WhichWay, -3, Mistake::Semitone)}},
                      {SpanId{2},
                       {},
                       {found("2031-05-12", HelpStep::None, 3, Mistake::Octave),
                        found("2031-06-01", HelpStep::SomethingOff, 19, Mistake::Missing)}}};
    return record;
}

TEST(EarSummary, CountsWhatWasFoundUnaidedAndWithHelp) {
    const EarSummary summary = summaryOf(sample(), EarPeriod::Week);
    EXPECT_EQ(summary.all, (EarCount{2, 2}));
    EXPECT_EQ(summaryOf({}, EarPeriod::Week), EarSummary{});
}

TEST(EarSummary, TakesDaysTogetherFromMondayOrFromTheFirst) {
    // 5 May 2031 is a Monday: 1 January 2000 was a Saturday, and 11,447 days later, 11,447 = 7 · 1,635 + 2,
    // it is two weekdays on. Weeks begin on Monday (ISO 8601).
    EXPECT_EQ((on("2031-05-05") - on("2000-01-01")).count(), 11447);
    const EarSummary weeks = summaryOf(sample(), EarPeriod::Week);
    EXPECT_EQ(weeks.byPeriod,
              (std::map<Day, EarCount>{
                  {on("2031-05-05"), {1, 1}}, {on("2031-05-12"), {1, 0}}, {on("2031-05-26"), {0, 1}}}));
    const EarSummary months = summaryOf(sample(), EarPeriod::Month);
    EXPECT_EQ(months.byPeriod,
              (std::map<Day, EarCount>{{on("2031-05-01"), {2, 1}}, {on("2031-06-01"), {0, 1}}}));
}

TEST(EarSummary, TakesIntervalsTogetherUpAndDownAndTheWideOnes) {
    const EarSummary summary = summaryOf(sample(), EarPeriod::Month);
    EXPECT_EQ(summary.byInterval, (std::map<int, EarCount>{{3, {1, 1}}, {EarSummary::wider, {0, 1}}}));
}

TEST(EarSummary, CountsByWhatWasOffFirstAndNothingThatIsStillOpen) {
    const EarSummary summary = summaryOf(sample(), EarPeriod::Month);
    EXPECT_EQ(summary.byMistake, (std::map<std::optional<Mistake>, EarCount>{{std::nullopt, {1, 0}},
                                                                             {Mistake::Octave, {1, 0}},
                                                                             {Mistake::Semitone, {0, 1}},
                                                                             {Mistake::Missing, {0, 1}}}));
}

TEST(DayText, WritesAndReadsDaysOfTheCalendar) {
    EXPECT_EQ(dayText(on("2032-02-29")), "2032-02-29");
    for (const char* text : {"", "2031-02-29", "2031-13-01", "2031-5-4", "2031/05/04", "0000-01-01",
                             "2031-05-00", "2031-0--04", "-031-05-04", "2031-05-04T"})
        EXPECT_EQ(dayFrom(text), std::nullopt) << text;
}

} // namespace
} // namespace earwright
