#include "core/listening/HearingAhead.h"

#include "core/listening/PassageEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>
#include <optional>

namespace earwright {
namespace {

using namespace tests;

const Range<Seconds> passage{0.0_s, 6.0_s};

/// Of a note every fifth of a second.
std::vector<Range<Seconds>> spansOfNotes() {
    std::vector<Range<Seconds>> spans;
    for (int note = 0; note < 24; ++note)
        spans.push_back({0.5_s + 0.2_s * note, 0.65_s + 0.2_s * note});
    return spans;
}

AnalysisSound notes() {
    AnalysisSound sound;
    sound.left = silence(6.0_s);
    int midi = 55;
    for (const Range<Seconds>& span : spansOfNotes())
        addTone(sound.left, span, midi++);
    return sound;
}

class HearingAheadOfNotes : public testing::Test {
protected:
    std::shared_ptr<const StereoViews> views = std::make_shared<const StereoViews>(notes(), passage);
    std::shared_ptr<HeardSpans> memory = std::make_shared<HeardSpans>();
};

TEST_F(HearingAheadOfNotes, HearsEachSpanAsItIsHeardAlone) {
    const auto evidence = PassageEvidence::listen(notes(), 0, passage);
    ASSERT_TRUE(evidence);
    const auto heard = HearingAhead(views, 0, memory, spansOfNotes(), {0}).finish();
    ASSERT_EQ(heard.size(), spansOfNotes().size());
    for (std::size_t i = 0; i < heard.size(); ++i)
        EXPECT_EQ(heard[i].front()->row.log, evidence->spans(0, {spansOfNotes()[i]}).front().log) << i;
}

TEST_F(HearingAheadOfNotes, RemembersWhatWasHeardOnceItIsFinished) {
    HearingAhead ahead(views, 0, memory, spansOfNotes(), {0});
    const auto heard = ahead.finish();
    for (std::size_t i = 0; i < heard.size(); ++i)
        EXPECT_EQ(memory->find(0, spansOfNotes()[i]), heard[i].front()) << i;
}

TEST_F(HearingAheadOfNotes, KeepsNothingWhereNobodyWaitsForIt) {
    std::optional<HearingAhead> ahead;
    ahead.emplace(views, 0, memory, spansOfNotes(), std::vector<std::size_t>{0});
    ahead.reset();
    for (const Range<Seconds>& span : spansOfNotes())
        EXPECT_FALSE(memory->find(0, span));
}

TEST_F(HearingAheadOfNotes, HearsAFewAndNoneAtAllAsWell) {
    EXPECT_TRUE(HearingAhead(views, 0, memory, {}, {0}).finish().empty());
    const auto heard = HearingAhead(views, 0, memory, {spansOfNotes()[3]}, {0}).finish();
    ASSERT_EQ(heard.size(), 1u);
    EXPECT_EQ(lowestHeardMidi + static_cast<int>(heard.front().front()->row.best()), 58);
}

TEST(PassageEvidence, AnswersAlikeWhetherSpansWereHeardAheadOrNot) {
    const auto ahead = PassageEvidence::listen(notes(), 0, passage);
    const auto plain = PassageEvidence::listen(notes(), 0, passage);
    ASSERT_TRUE(ahead && plain);
    ahead->hearAhead(0, spansOfNotes()).finish();
    EXPECT_TRUE(ahead->hearAhead(0, spansOfNotes()).finish().empty()) << "heard a second time";
    const auto heard = ahead->spans(0, spansOfNotes());
    const auto expected = plain->spans(0, spansOfNotes());
    for (std::size_t i = 0; i < expected.size(); ++i)
        EXPECT_EQ(heard[i].log, expected[i].log) << i;
}

} // namespace
} // namespace earwright
