#include "ui/grid/PlayingText.h"

#include <gtest/gtest.h>
#include <utility>

namespace earwright::ui {
namespace {

NotePlaying played() {
    NotePlaying playing;
    playing.heard = {Seconds(1.028), Seconds(1.238)};
    playing.begins = true;
    playing.behind = Seconds(0.028);
    playing.pitch.clearShare = 0.9;
    return playing;
}

TEST(PlayingText, TellsPlaceLoudnessAndLength) {
    NotePlaying playing = played();
    playing.loudnessDb = -4.8;
    EXPECT_EQ(playingText({}, playing).toStdString(),
              "28 ms behind · 5 dB softer than the notes around it · lasts 210 ms");
    playing.behind = Seconds(-0.012);
    playing.loudnessDb = 0.4;
    EXPECT_TRUE(playingText({}, playing, std::nullopt, Seconds(0.3)).endsWith("lasts 210 ms")) << "style";
    EXPECT_TRUE(playingText({}, playing, std::nullopt, Seconds(0.42))
                    .endsWith("lasts 210 ms, shorter than it is written (420 ms)"));
    EXPECT_TRUE(playingText({}, playing, std::nullopt, Seconds(0.08))
                    .endsWith("lasts 210 ms, longer than it is written (80 ms)"));
    EXPECT_TRUE(playingText({}, playing).startsWith("12 ms ahead · as loud as the notes around it"));
}

TEST(PlayingText, TellsTheEighthsOfALineThatSwingsAgainstItsSwing) {
    NotePlaying playing = played();
    playing.behind = Seconds(0.078);
    EXPECT_TRUE(playingText({}, playing, Seconds(0.021)).startsWith("21 ms behind as the line swings · "));
    EXPECT_TRUE(playingText({}, playing, Seconds(-0.008)).startsWith("8 ms ahead as the line swings · "));
    EXPECT_TRUE(playingText({}, playing, Seconds(0)).startsWith("on its place as the line swings · "));
    EXPECT_TRUE(playingText({}, playing).startsWith("78 ms behind · "));
}

TEST(PlayingText, TellsHowThePitchMoves) {
    NotePlaying playing = played();
    playing.pitch.slideIn = HeardSlide{-140, Seconds(0.02)};
    playing.pitch.vibrato = HeardVibrato{5.62, 12.2, 0.5};
    const std::string text = playingText({}, playing).toStdString();
    EXPECT_NE(text.find("slides in over 140 cents from below"), std::string::npos) << text;
    EXPECT_NE(text.find("vibrato 5.6 times a second, 12 cents either way"), std::string::npos) << text;
    EXPECT_EQ(text.find("not written"), std::string::npos) << "neither is clear enough to be listed";
}

TEST(PlayingText, AnswersEachWrittenSignAndListsWhatIsClearlyHeard) {
    NotePlaying playing = played();
    playing.slurChance = 0.4;
    playing.loudnessDb = -10;
    Phrasing written;
    written.slurred = true;
    const std::string text = playingText(written, playing).toStdString();
    EXPECT_NE(text.find("slur: unclear"), std::string::npos) << text;
    EXPECT_NE(text.find("heard and not written: ghost"), std::string::npos) << text;
    written.ghosted = true;
    EXPECT_TRUE(playingText(written, playing).endsWith("slur: unclear · ghost: supported"));
}

TEST(PlayingText, TellsOfASlurThatIsNotWrittenOnce) {
    NotePlaying playing = played();
    playing.slurChance = 0.98;
    EXPECT_TRUE(playingText({}, playing).endsWith("heard and not written: slur"));
    EXPECT_FALSE(playingText({}, playing).contains("perhaps slurred"));
    playing.slurChance = 0.7;
    EXPECT_TRUE(playingText({}, playing).endsWith("perhaps slurred from the note before"));
    playing.slurChance = 0.02;
    EXPECT_TRUE(playingText({}, playing).endsWith("begins with an attack of its own"));
}

TEST(PlayingText, DoesNotTellByHowMuchAPitchIsWrong) {
    NotePlaying playing = played();
    playing.loudnessDb = -8;
    for (const double cents : {-201.0, -60.0, 99.0}) {
        playing.pitch.centreCents = cents;
        EXPECT_EQ(playingText({}, playing).toStdString(),
                  "not heard as it is written, in pitch or in length");
    }
    // Where too little of the trace is clear it cannot be told, and no cents are said.
    const double clear = std::exchange(playing.pitch.clearShare, 0.55);
    playing.pitch.centreCents = -201;
    EXPECT_FALSE(playingText({}, playing).contains("cents")) << playingText({}, playing).toStdString();
    playing.pitch.clearShare = clear;
    playing.pitch.centreCents = -32;
    EXPECT_TRUE(playingText({}, playing).contains("32 cents flat"));
    // A bend is held where it leads to.
    playing.pitch.centreCents = 198;
    playing.pitch.bendCents = 200;
    Phrasing bent;
    bent.bend = Bend{};
    EXPECT_TRUE(playingText(bent, playing).contains("bent by 200 cents"));
}

TEST(PlayingText, NamesTheRhythmThatABeatOfThreeSoundsLike) {
    EXPECT_EQ(spacingText(ThreeInABeat::Triplet), "the three notes of this beat sound like a triplet");
    EXPECT_TRUE(spacingText(ThreeInABeat::LongFirst).endsWith("an eighth and two sixteenths"));
    EXPECT_TRUE(spacingText(ThreeInABeat::LongMiddle).endsWith("a sixteenth, an eighth and a sixteenth"));
    EXPECT_TRUE(spacingText(ThreeInABeat::LongLast).endsWith("two sixteenths and an eighth"));
}

TEST(PlayingText, SaysNothingOfANoteThatIsNotHeardToBegin) {
    NotePlaying playing = played();
    playing.begins = false;
    playing.loudnessDb = -10;
    playing.pitch.slideIn = HeardSlide{-140, Seconds(0.02)};
    EXPECT_EQ(playingText({}, playing).toStdString(), "no beginning of its own is heard");
}

} // namespace
} // namespace earwright::ui
