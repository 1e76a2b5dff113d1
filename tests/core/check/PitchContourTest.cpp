#include "core/check/PitchContour.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr Range<Seconds> note{Seconds(1), Seconds(1.5)};

/// What sounds from 0.1 s before the note to 0.05 s after it, by the time since its onset; the note before
/// and the next one are five semitones higher. Clear throughout unless told otherwise.
std::vector<ContourPoint> contour(const std::function<double(double)>& cents, double clarity = 0.8) {
    std::vector<ContourPoint> points;
    for (Seconds time = note.begin - Seconds(0.1); time < note.end + Seconds(0.05);
         time += PitchTrace::step) {
        const double since = (time - note.begin).value;
        const bool isOwn = since >= -0.001 && time < note.end;
        points.push_back({time, isOwn ? cents(since) : 500, clarity});
    }
    return points;
}

double held(double) {
    return 8;
}

/// 60 ms on each tone, then the written pitch.
std::function<double(double)> figure(std::vector<double> cents) {
    return [cents](double since) {
        const auto at = static_cast<std::size_t>(since / 0.06);
        return at < cents.size() ? cents[at] : 0.0;
    };
}

TEST(PitchContour, SupportsAScoopAFallATurnAndAMordentByTheirShape) {
    // From about a semitone below within a seventh of a second; far down at the end (common practice).
    const auto scooped = contour([](double t) { return -100 * std::max(0.0, 1 - t / 0.12); });
    EXPECT_EQ(scoopVerdict(scooped, note), Verdict::Supported);
    const auto fallen = contour([](double t) { return t < 0.3 ? 0 : -400 * std::pow((t - 0.3) / 0.2, 1.5); });
    EXPECT_EQ(fallVerdict(fallen, note, true), Verdict::Supported);
    // The figures of the common practice: a turn goes round its note, a mordent touches one neighbour.
    const auto fromAbove = contour(figure({200, 0, -100, 0}));
    const auto fromBelow = contour(figure({-100, 0, 200, 0}));
    EXPECT_EQ(turnVerdict(Turn::FromAbove, fromAbove, note), Verdict::Supported);
    EXPECT_EQ(turnVerdict(Turn::FromBelow, fromBelow, note), Verdict::Supported);
    EXPECT_EQ(mordentVerdict(Mordent::Upper, contour(figure({0, 200, 0})), note), Verdict::Supported);
    EXPECT_EQ(mordentVerdict(Mordent::Lower, contour(figure({0, -100, 0})), note), Verdict::Supported);
}

TEST(PitchContour, DoesNotSupportATurnThatDoesNotComeBackToItsNote) {
    for (const double after : {-100.0, 100.0, 500.0}) {
        std::vector<double> cents(9, after);
        cents[0] = 200;
        cents[1] = 0;
        cents[2] = -100;
        EXPECT_EQ(turnVerdict(Turn::FromAbove, contour(figure(cents)), note), Verdict::Unclear) << after;
        cents[3] = 0;
        EXPECT_EQ(turnVerdict(Turn::FromAbove, contour(figure(cents)), note), Verdict::Supported) << after;
    }
}

TEST(PitchContour, SupportsATurnInANoteSoShortThatItsLastToneEndsIt) {
    // Five tones of 30 ms: an eighth at 200 to the minute.
    const std::vector<double> tones{0, 200, 0, -100, 0};
    const auto quick = contour([&](double since) {
        const auto at = static_cast<std::size_t>(since / 0.03);
        return at < tones.size() ? tones[at] : 0.0;
    });
    EXPECT_EQ(turnVerdict(Turn::FromAbove, quick, {note.begin, note.begin + Seconds(0.15)}),
              Verdict::Supported);
}

TEST(PitchContour, ContradictsThemAllWhereThePitchIsClearAndHeld) {
    const auto plain = contour(held);
    EXPECT_EQ(scoopVerdict(plain, note), Verdict::Contradicted);
    for (const bool isFollowed : {true, false})
        EXPECT_EQ(fallVerdict(contour(held), {note.begin, note.end - Seconds(0.06)}, isFollowed),
                  Verdict::Contradicted);
    for (const Turn turn : {Turn::FromAbove, Turn::FromBelow})
        EXPECT_EQ(turnVerdict(turn, plain, note), Verdict::Contradicted);
    for (const Mordent mordent : {Mordent::Upper, Mordent::Lower})
        EXPECT_EQ(mordentVerdict(mordent, plain, note), Verdict::Contradicted);
    EXPECT_EQ(bendVerdict({4, BendShape::Up}, plain, note), Verdict::Contradicted);
    EXPECT_TRUE(standsStill(plain, note));
}

TEST(PitchContour, IsUnclearWhereThePitchIsNotClearOrMovesInAnotherWay) {
    const auto faint = contour(held, 0.1);
    const auto elsewhere = contour(figure({0, -100, 0}));
    for (const auto& points : {faint, std::vector<ContourPoint>{}}) {
        EXPECT_EQ(scoopVerdict(points, note), Verdict::Unclear);
        EXPECT_EQ(fallVerdict(points, note, true), Verdict::Unclear);
        EXPECT_EQ(bendVerdict({4, BendShape::Up}, points, note), Verdict::Unclear);
        EXPECT_FALSE(standsStill(points, note));
    }
    EXPECT_EQ(turnVerdict(Turn::FromAbove, elsewhere, note), Verdict::Unclear);
    EXPECT_EQ(mordentVerdict(Mordent::Upper, elsewhere, note), Verdict::Unclear);
    EXPECT_EQ(bendVerdict({4, BendShape::PrebentDown}, contour(held), note), Verdict::Unclear);
}

TEST(PitchContour, SupportsABendOfItsSizeThatIsReachedWithoutALeap) {
    const auto bent = contour([](double t) { return 200 * std::clamp((t - 0.1) / 0.12, 0.0, 1.0); });
    EXPECT_EQ(bendVerdict({4, BendShape::Up}, bent, note), Verdict::Supported);
    EXPECT_EQ(bendVerdict({2, BendShape::Up}, bent, note), Verdict::Unclear);
    const auto leapt = contour([](double t) { return t < 0.1 ? 0.0 : 200.0; });
    EXPECT_EQ(bendVerdict({4, BendShape::Up}, leapt, note), Verdict::Unclear);
}

TEST(PitchContour, MeasuresTheWayToTheNextNote) {
    const auto way = [](const std::function<double(double)>& cents) {
        std::vector<ContourPoint> points;
        for (Seconds time(0); time < Seconds(0.2); time += PitchTrace::step)
            points.push_back({time, cents(time.value), 0.8});
        return wayToNext(points, 3);
    };
    const WayToNext slid = way([](double t) { return 300 * std::clamp((t - 0.05) / 0.1, 0.0, 1.0); });
    // Three fifths of the 100 ms, in steps of 5.
    EXPECT_NEAR(slid.between.value, 0.06, 0.006);
    // Up to a step, a twentieth of the way, is missed at either end.
    EXPECT_NEAR(slid.share, 0.6, 0.101);
    EXPECT_EQ(slideToNextVerdict(slid), Verdict::Supported);
    EXPECT_TRUE(surelySlides(slid));
    const WayToNext leapt = way([](double t) { return t < 0.1 ? 0.0 : 300.0; });
    EXPECT_EQ(slideToNextVerdict(leapt), Verdict::Contradicted);
    EXPECT_EQ(slideToNextVerdict(way([](double) { return 0.0; })), Verdict::Unclear) << "no next note heard";
    // A scoop of a semitone into a note three above is the last third of the way.
    const WayToNext scooped =
        way([](double t) { return t < 0.1 ? 0.0 : 300 - 100 * std::max(0.0, 1 - (t - 0.1) / 0.08); });
    EXPECT_EQ(slideToNextVerdict(scooped), Verdict::Unclear);
    EXPECT_FALSE(surelySlides(scooped));
    EXPECT_EQ(slideToNextVerdict(std::nullopt), Verdict::Unclear);
    EXPECT_EQ(slideToNextVerdict(WayToNext{1, Seconds(0), 0, true}), Verdict::Unclear)
        << "a semitone is soon crossed";
}

} // namespace
} // namespace earwright
