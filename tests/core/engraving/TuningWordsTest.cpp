// Fret numbers mean nothing to a player who does not know the strings and where the capo lies.
#include "core/engraving/TuningWords.h"

#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(TuningWords, LeaveTheUsualGuitarUnsaid) {
    EXPECT_EQ(tuningWords({}), "");
    StringTuning longNeck;
    longNeck.frets = 24;
    EXPECT_EQ(tuningWords(longNeck), "");
}

TEST(TuningWords, NameTheStringsFromTheLowestAndTheCapo) {
    EXPECT_EQ(tuningWords({{64, 59, 55, 50, 45, 38}}), "Strings D2 A2 D3 G3 B3 E4");
    EXPECT_EQ(tuningWords({{63, 58, 54, 49, 44, 39}}), "Strings E♭2 A♭2 C♯3 F♯3 B♭3 E♭4");
    StringTuning capo;
    capo.capo = 3;
    EXPECT_EQ(tuningWords(capo), "Capo at fret 3");
    EXPECT_EQ(tuningWords({{43, 38, 33, 28}, 20, 2}), "Strings E1 A1 D2 G2 · Capo at fret 2");
}

class TuningOnThePage : public testing::Test {
protected:
    void SetUp() override { NEEDS_MUSIC_FONT; }

    static std::vector<PlacedText> texts(const EngravingOptions& options) {
        Study study = studyInFour();
        study.title = "A Capo on the Third";
        study.tuning.capo = 3;
        study.notes.push_back(noteAt(study, Beats(0), Beats(4), 62));
        const auto pages = engravePages(study, options, musicFont());
        EXPECT_TRUE(pages);
        return pages->front().shapes.texts;
    }

    static bool saysCapo(const std::vector<PlacedText>& texts) {
        return std::any_of(texts.begin(), texts.end(),
                           [](const PlacedText& text) { return text.text == "Capo at fret 3"; });
    }
};

TEST_F(TuningOnThePage, IsSaidUnderTheTitleWhereThereIsTablature) {
    EngravingOptions options;
    options.strings = 6;
    const auto all = texts(options);
    const auto words = std::find_if(all.begin(), all.end(),
                                    [](const PlacedText& text) { return text.text == "Capo at fret 3"; });
    ASSERT_NE(words, all.end());
    const auto title = std::find_if(all.begin(), all.end(),
                                    [](const PlacedText& text) { return text.role == TextRole::Title; });
    ASSERT_NE(title, all.end());
    EXPECT_EQ(words->at.x, options.margin);
    EXPECT_GE(words->at.y, title->at.y + words->size);
    EXPECT_FALSE(saysCapo(texts({})));
    options.title = false;
    EXPECT_FALSE(saysCapo(texts(options)));
}

} // namespace
} // namespace earwright
