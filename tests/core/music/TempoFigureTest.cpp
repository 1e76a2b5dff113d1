// The figure a tempo is shown in.
#include "core/music/TempoFigure.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

/// As a MIDI file keeps it: in whole microseconds a quarter (Standard MIDI Files 1.0).
double keptInMidi(double quartersPerMinute) {
    return 60e6 / std::round(60e6 / quartersPerMinute);
}

TEST(TempoFigure, ShowsWhatWasMeasuredInWholeBeats) {
    EXPECT_EQ(tempoFigure(136.387), "136");
    EXPECT_EQ(tempoFigure(59.51), "60");
    EXPECT_EQ(tempoFigure(60e6 / 439'925), "136") << "136.38689...";
    EXPECT_EQ(tempoFigure(200.0 / 3), "67") << "a hundred quarters a minute, counted in dotted ones";
}

TEST(TempoFigure, KeepsTheTenthThatSomebodyStated) {
    EXPECT_EQ(tempoFigure(96.5), "96.5");
    EXPECT_EQ(tempoFigure(131.6), "131.6");
    EXPECT_EQ(tempoFigure(9.9), "9.9");
    EXPECT_EQ(tempoFigure(600), "600");
}

TEST(TempoFigure, SaysAllOfATempoThatSomebodyStated) {
    EXPECT_TRUE(isTempoOfFigure(96.5));
    EXPECT_TRUE(isTempoOfFigure(keptInMidi(139)));
    EXPECT_FALSE(isTempoOfFigure(136.387));
    EXPECT_FALSE(isTempoOfFigure(200.0 / 3));
}

TEST(TempoFigure, SaysATempoOfAMidiFileAsItWasStatedThere) {
    for (int tenths = 100; tenths <= 6000; ++tenths)
        EXPECT_EQ(tempoFigure(keptInMidi(tenths / 10.0)), tempoFigure(tenths / 10.0)) << tenths;
}

} // namespace
} // namespace earwright
