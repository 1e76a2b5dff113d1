#include "core/study/PhrasingEdits.h"

#include "core/study/NoteEdits.h"
#include "core/study/PageEdits.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

struct PhrasingEdits : testing::Test {
    StudyWithNote written = addNote({}, {Pitch{60, {}}, Beats(0), Beats(1)});
    Study study = written.study;
    NoteId id = written.id;
    const Phrasing& phrasing() const { return study.notes[0].phrasing; }
    void step(PhrasingKind kind, int times = 1) {
        for (; times > 0; --times)
            study = stepMark(study, {id}, kind);
    }
};

TEST_F(PhrasingEdits, TheSlideKeyGoesRoundInAndOut) {
    step(PhrasingKind::Slide);
    EXPECT_EQ(phrasing().slideIn, SlideFrom::Below);
    step(PhrasingKind::Slide);
    EXPECT_EQ(phrasing().slideIn, SlideFrom::Above);
    step(PhrasingKind::Slide);
    EXPECT_EQ(phrasing().slideIn, std::nullopt);
    EXPECT_EQ(phrasing().slideOut, SlideTo::Up);
    step(PhrasingKind::Slide, 2);
    EXPECT_EQ(phrasing(), Phrasing{});
}

TEST_F(PhrasingEdits, ASlideTakesAwayTheMarkThatDoesTheSameOtherwise) {
    step(PhrasingKind::Scoop);
    step(PhrasingKind::Slide);
    EXPECT_FALSE(phrasing().scoop) << "a finger's slide from below, or the breath's scoop";
    step(PhrasingKind::SlideOn);
    step(PhrasingKind::Slide, 2);
    EXPECT_EQ(phrasing().slideOut, SlideTo::Up);
    EXPECT_FALSE(phrasing().slidesToNext);
}

TEST_F(PhrasingEdits, GraceComesFromBelowThenFromAboveThenNotAtAll) {
    step(PhrasingKind::Grace);
    EXPECT_EQ(phrasing().graceNotes, std::vector<int>{59});
    step(PhrasingKind::Grace);
    EXPECT_EQ(phrasing().graceNotes, std::vector<int>{61});
    step(PhrasingKind::Grace);
    EXPECT_TRUE(phrasing().graceNotes.empty());
}

TEST_F(PhrasingEdits, TheLowestNoteHasNoGraceNoteBelowIt) {
    study = moveNote(study, id, Pitch{lowestMidi, {}}, Beats(0));
    step(PhrasingKind::Grace);
    EXPECT_EQ(phrasing().graceNotes, std::vector<int>{lowestMidi + 1});
}

// In C major C is led to from B, and B from A.
TEST_F(PhrasingEdits, MoreGraceNotesLeadUpByStepsOfTheKey) {
    for (int i = 0; i < 2; ++i)
        study = addGraceNote(study, {id});
    EXPECT_EQ(phrasing().graceNotes, (std::vector<int>{57, 59}));
    for (int i = 0; i < 9; ++i)
        study = addGraceNote(study, {id});
    EXPECT_EQ(phrasing().graceNotes.size(), mostGraceNotes);
    step(PhrasingKind::Grace);
    EXPECT_TRUE(phrasing().graceNotes.empty()) << "the key takes several away at once";
}

// C to D is a whole tone in C major; in A flat major (four flats) C goes to D flat.
TEST_F(PhrasingEdits, ATrillStartsWithTheNextNoteOfTheKey) {
    step(PhrasingKind::Trill);
    EXPECT_EQ(phrasing().trill, 2);
    step(PhrasingKind::Trill);
    EXPECT_EQ(phrasing().trill, 1);
    step(PhrasingKind::Trill);
    EXPECT_EQ(phrasing().trill, std::nullopt);
    study = setKey(study, 1, KeySignature{-4, Mode::Major});
    step(PhrasingKind::Trill);
    EXPECT_EQ(phrasing().trill, 1);
}

TEST_F(PhrasingEdits, EveryKindIsSetAndTakenAwayAgain) {
    for (const PhrasingKind kind : allPhrasingKinds) {
        study = setPhrasing(study, id, {});
        step(kind);
        EXPECT_TRUE(carries(phrasing(), kind)) << static_cast<int>(kind);
        for (int i = 0; i < 6 && carries(phrasing(), kind); ++i)
            step(kind);
        EXPECT_FALSE(carries(phrasing(), kind)) << static_cast<int>(kind);
    }
}

TEST_F(PhrasingEdits, AGhostedNoteIsNotAccented) {
    step(PhrasingKind::Accent);
    EXPECT_TRUE(phrasing().accented);
    step(PhrasingKind::Ghost);
    EXPECT_TRUE(phrasing().ghosted);
    EXPECT_FALSE(phrasing().accented);
    step(PhrasingKind::Accent);
    EXPECT_FALSE(phrasing().ghosted);
}

TEST_F(PhrasingEdits, BendsTurnsAndMordentsGoRound) {
    for (const PhrasingKind kind : {PhrasingKind::Bend, PhrasingKind::Turn, PhrasingKind::Mordent})
        step(kind);
    EXPECT_EQ(phrasing().bend, (Bend{4, BendShape::Up}));
    EXPECT_EQ(phrasing().turn, Turn::FromAbove);
    EXPECT_EQ(phrasing().mordent, Mordent::Lower);
    step(PhrasingKind::Bend, 5);
    step(PhrasingKind::Turn, 2);
    step(PhrasingKind::Mordent, 2);
    EXPECT_EQ(phrasing(), Phrasing{});
}

TEST_F(PhrasingEdits, AHammerOnSlursANoteThatWasPickedInASlur) {
    step(PhrasingKind::PickedInSlur);
    step(PhrasingKind::HammerPull);
    EXPECT_TRUE(phrasing().slurred);
    EXPECT_FALSE(phrasing().pickedInSlur);
    EXPECT_EQ(phrasing().slurBy, SlurBy::HammerOn);
    step(PhrasingKind::Slur);
    EXPECT_EQ(phrasing(), Phrasing{}) << "without a slur there is nothing to hammer on";
}

// The left hand hammers on upwards and pulls off downwards (common practice).
TEST_F(PhrasingEdits, AFallingSlurIsPulledOff) {
    const StudyWithNote lower = addNote(study, {Pitch{57, {}}, Beats(1), Beats(1)});
    study = stepMark(lower.study, {lower.id}, PhrasingKind::HammerPull);
    EXPECT_EQ(study.note(lower.id)->phrasing.slurBy, SlurBy::PullOff);
}

TEST_F(PhrasingEdits, AMarkTakesAwayWhatItExcludes) {
    step(PhrasingKind::Slide, 4);
    step(PhrasingKind::Fall);
    EXPECT_EQ(phrasing().slideOut, std::nullopt);
    step(PhrasingKind::SlideOn);
    EXPECT_FALSE(phrasing().fall);
    step(PhrasingKind::LetRing);
    step(PhrasingKind::Staccato);
    EXPECT_FALSE(phrasing().letRing);
    EXPECT_TRUE(phrasing().staccato);
    step(PhrasingKind::Slur);
    step(PhrasingKind::PickedInSlur);
    EXPECT_FALSE(phrasing().slurred);
}

TEST_F(PhrasingEdits, ValuesGoUpAndDownToTheirLimits) {
    const auto value = [&](PhrasingKind kind, int by) { study = stepValue(study, {id}, kind, by); };
    value(PhrasingKind::Bend, 1);
    EXPECT_EQ(phrasing(), Phrasing{}) << "no mark, no value";
    for (const PhrasingKind kind : {PhrasingKind::Bend, PhrasingKind::Trill, PhrasingKind::Grace,
                                    PhrasingKind::Turn, PhrasingKind::Mordent, PhrasingKind::Slide}) {
        step(kind);
        value(kind, 1);
    }
    // From a whole tone to one and a half, from two semitones to three, from B up to C.
    EXPECT_EQ(phrasing().bend, (Bend{6, BendShape::Up}));
    EXPECT_EQ(phrasing().trill, 3);
    EXPECT_EQ(phrasing().graceNotes, std::vector<int>{60});
    EXPECT_EQ(phrasing().turn, Turn::FromAbove);
    EXPECT_EQ(phrasing().mordent, Mordent::Upper);
    EXPECT_EQ(phrasing().slideIn, SlideFrom::Above);
    for (int i = 0; i < 9; ++i) {
        value(PhrasingKind::Bend, -1);
        value(PhrasingKind::Trill, 1);
    }
    EXPECT_EQ(phrasing().bend->quarterTones, 1);
    EXPECT_EQ(phrasing().trill, 4);
}

TEST_F(PhrasingEdits, SeveralNotesGetAMarkTogetherAndEachAsItFits) {
    const StudyWithNote other = addNote(study, {Pitch{64, {}}, Beats(1), Beats(1)});
    study = stepMark(other.study, {other.id}, PhrasingKind::Accent);
    const std::vector<NoteId> both{id, other.id};
    study = stepMark(study, both, PhrasingKind::Accent);
    for (const NoteId each : both)
        EXPECT_TRUE(study.note(each)->phrasing.accented) << "marked and unmarked become marked";
    study = stepMark(study, both, PhrasingKind::Accent);
    for (const NoteId each : both)
        EXPECT_FALSE(study.note(each)->phrasing.accented);
    study = stepMark(study, both, PhrasingKind::Trill);
    EXPECT_EQ(study.note(id)->phrasing.trill, 2) << "C to D";
    EXPECT_EQ(study.note(other.id)->phrasing.trill, 1) << "E to F";
}

TEST_F(PhrasingEdits, WhatNoNoteCanHaveIsLeftOut) {
    Phrasing wanted;
    wanted.graceNotes = {59, 200};
    wanted.trill = 7;
    wanted.slurred = true;
    study = setPhrasing(study, id, wanted);
    EXPECT_EQ(phrasing().graceNotes, std::vector<int>{59});
    EXPECT_EQ(phrasing().trill, std::nullopt);
    EXPECT_TRUE(phrasing().slurred);
}

TEST_F(PhrasingEdits, ANoteThatIsNotThereChangesNothing) {
    EXPECT_EQ(stepMark(study, {NoteId{77}}, PhrasingKind::Slide), study);
    EXPECT_EQ(stepValue(study, {NoteId{77}}, PhrasingKind::Bend, 1), study);
    EXPECT_EQ(addGraceNote(study, {NoteId{77}}), study);
}

} // namespace
} // namespace earwright
