// What a line of music begins with, and what stands over it there: meter, words, the bar's number.
#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"
#include "core/engraving/Extent.h"
#include "core/engraving/TabFrame.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright {
namespace {

class LineBeginning : public testing::Test {
protected:
    void SetUp() override { NEEDS_MUSIC_FONT; }

    static EngravedSystem laid(const Study& study, const EngravingOptions& options = {}) {
        const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
        EXPECT_TRUE(systems);
        return systems->front();
    }

    static std::vector<PlacedGlyph> all(const EngravedSystem& system, Smufl glyph) {
        std::vector<PlacedGlyph> found;
        for (const PlacedGlyph& one : system.shapes.glyphs)
            if (one.glyph == glyph) found.push_back(one);
        return found;
    }

    static PlacedText text(const EngravedSystem& system, const std::string& words) {
        for (const PlacedText& one : system.shapes.texts)
            if (one.text == words) return one;
        ADD_FAILURE() << "no " << words;
        return {};
    }

    /// A bar of quarters C5, with an upbeat of a quarter or without.
    static Study quarters(bool hasUpbeat) {
        Study study = studyInFour();
        for (int beat = hasUpbeat ? -1 : 0; beat < 4; ++beat)
            study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 72));
        study.page.tempos = {{Beats(0), "Medium", 132.0}};
        study.page.swings = {{Beats(0), {2, 8}}};
        return study;
    }
};

// Tempo and swing on one row, its left end over the meter (Gould, "Behind Bars", from memory), before a
// pickup as well.
TEST_F(LineBeginning, SaysTempoAndSwingInOneRowOverTheMeter) {
    for (const bool hasUpbeat : {false, true}) {
        const EngravedSystem system = laid(quarters(hasUpbeat));
        const PlacedText tempo = text(system, "Medium");
        const PlacedText swing = text(system, "Swing");
        EXPECT_EQ(tempo.at.y, swing.at.y);
        EXPECT_GT(swing.at.x, boxOf(text(system, "= 132")).right);
        const auto four = all(system, digitOf(Smufl::TimeSig0, 4));
        ASSERT_EQ(four.size(), 2u);
        EXPECT_NEAR(tempo.at.x, four.front().at.x, 0.01);
    }
}

// What was measured is said where no mark says it; a mark at bar 1 says it for the pickup too.
TEST_F(LineBeginning, SaysTheTempoOnceBeforeAPickup) {
    for (const bool hasMark : {true, false}) {
        Study study = quarters(true);
        if (!hasMark) study.page.tempos.clear();
        PageExcerpt excerpt = wholeStudy(study);
        excerpt.beatsPerMinute = 128;
        const auto systems = engraveSystems(study, excerpt, {}, musicFont());
        ASSERT_TRUE(systems);
        const auto& texts = systems->front().shapes.texts;
        EXPECT_EQ(
            std::count_if(texts.begin(), texts.end(),
                          [](const PlacedText& one) { return one.text == "= 132" || one.text == "= 128"; }),
            1);
        text(systems->front(), hasMark ? "= 132" : "= 128");
    }
}

TEST_F(LineBeginning, SaysALaterTempoOverItsNote) {
    Study study = quarters(false);
    study.page.tempos = {{Beats(2), "Slower", {}}};
    study.page.swings.clear();
    const EngravedSystem system = laid(study);
    const auto note = std::find_if(system.notes.begin(), system.notes.end(),
                                   [&](const NoteBox& box) { return box.note == study.notes[2].id; });
    EXPECT_NEAR(text(system, "Slower").at.x, note->box.left, 0.01);
}

TEST_F(LineBeginning, NumbersTheFirstWholeBarOverItsBarLine) {
    Study study = studyInFour();
    for (const int beat : {18, 19, 20, 24})
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 62));
    PageExcerpt excerpt = barsAround(study, {Beats(18), Beats(25)});
    excerpt.only = Range<Beats>{Beats(18), Beats(25)};
    const auto systems = engraveSystems(study, excerpt, {}, musicFont());
    ASSERT_TRUE(systems);
    const EngravedSystem& system = systems->front();
    const PageBox number = boxOf(text(system, "6"));
    EXPECT_NEAR((number.left + number.right) / 2, system.bars.front().right, 0.01);
    EXPECT_LT(number.bottom, 0);
}

// A number belongs to its bar line: words over the line stand over it.
TEST_F(LineBeginning, HasWordsOverTheNumberOfItsFirstWholeBar) {
    Study study = studyInFour();
    for (const int beat : {18, 19, 20, 24})
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 62));
    study.page.tempos = {{Beats(0), "Medium up, not too fast", 132.0}};
    PageExcerpt excerpt = barsAround(study, {Beats(18), Beats(25)});
    excerpt.only = Range<Beats>{Beats(18), Beats(25)};
    const auto systems = engraveSystems(study, excerpt, {}, musicFont());
    ASSERT_TRUE(systems);
    const PageBox number = boxOf(text(systems->front(), "6"));
    const PageBox words = boxOf(text(systems->front(), "Medium up, not too fast"));
    EXPECT_LT(words.left, number.left);
    EXPECT_GT(words.right, number.left);
    EXPECT_LT(words.bottom, number.top);
}

// An excerpt that begins late in its bar is no pickup to the tempo of the next.
TEST_F(LineBeginning, KeepsTheTempoOfAnExcerptsSecondBarThere) {
    Study study = studyInFour();
    for (const int beat : {18, 19, 20, 24})
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 62));
    study.page.tempos = {{Beats(0), "Medium", {}}, {Beats(20), "Faster", {}}};
    PageExcerpt excerpt = barsAround(study, {Beats(18), Beats(25)});
    excerpt.only = Range<Beats>{Beats(18), Beats(25)};
    const auto systems = engraveSystems(study, excerpt, {}, musicFont());
    ASSERT_TRUE(systems);
    const EngravedSystem& system = systems->front();
    EXPECT_LT(text(system, "Medium").at.x, system.bars.front().right);
    EXPECT_GT(text(system, "Faster").at.x, system.bars.front().right);
}

// The digits of a meter on tablature are as high as two of its spaces (common practice), on any number of
// strings within its lines.
TEST_F(LineBeginning, HasTheMeterOfTablatureAloneAsLargeAsItsLinesAllow) {
    for (int strings = 4; strings <= 8; ++strings) {
        EngravingOptions options;
        options.strings = strings;
        options.staff = false;
        const EngravedSystem system = laid(quarters(false), options);
        const auto digits = all(system, digitOf(Smufl::TimeSig0, 4));
        ASSERT_EQ(digits.size(), 2u);
        EXPECT_GE(digits.front().scale, strings >= 6 ? tabLineGap : 1);
        double top = 1e9;
        double bottom = 0;
        for (const PlacedLine& line : system.shapes.lines)
            if (line.from.x == 0 && line.from.y == line.to.y) {
                top = std::min(top, line.from.y);
                bottom = std::max(bottom, line.from.y);
            }
        EXPECT_NEAR(bottom - top, tabHeight(strings), 1e-9);
        for (const PlacedGlyph& digit : digits) {
            const PageBox box = boxOf(digit, musicFont());
            EXPECT_GT(box.top, top) << strings;
            EXPECT_LT(box.bottom, bottom) << strings;
        }
    }
}

TEST_F(LineBeginning, LeavesRoomBetweenAChangeOfMeterAndAnAccidental) {
    Study study = studyInFour();
    for (int beat = 0; beat < 7; ++beat)
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), beat == 4 ? 66 : 67));
    study.page.meters = {{2, {3, 4}}};
    const EngravedSystem system = laid(study);
    const auto three = all(system, digitOf(Smufl::TimeSig0, 3));
    const auto sharp = all(system, Smufl::AccidentalSharp);
    ASSERT_EQ(three.size(), 1u);
    ASSERT_EQ(sharp.size(), 1u);
    EXPECT_GE(sharp.front().at.x - boxOf(three.front(), musicFont()).right, 0.7);
}

} // namespace
} // namespace earwright
