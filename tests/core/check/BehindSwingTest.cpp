#include "core/check/BehindSwing.h"

#include "core/study/PlayedTime.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

/// Half a second a beat: nine eighths, written evenly.
Study eighths() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
    for (int i = 0; i < 9; ++i)
        study.notes.push_back({NoteId{static_cast<std::uint64_t>(i + 1)},
                               Beats(i, 2),
                               Beats(1, 2),
                               Pitch{60 + i, {}},
                               0.6,
                               {}});
    return study;
}

/// As heard where the first of each pair lasts `ratio` times the second.
PlayedNotes playedAt(const Study& study, double ratio) {
    PlayedNotes played;
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
        const Note& note = study.notes[i];
        const double share = i % 2 == 0 ? 0 : ratio / (1 + ratio);
        const Seconds begin(0.5 * (static_cast<double>(i / 2) + share));
        played[note.id] = {playedTime(study, note.range()), note.pitch.midi, {begin, begin + Seconds(0.1)}};
    }
    return played;
}

std::optional<Seconds> behindAt(double ratio, std::size_t note, Study study = eighths()) {
    return swungBehind(study, study.notes, study.notes[note], playedAt(study, ratio));
}

TEST(BehindSwing, PutsTheSecondEighthWhereTheLineSwingsIt) {
    ASSERT_TRUE(behindAt(2, 3));
    EXPECT_NEAR(behindAt(2, 3)->value, 0.5 / 6, 1e-9) << "two thirds of half a second, less a half of it";
    EXPECT_FALSE(behindAt(2, 2)) << "it is on the beat";
}

TEST(BehindSwing, TakesALineForSwungFromAboutASixthOn) {
    EXPECT_FALSE(behindAt(1.16, 3));
    ASSERT_TRUE(behindAt(1.18, 3));
    EXPECT_NEAR(behindAt(1.18, 3)->value, 0.5 * (1.18 / 2.18 - 0.5), 1e-9);
}

TEST(BehindSwing, SaysNothingWhereThePageSwingsOrTooLittleIsHeard) {
    Study study = eighths();
    study.page.swings.push_back({Beats(0), Swing{2, 8}});
    EXPECT_FALSE(behindAt(2, 3, study));
    const Study even = eighths();
    PlayedNotes few = playedAt(even, 2);
    few.erase(even.notes[0].id);
    EXPECT_FALSE(swungBehind(even, even.notes, even.notes[3], few)) << "three pairs";
}

} // namespace
} // namespace earwright
