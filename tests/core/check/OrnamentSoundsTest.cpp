#include "core/check/OrnamentSounds.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

constexpr Range<Seconds> played{Seconds(2.0), Seconds(2.8)};

Note plain() {
    Note note;
    note.id = NoteId{1};
    note.pitch.midi = 67;
    return note;
}

/// The plain note with one of its signs.
template <typename Sign, typename Value>
Note writtenWith(Sign sign, Value value) {
    Note note = plain();
    note.phrasing.*sign = value;
    return note;
}

Note bent(BendShape shape, int quarterTones = 4) {
    return writtenWith(&Phrasing::bend, Bend{quarterTones, shape});
}

UnwrittenSound soundAt(double time, int midi) {
    return {{Seconds(time), Seconds(time + 0.1)}, midi, 0.8};
}

CheckedNote contradicted(int suggested) {
    CheckedNote checked;
    checked.note = NoteId{1};
    checked.range = played;
    checked.midi = 67;
    checked.verdict = Verdict::Contradicted;
    checked.suggestedMidi = suggested;
    return checked;
}

TEST(OrnamentSounds, BeginWithTheHeightOfAStringThatIsPulledUpBefore) {
    EXPECT_EQ(struckMidi(bent(BendShape::PrebentHeld)), 69);
    EXPECT_EQ(struckMidi(bent(BendShape::PrebentDown, 2)), 68);
    EXPECT_EQ(struckMidi(bent(BendShape::Up)), 67);
    EXPECT_EQ(struckMidi(bent(BendShape::UpAndDown)), 67);
    EXPECT_EQ(struckMidi(plain()), 67);
}

TEST(OrnamentSounds, MoveThePitchOfTheirNoteAndOtherSignsDoNot) {
    EXPECT_FALSE(movesItsPitch(Phrasing{}));
    EXPECT_FALSE(movesItsPitch(writtenWith(&Phrasing::ghosted, true).phrasing));
    EXPECT_TRUE(movesItsPitch(writtenWith(&Phrasing::trill, 2).phrasing));
    EXPECT_TRUE(movesItsPitch(writtenWith(&Phrasing::turn, Turn::FromAbove).phrasing));
    EXPECT_TRUE(movesItsPitch(writtenWith(&Phrasing::mordent, Mordent::Lower).phrasing));
    EXPECT_TRUE(movesItsPitch(writtenWith(&Phrasing::slideIn, SlideFrom::Below).phrasing));
    EXPECT_TRUE(movesItsPitch(writtenWith(&Phrasing::scoop, true).phrasing));
    EXPECT_TRUE(movesItsPitch(writtenWith(&Phrasing::graceNotes, std::vector{66}).phrasing));
    EXPECT_TRUE(movesItsPitch(bent(BendShape::Up).phrasing));
}

TEST(OrnamentSounds, AreAllPitchesThatABendPassesAndNoOthers) {
    const Note note = bent(BendShape::Up);
    for (const int midi : {67, 68, 69})
        EXPECT_TRUE(isOrnament(soundAt(2.3, midi), note, played)) << midi;
    for (const int midi : {66, 70})
        EXPECT_FALSE(isOrnament(soundAt(2.3, midi), note, played)) << midi;
    EXPECT_FALSE(isOrnament(soundAt(2.9, 69), note, played));
    EXPECT_TRUE(isOrnament(soundAt(2.3, 68), bent(BendShape::Up, 1), played)) << "a curl is half way there";
    EXPECT_FALSE(isOrnament(soundAt(2.3, 69), bent(BendShape::Up, 2), played));
}

TEST(OrnamentSounds, AreTheNeighboursOfTurnsAndMordents) {
    const Note turn = writtenWith(&Phrasing::turn, Turn::FromAbove);
    for (const int midi : {65, 66, 67, 68, 69})
        EXPECT_TRUE(isOrnament(soundAt(2.1, midi), turn, played)) << midi;
    EXPECT_FALSE(isOrnament(soundAt(2.1, 70), turn, played));
    const Note mordent = writtenWith(&Phrasing::mordent, Mordent::Lower);
    EXPECT_TRUE(isOrnament(soundAt(2.1, 66), mordent, played));
    EXPECT_TRUE(isOrnament(soundAt(2.2, 67), mordent, played));
    EXPECT_FALSE(isOrnament(soundAt(2.1, 68), mordent, played));
    EXPECT_FALSE(isOrnament(soundAt(2.1, 68), plain(), played));
}

TEST(OrnamentSounds, AreWhatASlideOrAScoopPassesOnItsWayIn) {
    const Note slide = writtenWith(&Phrasing::slideIn, SlideFrom::Below);
    EXPECT_TRUE(isOrnament(soundAt(1.95, 64), slide, played));
    EXPECT_FALSE(isOrnament(soundAt(1.95, 69), slide, played));
    EXPECT_FALSE(isOrnament(soundAt(1.95, 60), slide, played)) << "farther than a finger slides";
    EXPECT_FALSE(isOrnament(soundAt(2.3, 64), slide, played)) << "a note of its own";
    EXPECT_TRUE(isOrnament(soundAt(1.95, 69), writtenWith(&Phrasing::slideIn, SlideFrom::Above), played));
    const Note scoop = writtenWith(&Phrasing::scoop, true);
    EXPECT_TRUE(isOrnament(soundAt(2.02, 66), scoop, played));
    EXPECT_FALSE(isOrnament(soundAt(2.02, 63), scoop, played));
}

TEST(OrnamentSounds, AreWhatASlideOrAFallPassesOnItsWayOut) {
    const Note slide = writtenWith(&Phrasing::slideOut, SlideTo::Down);
    EXPECT_TRUE(isOrnament(soundAt(2.5, 66), slide, played));
    EXPECT_TRUE(isOrnament(soundAt(2.85, 64), slide, played));
    EXPECT_FALSE(isOrnament(soundAt(2.5, 68), slide, played));
    EXPECT_FALSE(isOrnament(soundAt(2.5, 60), slide, played)) << "farther than a finger slides";
    EXPECT_FALSE(isOrnament(soundAt(2.1, 66), slide, played)) << "a note of its own";
    EXPECT_TRUE(isOrnament(soundAt(2.5, 69), writtenWith(&Phrasing::slideOut, SlideTo::Up), played));
    const Note fall = writtenWith(&Phrasing::fall, true);
    EXPECT_TRUE(isOrnament(soundAt(2.7, 58), fall, played));
    EXPECT_FALSE(isOrnament(soundAt(2.7, 68), fall, played));
}

TEST(OrnamentSounds, AreGraceNotesAroundTheOnset) {
    const Note note = writtenWith(&Phrasing::graceNotes, std::vector{66});
    EXPECT_TRUE(isOrnament(soundAt(1.9, 66), note, played));
    EXPECT_FALSE(isOrnament(soundAt(2.4, 66), note, played));
    EXPECT_FALSE(isOrnament(soundAt(1.9, 65), note, played));
}

TEST(OrnamentSounds, KnowAnotherNoteOfATrillFromOneThatIsLeftOut) {
    const Note trill = writtenWith(&Phrasing::trill, 1);
    EXPECT_TRUE(isOrnament(soundAt(2.3, 68), trill, played));
    EXPECT_FALSE(isOrnament(soundAt(2.3, 69), trill, played));
    EXPECT_TRUE(isOtherTrill(soundAt(2.3, 69), trill, played));
    EXPECT_FALSE(isOtherTrill(soundAt(2.3, 65), trill, played));
    EXPECT_FALSE(isOtherTrill(soundAt(2.3, 72), trill, played)) << "wider than a trill";
    EXPECT_FALSE(isOtherTrill(soundAt(2.9, 69), trill, played));
    EXPECT_FALSE(isOtherTrill(soundAt(2.3, 69), plain(), played));
}

TEST(OrnamentSounds, LeaveOpenWhereATurnBeginsWhoseNeighbourIsHeardFirst) {
    const Note turn = writtenWith(&Phrasing::turn, Turn::FromAbove);
    const CheckedNote heard = withSignsHeard(contradicted(69), turn, {soundAt(2.1, 67)});
    EXPECT_EQ(heard.verdict, Verdict::Unclear);
    EXPECT_EQ(heard.doubt, Doubt::Beginning);
    EXPECT_FALSE(heard.suggestedMidi);
    EXPECT_EQ(withSignsHeard(contradicted(69), turn, {}), contradicted(69)) << "its own pitch is not heard";
    EXPECT_EQ(withSignsHeard(contradicted(72), turn, {soundAt(2.1, 67)}), contradicted(72));
    EXPECT_EQ(withSignsHeard(contradicted(69), plain(), {soundAt(2.1, 67)}), contradicted(69));
}

TEST(OrnamentSounds, DoNotSuggestTheOtherNoteOfAWrittenTrill) {
    const Note trill = writtenWith(&Phrasing::trill, 2);
    CheckedNote unclear = contradicted(69);
    unclear.verdict = Verdict::Unclear;
    unclear.doubt = Doubt::Another;
    const CheckedNote open = withSignsHeard(unclear, trill, {});
    EXPECT_EQ(open.verdict, Verdict::Unclear);
    EXPECT_EQ(open.doubt, Doubt::Beginning);
    EXPECT_FALSE(open.suggestedMidi);
    EXPECT_EQ(withSignsHeard(contradicted(69), trill, {soundAt(2.1, 67)}).verdict, Verdict::Unclear)
        << "it begins with its other note";
    EXPECT_EQ(withSignsHeard(contradicted(69), trill, {}), contradicted(69)) << "its own is nowhere";
    EXPECT_EQ(withSignsHeard(contradicted(68), trill, {soundAt(2.1, 67)}), contradicted(68));
}

TEST(OrnamentSounds, BearOutANoteThatASlideOrAGraceNoteLeadsInto) {
    CheckedNote unclear = contradicted(65);
    unclear.verdict = Verdict::Unclear;
    unclear.doubt = Doubt::Another;
    unclear.score = 0.8;
    const Note slide = writtenWith(&Phrasing::slideIn, SlideFrom::Below);
    const CheckedNote heard = withSignsHeard(unclear, slide, {});
    EXPECT_EQ(heard.verdict, Verdict::Supported);
    EXPECT_FALSE(heard.suggestedMidi);
    EXPECT_FALSE(heard.doubt);
    EXPECT_EQ(withSignsHeard(unclear, writtenWith(&Phrasing::slideIn, SlideFrom::Above), {}), unclear);
    EXPECT_EQ(withSignsHeard(unclear, plain(), {}), unclear);
    EXPECT_EQ(withSignsHeard(unclear, writtenWith(&Phrasing::graceNotes, std::vector{65}), {}).verdict,
              Verdict::Supported);
    unclear.score = 0.4;
    EXPECT_EQ(withSignsHeard(unclear, slide, {}), unclear) << "the other pitch may be the note";
    EXPECT_EQ(withSignsHeard(contradicted(65), slide, {}), contradicted(65)) << "its own is not heard";
    EXPECT_EQ(withSignsHeard(contradicted(65), slide, {soundAt(2.15, 67)}).verdict, Verdict::Unclear);
}

TEST(OrnamentSounds, TellThatABendBeginsEarlierWhereOnlyItsHeightIsHeard) {
    const Note bend = bent(BendShape::Up);
    const CheckedNote heard = withSignsHeard(contradicted(69), bend, {soundAt(1.78, 67)});
    EXPECT_EQ(heard.verdict, Verdict::Contradicted);
    EXPECT_TRUE(heard.nothingBegins);
    EXPECT_FALSE(heard.suggestedMidi);
    ASSERT_TRUE(heard.beginsAt);
    EXPECT_DOUBLE_EQ(heard.beginsAt->value, 1.78);
    EXPECT_TRUE(isOrnament(soundAt(1.78, 67), bend, playedRange(heard))) << "it is that note, none left out";
    EXPECT_TRUE(isOrnament(soundAt(1.9, 68), bend, playedRange(heard)));
    EXPECT_EQ(withSignsHeard(contradicted(69), bend, {}), contradicted(69)) << "struck at its height";
    EXPECT_EQ(withSignsHeard(contradicted(71), bend, {soundAt(1.78, 67)}), contradicted(71));
    EXPECT_EQ(withSignsHeard(contradicted(69), bend, {soundAt(1.4, 67)}), contradicted(69)) << "too far off";
}

} // namespace
} // namespace earwright
