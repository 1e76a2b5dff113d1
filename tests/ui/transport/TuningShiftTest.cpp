#include "ui/transport/TuningShift.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(TuningShift, RaisesAFlatRecordToTheReference) {
    EXPECT_EQ(TuningShift::between(-12.3, {440}), (TuningShift{0, 12}));
    EXPECT_EQ(TuningShift::between(31.0, {440}), (TuningShift{0, -31}));
}

// ISO 16 sets A to 440 Hz; 442 Hz lies 1200·log2(442/440) = 7.85 cents above it, 415 Hz 101.3 below.
TEST(TuningShift, TakesTheUsersOwnReference) {
    EXPECT_EQ(TuningShift::between(0.0, {442}), (TuningShift{0, 8}));
    EXPECT_EQ(TuningShift::between(-12.0, {442}), (TuningShift{0, 20}));
    EXPECT_EQ(TuningShift::between(8.0, {442}), TuningShift());
}

TEST(TuningShift, CarriesMoreThanASemitoneOver) {
    const TuningShift down = TuningShift::between(30.0, {415});
    EXPECT_EQ(down, (TuningShift{-1, -31}));
    EXPECT_EQ(down.total(), -131);
    EXPECT_EQ(TuningShift::between(-30.0, {466}).total(), 129);
}

TEST(TuningShift, LeavesARecordAloneThatIsOffByNoMoreThanAnEstimate) {
    EXPECT_EQ(TuningShift::between(1.9, {440}), TuningShift());
    EXPECT_EQ(TuningShift::between(-1.9, {440}), TuningShift());
}

} // namespace
} // namespace earwright::ui
