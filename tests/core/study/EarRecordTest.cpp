#include "core/study/EarRecord.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(EarRecord, CountsWhatIsSettledApartByWhetherHelpWasOpened) {
    EarRecord record;
    record.phrases.push_back({SpanId{1},
                              {{Seconds(1), HelpStep::None, true},
                               {Seconds(2), HelpStep::SomethingOff, true},
                               {Seconds(3), HelpStep::None, false}}});
    record.phrases.push_back(
        {SpanId{2}, {{Seconds(4), HelpStep::None, true}, {Seconds(5), HelpStep::ShowIt, false}}});
    EXPECT_EQ(record.foundByEar(), 2);
    EXPECT_EQ(record.foundWithHelp(), 1);
}

} // namespace
} // namespace earwright
