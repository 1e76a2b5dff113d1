#include "core/study/PhrasingEdits.h"

#include "core/study/NoteEdits.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

struct PhrasingEdits : testing::Test {
    StudyWithNote written = addNote({}, {Pitch{60, {}}, Beats(0), Beats(1)});
    Study study = written.study;
    NoteId id = written.id;
    const Phrasing& phrasing() const { return study.notes[0].phrasing; }
};

TEST_F(PhrasingEdits, TheSlideKeyGoesRoundInAndOut) {
    study = stepSlide(study, id);
    EXPECT_EQ(phrasing().slideIn, SlideFrom::Below);
    study = stepSlide(study, id);
    EXPECT_EQ(phrasing().slideIn, SlideFrom::Above);
    study = stepSlide(study, id);
    EXPECT_EQ(phrasing().slideIn, std::nullopt);
    EXPECT_EQ(phrasing().slideOut, SlideTo::Up);
    study = stepSlide(stepSlide(study, id), id);
    EXPECT_EQ(phrasing(), Phrasing{});
}

TEST_F(PhrasingEdits, SlideInAndSlideOutGoRoundByThemselves) {
    study = stepSlideOut(stepSlideIn(study, id), id);
    EXPECT_EQ(phrasing().slideIn, SlideFrom::Below);
    EXPECT_EQ(phrasing().slideOut, SlideTo::Up);
    study = stepSlideIn(stepSlideIn(study, id), id);
    EXPECT_EQ(phrasing().slideIn, std::nullopt);
    EXPECT_EQ(phrasing().slideOut, SlideTo::Up);
}

TEST_F(PhrasingEdits, GraceComesFromBelowThenFromAboveThenNotAtAll) {
    study = stepGrace(study, id);
    EXPECT_EQ(phrasing().graceNotes, std::vector<int>{59});
    study = stepGrace(study, id);
    EXPECT_EQ(phrasing().graceNotes, std::vector<int>{61});
    study = stepGrace(study, id);
    EXPECT_TRUE(phrasing().graceNotes.empty());
}

TEST_F(PhrasingEdits, TheLowestNoteHasNoGraceNoteBelowIt) {
    study = moveNote(study, id, Pitch{lowestMidi, {}}, Beats(0));
    EXPECT_EQ(stepGrace(study, id).notes[0].phrasing.graceNotes, std::vector<int>{lowestMidi + 1});
}

TEST_F(PhrasingEdits, TrillsGoByASemitoneThenAToneThenNotAtAll) {
    study = stepTrill(study, id);
    EXPECT_EQ(phrasing().trill, 1);
    study = stepTrill(study, id);
    EXPECT_EQ(phrasing().trill, 2);
    study = stepTrill(study, id);
    EXPECT_EQ(phrasing().trill, std::nullopt);
}

TEST_F(PhrasingEdits, SlursToggle) {
    study = toggleSlur(study, id);
    EXPECT_TRUE(phrasing().slurred);
    EXPECT_FALSE(toggleSlur(study, id).notes[0].phrasing.slurred);
}

TEST_F(PhrasingEdits, AGhostedNoteIsNotAccented) {
    study = toggleAccent(study, id);
    EXPECT_TRUE(phrasing().accented);
    study = toggleGhost(study, id);
    EXPECT_TRUE(phrasing().ghosted);
    EXPECT_FALSE(phrasing().accented);
    study = toggleAccent(study, id);
    EXPECT_FALSE(phrasing().ghosted);
}

TEST_F(PhrasingEdits, BendsTurnsAndMordentsGoRound) {
    study = stepMordent(stepTurn(stepBend(study, id), id), id);
    EXPECT_EQ(phrasing().bend, (Bend{4, BendShape::Up}));
    EXPECT_EQ(phrasing().turn, Turn::FromAbove);
    EXPECT_EQ(phrasing().mordent, Mordent::Lower);
    for (int i = 0; i < 5; ++i)
        study = stepBend(study, id);
    study = stepMordent(stepMordent(stepTurn(stepTurn(study, id), id), id), id);
    EXPECT_EQ(phrasing(), Phrasing{});
}

TEST_F(PhrasingEdits, AHammerOnSlursANoteThatWasPickedInASlur) {
    study = stepSlurBy(toggleMark(study, id, &Phrasing::pickedInSlur), id);
    EXPECT_TRUE(phrasing().slurred);
    EXPECT_FALSE(phrasing().pickedInSlur);
    EXPECT_EQ(phrasing().slurBy, SlurBy::HammerOn);
    study = toggleSlur(study, id);
    EXPECT_EQ(phrasing(), Phrasing{}) << "without a slur there is nothing to hammer on";
}

TEST_F(PhrasingEdits, AMarkTakesAwayWhatItExcludes) {
    study = toggleMark(stepSlideOut(study, id), id, &Phrasing::fall);
    EXPECT_EQ(phrasing().slideOut, std::nullopt);
    study = toggleMark(study, id, &Phrasing::slidesToNext);
    EXPECT_FALSE(phrasing().fall);
    study = toggleMark(toggleMark(study, id, &Phrasing::letRing), id, &Phrasing::staccato);
    EXPECT_FALSE(phrasing().letRing);
    EXPECT_TRUE(phrasing().staccato);
    study = toggleMark(toggleSlur(study, id), id, &Phrasing::pickedInSlur);
    EXPECT_FALSE(phrasing().slurred);
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
    EXPECT_EQ(stepSlide(study, NoteId{77}), study);
    EXPECT_EQ(toggleGhost(study, NoteId{77}), study);
}

} // namespace
} // namespace earwright
