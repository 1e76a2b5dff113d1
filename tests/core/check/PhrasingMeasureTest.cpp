#include "core/check/PhrasingMeasure.h"

#include "core/check/PhrasingMark.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <gtest/gtest.h>
#include <numbers>
#include <vector>

namespace earwright {
namespace {

using namespace tests;

/// Eight notes; one of them late, one soft.
struct PlayedLine {
    AnalysisSound sound{silence(Seconds(5)), {}};
    std::vector<PhrasingClaim> claims;
    static constexpr std::size_t late = 3, soft = 5;

    PlayedLine() {
        for (std::size_t i = 0; i < 8; ++i) {
            const Seconds written(1 + 0.3 * static_cast<double>(i));
            const Seconds played = i == late ? written + 0.03_s : written;
            const int midi = 60 + static_cast<int>(2 * i);
            claims.push_back({{written, written + 0.28_s}, midi, {}});
            addTone(sound.left, {played, written + 0.26_s}, midi, i == soft ? 0.05f : 0.2f);
        }
    }
    std::vector<NotePlaying> measured() const {
        return measurePhrasing(StereoViews(sound, {0.5_s, 4.0_s}), 0, claims);
    }
};

TEST(PhrasingMeasure, ReportsANoteBehindTheBeatAndNeverJudgesIt) {
    // Soloists play about 30 ms behind at medium tempo (studies of the Weimar Jazz Database).
    const auto notes = PlayedLine().measured();
    for (std::size_t i = 0; i < notes.size(); ++i) {
        ASSERT_TRUE(notes[i].begins) << i;
        // The steps are 2.5 ms and the attack lasts 6 ms.
        EXPECT_NEAR(notes[i].behind.value, i == PlayedLine::late ? 0.030 : 0.0, 0.008) << i;
    }
    EXPECT_TRUE(judgePhrasing({}, notes[PlayedLine::late]).written.empty());
    EXPECT_TRUE(judgePhrasing({}, notes[PlayedLine::late]).unwritten.empty());
}

TEST(PhrasingMeasure, HearsAGhostedNoteAndContradictsOneThatIsNot) {
    const auto notes = PlayedLine().measured();
    // A quarter of the amplitude is 12 dB less.
    ASSERT_TRUE(notes[PlayedLine::soft].loudnessDb);
    EXPECT_NEAR(*notes[PlayedLine::soft].loudnessDb, -12, 2.5);
    Phrasing ghosted;
    ghosted.ghosted = true;
    const MarkAnswer supported{PhrasingMark::Ghost, Verdict::Supported};
    const MarkAnswer contradicted{PhrasingMark::Ghost, Verdict::Contradicted};
    EXPECT_EQ(judgePhrasing(ghosted, notes[PlayedLine::soft]).written, std::vector{supported});
    EXPECT_EQ(judgePhrasing(ghosted, notes[2]).written, std::vector{contradicted});
    EXPECT_EQ(judgePhrasing({}, notes[PlayedLine::soft]).unwritten, std::vector{PhrasingMark::Ghost});
}

TEST(PhrasingMeasure, AnswersInTheOrderOfTheClaims) {
    PlayedLine line;
    const auto inOrder = line.measured();
    std::reverse(line.claims.begin(), line.claims.end());
    const auto reversed = line.measured();
    ASSERT_EQ(reversed.size(), inOrder.size());
    for (std::size_t i = 0; i < inOrder.size(); ++i)
        EXPECT_EQ(reversed[i].heard, inOrder[inOrder.size() - 1 - i].heard);
}

// The second of two equal pitches is begun anew or tied, and neither note of a double stop is slurred from
// the other (common practice).
TEST(PhrasingMeasure, AsksForASlurOnlyWhereANoteOfAnotherPitchLeadsUp) {
    AnalysisSound sound{silence(5.0_s), {}};
    std::vector<PhrasingClaim> claims;
    const auto play = [&](double onset, int midi) {
        claims.push_back({{Seconds(onset), Seconds(onset + 0.3)}, midi, {}});
        addTone(sound.left, {Seconds(onset), Seconds(onset + 0.28)}, midi);
    };
    play(1.0, 60);
    play(1.3, 62);
    play(1.6, 62);
    play(1.9, 66);
    play(1.9, 70);
    play(2.2, 67);
    play(2.8, 69);
    const auto notes = measurePhrasing(StereoViews(sound, {0.5_s, 4.0_s}), 0, claims);
    std::vector<bool> asked;
    for (const NotePlaying& note : notes) {
        EXPECT_TRUE(note.begins);
        asked.push_back(note.slurChance.has_value());
    }
    EXPECT_EQ(asked, (std::vector{false, true, false, true, false, true, false}));
}

/// A note of a second whose pitch moves as asked (semitones at a time since its start) between two still
/// ones, claimed at the pitch it starts with. The phase is the running sum of the frequency, so that the
/// pitch is known at every sample.
/// `written`: how long it is, at most a second.
NotePlaying heardBetweenOthers(int midi, const std::function<double(double)>& movement,
                               Seconds written = 1.0_s) {
    AnalysisSound sound{silence(4.0_s), {}};
    const Seconds next = 1.0_s + written;
    const std::vector<PhrasingClaim> claims{
        {{0.7_s, 1.0_s}, midi - 2, {}}, {{1.0_s, next}, midi, {}}, {{next, next + 0.5_s}, midi - 3, {}}};
    addTone(sound.left, {0.7_s, 0.97_s}, midi - 2);
    addTone(sound.left, {next, next + 0.4_s}, midi - 3);
    const double length = written.value - 0.03;
    const auto first = static_cast<std::size_t>(analysisRate.frames(1.0_s).value);
    const auto count = static_cast<std::size_t>(analysisRate.frames(Seconds(length)).value);
    double phase = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / analysisRate.hertz;
        phase += tests::hertzOf(midi + movement(t)) / analysisRate.hertz;
        const double level = 0.2 * std::min({1.0, t / 0.006, (length - t) / 0.02});
        for (int h = 1; h <= 10; ++h)
            sound.left[first + i] +=
                static_cast<float>(level / h * std::sin(2 * std::numbers::pi * h * phase));
    }
    return measurePhrasing(StereoViews(sound, {0.3_s, 3.0_s}), 0, claims)[1];
}

TEST(PhrasingMeasure, MeasuresATrillOverAWrittenNote) {
    // Six turns a second: within what trills are played at (5 to 8, common practice).
    for (const int midi : {52, 60, 69, 76})
        for (const int semitones : {1, 2, 3}) {
            const NotePlaying note = heardBetweenOthers(
                midi, [&](double t) { return std::fmod(t, 1 / 6.0) < 1 / 12.0 ? 0 : semitones; });
            EXPECT_NEAR(note.heard.length().value, 0.97, 0.06) << midi << " by " << semitones;
            ASSERT_TRUE(note.pitch.trill) << midi << " by " << semitones;
            EXPECT_NEAR(note.pitch.trill->semitones, semitones, 0.25) << midi;
            EXPECT_NEAR(note.pitch.trill->hertz, 6, 0.4) << midi;
        }
}

TEST(PhrasingMeasure, MeasuresABendOverAWrittenNote) {
    for (const int midi : {52, 60, 69, 76})
        for (const double semitones : {-1.0, 1.0, 2.0}) {
            const NotePlaying note = heardBetweenOthers(
                midi, [&](double t) { return semitones * std::clamp((t - 0.2) / 0.1, 0.0, 1.0); });
            EXPECT_NEAR(note.heard.length().value, 0.97, 0.06) << midi << " by " << semitones;
            ASSERT_TRUE(note.pitch.bendCents) << midi << " by " << semitones;
            EXPECT_NEAR(*note.pitch.bendCents, 100 * semitones, 15) << midi;
            EXPECT_FALSE(note.pitch.slideOut) << midi << " by " << semitones;
        }
}

Phrasing bendOf(int quarterTones) {
    Phrasing written;
    written.bend = Bend{quarterTones, BendShape::Up};
    return written;
}

Verdict answerTo(const Phrasing& written, const NotePlaying& playing) {
    return judgePhrasing(written, playing).written.front().verdict;
}

bool lists(PhrasingMark mark, const NotePlaying& playing) {
    const auto heard = judgePhrasing({}, playing).unwritten;
    return std::find(heard.begin(), heard.end(), mark) != heard.end();
}

TEST(PhrasingMeasure, NeverContradictsABendOfAShortNoteNorHearsItAsVibrato) {
    // Eighths to sixteenths at medium tempo; pulled up within a third of the note (common practice).
    for (const double length : {0.18, 0.25, 0.32, 0.4})
        for (const int semitones : {1, 2})
            for (const double start : {0.1, 0.25}) {
                const NotePlaying note = heardBetweenOthers(
                    64,
                    [&](double t) { return semitones * std::clamp((t / length - start) / 0.33, 0.0, 1.0); },
                    Seconds(length));
                EXPECT_NE(answerTo(bendOf(2 * semitones), note), Verdict::Contradicted)
                    << length << " by " << semitones << " from " << start;
                EXPECT_FALSE(note.pitch.vibrato) << length << " by " << semitones << " from " << start;
                EXPECT_FALSE(note.pitch.slideIn) << length << " by " << semitones << " from " << start;
            }
}

TEST(PhrasingMeasure, HearsVibratoFromTwentyToSixtyCentsAndNoTrillOrBendInIt) {
    // Five to seven a second (J. Sundberg, "The Science of the Singing Voice", 1987).
    for (const double hertz : {5.0, 6.0, 7.0})
        for (const double depth : {0.2, 0.4, 0.6}) {
            const NotePlaying note = heardBetweenOthers(
                67, [&](double t) { return depth * std::sin(2 * std::numbers::pi * hertz * t); }, 0.6_s);
            ASSERT_TRUE(note.pitch.vibrato) << hertz << " by " << depth;
            EXPECT_NEAR(note.pitch.vibrato->hertz, hertz, 0.5) << depth;
            EXPECT_FALSE(note.pitch.trill) << hertz << " by " << depth;
            EXPECT_FALSE(note.pitch.bendCents) << hertz << " by " << depth;
        }
}

TEST(PhrasingMeasure, HearsABendAndTheVibratoAtItsTop) {
    for (const int semitones : {1, 2}) {
        const NotePlaying note = heardBetweenOthers(62, [&](double t) {
            const double shaken = t > 0.3 ? 0.35 * std::sin(2 * std::numbers::pi * 5.5 * (t - 0.3)) : 0;
            return semitones * std::clamp((t - 0.12) / 0.16, 0.0, 1.0) + shaken;
        });
        Phrasing written = bendOf(2 * semitones);
        written.vibrato = true;
        for (const MarkAnswer& answer : judgePhrasing(written, note).written)
            EXPECT_EQ(answer.verdict, Verdict::Supported) << toString(answer.mark) << " by " << semitones;
    }
}

TEST(PhrasingMeasure, TellsASlideToTheNextNoteFromALeap) {
    Phrasing slides;
    slides.slidesToNext = true;
    // Down to the next note, three semitones below, in the last 90 ms.
    const NotePlaying slid = heardBetweenOthers(
        66, [](double t) { return -3 * std::clamp((t - 0.4) / 0.09, 0.0, 1.0); }, 0.5_s);
    const NotePlaying leapt = heardBetweenOthers(
        66, [](double) { return 0; }, 0.5_s);
    EXPECT_EQ(answerTo(slides, slid), Verdict::Supported);
    EXPECT_EQ(answerTo(slides, leapt), Verdict::Contradicted);
    EXPECT_TRUE(lists(PhrasingMark::SlideToNext, slid));
    EXPECT_FALSE(lists(PhrasingMark::SlideOut, slid)) << "it is the same slide";
    EXPECT_FALSE(lists(PhrasingMark::SlideToNext, leapt));
}

TEST(PhrasingMeasure, EndsANoteThatStopsEarlyThoughItIsWrittenLong) {
    AnalysisSound sound{silence(4.0_s), {}};
    addTone(sound.left, {1.0_s, 1.3_s}, 64);
    addTone(sound.left, {2.0_s, 2.4_s}, 62);
    const auto notes = measurePhrasing(StereoViews(sound, {0.3_s, 3.0_s}), 0,
                                       {{{1.0_s, 2.0_s}, 64, {}}, {{2.0_s, 2.5_s}, 62, {}}});
    // Its release takes 20 ms, the window 23 ms.
    EXPECT_NEAR(notes[0].heard.end.value, 1.3, 0.035);
}

} // namespace
} // namespace earwright
