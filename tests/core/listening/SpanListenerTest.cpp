#include "core/listening/SpanListener.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

using namespace tests;

TEST(SpanListener, HearsASpanAlikeWhicheverWasHeardBeforeIt) {
    AnalysisSound sound;
    sound.left = silence(5.0_s);
    const Range<Seconds> first{1.0_s, 1.3_s};
    const Range<Seconds> second{3.0_s, 3.3_s};
    addTone(sound.left, first, 60);
    addTone(sound.left, second, 64);
    const StereoViews views(sound, {0.0_s, 5.0_s});
    // From one to the other it drifts by so little that the axis would stay where the first one put it.
    const TuningCurve curve(0, 1.0_s, {0, 0.26, 0.3, 0.4, 0.4, 0.4});
    SpanListener listener(views, curve);
    const PitchRow alone = listener.hear(second, {0}).front().row;
    for (int again = 0; again < 2; ++again) {
        listener.hear(first, {0});
        EXPECT_EQ(listener.hear(second, {0}).front().row.log, alone.log);
    }
    SpanListener other(views, curve);
    other.hear(first, {0});
    EXPECT_EQ(other.hear(second, {0}).front().row.log, alone.log);
    EXPECT_EQ(alone.best(), 64u - lowestHeardMidi);
}

} // namespace
} // namespace earwright
