#include "ui/desk/CheckBook.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// One second a beat; notes on beats 0, 1 and 2 in phrase 5.
Study written() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(4)}});
    study.spans = {{SpanId{5}, SpanKind::Phrase, "a", {Seconds(0), Seconds(4)}}};
    for (int i = 0; i < 3; ++i)
        study.notes.push_back(
            {NoteId{static_cast<std::uint64_t>(i + 1)}, Beats(i), Beats(1), Pitch{60 + i, {}}, 0.6, {}});
    return study;
}

/// The first supported, the second contradicted, the third unclear, and a sound with no note at 3 s.
PhraseCheck checked() {
    PhraseCheck check;
    check.phrase = SpanId{5};
    const Verdict verdicts[]{Verdict::Supported, Verdict::Contradicted, Verdict::Unclear};
    for (int i = 0; i < 3; ++i)
        check.notes.push_back({NoteId{static_cast<std::uint64_t>(i + 1)},
                               {Seconds(i), Seconds(i + 1)},
                               60 + i,
                               verdicts[i],
                               0.5,
                               std::nullopt});
    check.notes[1].suggestedMidi = 63;
    check.unwritten = {{{Seconds(3), Seconds(3.5)}, 66, 0.8}};
    return check;
}

/// All supported, and the trill of the first goes elsewhere.
PhraseCheck checkedTrill() {
    PhraseCheck check = checked();
    for (CheckedNote& note : check.notes) {
        note.verdict = Verdict::Supported;
        note.suggestedMidi.reset();
    }
    check.unwritten.clear();
    check.otherTrills = {{NoteId{1}, {Seconds(0), Seconds(1)}, 60, 2, 1, Verdict::Contradicted}};
    return check;
}

class CheckBookTest : public testing::Test {
protected:
    void SetUp() override { book.keep(checked()); }
    std::optional<Verdict> verdict(std::uint64_t note) {
        const auto all = book.verdicts();
        const auto found = all.find(NoteId{note});
        return found == all.end() ? std::nullopt : std::optional(found->second);
    }

    Study study = written();
    CheckBook book;
    const SpanId phrase{5};
};

TEST_F(CheckBookTest, SaysNothingOfAPhraseThatWasNotChecked) {
    EXPECT_EQ(book.of(SpanId{6}), nullptr);
    EXPECT_TRUE(book.places(SpanId{6}).empty());
    EXPECT_TRUE(CheckBook().verdicts().empty());
}

TEST_F(CheckBookTest, HoldsTheAnswerToATrillUntilTheTrillIsWrittenAnew) {
    study.notes[0].phrasing.trill = 2;
    book.keep(checkedTrill());
    Study after = study;
    after.notes[0].phrasing.ghosted = true;
    book.follow(study, after);
    EXPECT_EQ(book.places(phrase).size(), 1u);
    EXPECT_EQ(book.changedSince(phrase, after), 0);
    ASSERT_TRUE(book.answersAround(std::nullopt));
    EXPECT_TRUE(book.answersAround(std::nullopt)->otherTrill(NoteId{1})) << "beside the phrase in the grid";
    Study corrected = after;
    corrected.notes[0].phrasing.trill = 1;
    book.follow(after, corrected);
    EXPECT_TRUE(book.places(phrase).empty());
    EXPECT_FALSE(book.of(phrase)->otherTrill(NoteId{1}));
    EXPECT_EQ(book.changedSince(phrase, corrected), 1) << "nobody has listened to it";
}

TEST_F(CheckBookTest, LetsGoOfTheVerdictOfANoteThatWasChangedAndOfNoOther) {
    Study after = study;
    after.notes[1].pitch.midi = 63;
    book.follow(study, after);
    EXPECT_EQ(verdict(1), Verdict::Supported);
    EXPECT_EQ(verdict(2), std::nullopt);
    EXPECT_EQ(verdict(3), Verdict::Unclear);
}

TEST_F(CheckBookTest, GivesTheAnswersOfOtherPhrasesBesideThoseOfAPhrase) {
    EXPECT_FALSE(CheckBook().answersAround(phrase));
    PhraseCheck other;
    other.phrase = SpanId{6};
    other.notes = {checked().notes[0], checked().notes[0]};
    other.notes[0].verdict = Verdict::Contradicted; // of a note in both phrases
    other.notes[1].note = NoteId{8};
    other.notes[1].verdict = Verdict::Unclear;
    book.keep(other);
    const auto here = book.answersAround(phrase);
    ASSERT_TRUE(here);
    EXPECT_EQ(here->notes.size(), 4u);
    EXPECT_EQ(here->note(NoteId{1})->verdict, Verdict::Supported);
    EXPECT_EQ(here->note(NoteId{8})->verdict, Verdict::Unclear);
    EXPECT_EQ(here->unwritten, checked().unwritten);
    EXPECT_EQ(book.answersAround(SpanId{6})->note(NoteId{1})->verdict, Verdict::Contradicted);
    const auto unchecked = book.answersAround(SpanId{7});
    ASSERT_TRUE(unchecked) << "a phrase that was not checked has checked ones beside it";
    EXPECT_EQ(unchecked->notes.size(), 4u);
    EXPECT_TRUE(unchecked->unwritten.empty());
    EXPECT_TRUE(book.answersAround(std::nullopt));
}

TEST_F(CheckBookTest, CountsWhatWasChangedWrittenAndTakenOutSinceTheCheck) {
    EXPECT_EQ(book.changedSince(phrase, study), 0);
    EXPECT_TRUE(book.unjudged(study).empty());
    Study after = study;
    after.notes[1].pitch.midi = 64;
    book.follow(study, after);
    EXPECT_EQ(book.changedSince(phrase, after), 1);
    EXPECT_EQ(book.unjudged(after), std::set<NoteId>{NoteId{2}});
    Study more = after;
    more.notes.erase(more.notes.begin());
    more.notes.push_back({NoteId{9}, Beats(3), Beats(1, 2), Pitch{66, {}}, 0.6, {}});
    book.follow(after, more);
    EXPECT_EQ(book.changedSince(phrase, more), 3) << "one changed, one taken out, one new";
    EXPECT_EQ(book.unjudged(more), (std::set<NoteId>{NoteId{2}, NoteId{9}}));
    EXPECT_EQ(book.changedSince(SpanId{6}, more), 0) << "never checked";
    book.keep(checked());
    EXPECT_EQ(book.changedSince(phrase, study), 0);
}

TEST_F(CheckBookTest, KeepsAVerdictWhenOnlyThePhrasingChanges) {
    Study after = study;
    after.notes[1].phrasing.accented = true;
    after.notes[1].loudness = 0.9;
    book.follow(study, after);
    EXPECT_EQ(verdict(2), Verdict::Contradicted);
}

TEST_F(CheckBookTest, LetsGoOfAnUnwrittenSoundOnceANoteIsWrittenThere) {
    Study after = study;
    after.notes.push_back({NoteId{9}, Beats(3), Beats(1, 2), Pitch{66, {}}, 0.6, {}});
    book.follow(study, after);
    EXPECT_TRUE(book.of(phrase)->unwritten.empty());
    EXPECT_EQ(verdict(1), Verdict::Supported);
}

TEST_F(CheckBookTest, LetsGoOfVerdictsWhenTheirNotesMoveInTimeWithAMark) {
    Study after = study;
    after.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(4.4)}});
    book.follow(study, after);
    EXPECT_EQ(verdict(1), Verdict::Supported); // still at 0 s
    EXPECT_EQ(verdict(2), std::nullopt);       // 0.1 s later
}

TEST_F(CheckBookTest, ForgetsAPhraseThatIsNoLongerThere) {
    Study after = study;
    after.spans.clear();
    book.follow(study, after);
    EXPECT_EQ(book.of(phrase), nullptr);
}

TEST_F(CheckBookTest, OpensOneStepAfterTheOtherForOnePlace) {
    const auto place = book.nextPlace(phrase, std::nullopt, Seconds(0))->place;
    EXPECT_EQ(place.note, NoteId{2});
    EXPECT_EQ(book.open(phrase, place).step, HelpStep::SomethingOff);
    EXPECT_EQ(book.open(phrase, place).step, HelpStep::WhichWay);
    EXPECT_EQ(book.open(phrase, place).step, HelpStep::HowFar);
    EXPECT_EQ(book.open(phrase, place).step, HelpStep::ShowIt);
    EXPECT_EQ(book.open(phrase, place).step, HelpStep::ShowIt);
    // Fully shown, help goes on to the next place.
    EXPECT_EQ(book.nextPlace(phrase, std::nullopt, Seconds(0))->place.note, NoteId{3});
}

TEST_F(CheckBookTest, HelpsTheChosenNoteFirst) {
    EXPECT_EQ(book.nextPlace(phrase, NoteId{3}, Seconds(0))->place.note, NoteId{3});
    // A supported note needs no help: the next place after the cursor does.
    EXPECT_EQ(book.nextPlace(phrase, NoteId{1}, Seconds(2.9))->place.kind, PlaceKind::Unwritten);
}

TEST_F(CheckBookTest, GoesThroughThePlacesAgainOnceAllAreShown) {
    EXPECT_FALSE(CheckBook().nextPlace(phrase, std::nullopt, Seconds(0)));
    const auto help = [&](std::optional<NoteId> chosen = std::nullopt) {
        return book.open(phrase, book.nextPlace(phrase, chosen, Seconds(0))->place);
    };
    for (int step = 0; step < 3 * 4; ++step)
        help();
    EXPECT_EQ(help().place.note, NoteId{2});
    EXPECT_EQ(help(NoteId{2}).place.note, NoteId{3}) << "the note help went to is chosen by that";
    EXPECT_EQ(help().place.kind, PlaceKind::Unwritten);
    EXPECT_EQ(help(NoteId{3}).place.note, NoteId{3});
    // The next check finds the same: what is shown already can be asked for again.
    book.keep(checked());
    const HelpedPlace again = help();
    EXPECT_EQ(again.place.note, NoteId{2});
    EXPECT_EQ(again.step, HelpStep::ShowIt);
}

TEST_F(CheckBookTest, GoesOnFromASoundWithinANoteThatTheCursorIsOnByThat) {
    PhraseCheck within = checked();
    within.unwritten = {{{Seconds(1.5), Seconds(2)}, 66, 0.8}};
    book.keep(within);
    std::optional<NoteId> underCursor;
    const auto help = [&] {
        const HelpedPlace helped = book.open(phrase, book.nextPlace(phrase, underCursor, Seconds(0))->place);
        underCursor = helped.place.note ? *helped.place.note : NoteId{2};
        return helped.place;
    };
    for (int step = 0; step < 3 * 4; ++step)
        help();
    EXPECT_EQ(help().note, NoteId{2});
    EXPECT_EQ(help().kind, PlaceKind::Unwritten);
    EXPECT_EQ(help().note, NoteId{3});
    EXPECT_EQ(help().note, NoteId{2});
}

TEST_F(CheckBookTest, TellsTheGridOnlyWhatWasOpened) {
    EXPECT_TRUE(hintsOf(book, phrase, study).empty());
    book.open(phrase, book.nextPlace(phrase, std::nullopt, Seconds(0))->place);
    const auto hints = hintsOf(book, phrase, study);
    ASSERT_EQ(hints.size(), 1u);
    EXPECT_EQ(hints[0].step, HelpStep::SomethingOff);
    EXPECT_FALSE(hints[0].direction);
    EXPECT_FALSE(hints[0].heardMidi);
}

TEST_F(CheckBookTest, KeepsHelpOpenOverASecondCheckWhileThePlaceIsStillOff) {
    const auto place = book.nextPlace(phrase, std::nullopt, Seconds(0))->place;
    book.open(phrase, place);
    book.open(phrase, place);
    book.keep(checked());
    EXPECT_EQ(book.places(phrase).front().step, HelpStep::WhichWay);
    PhraseCheck better = checked();
    better.notes[1].verdict = Verdict::Supported;
    book.keep(better);
    book.keep(checked());
    EXPECT_EQ(book.places(phrase).front().step, HelpStep::None);
}

/// All three notes found to be off together.
PhraseCheck checkedRun() {
    PhraseCheck check = checked();
    check.unwritten.clear();
    for (CheckedNote& note : check.notes) {
        note.verdict = Verdict::Contradicted;
        note.suggestedMidi.reset();
        note.nothingBegins = true;
        note.beginsAt = note.range.begin - Seconds(0.5);
        note.together = OffTogether{{Seconds(0), Seconds(3)}, 3, Seconds(-0.5)};
    }
    return check;
}

TEST_F(CheckBookTest, HelpsForARunOnceWhicheverOfItsNotesIsChosen) {
    book.keep(checkedRun());
    ASSERT_EQ(book.places(phrase).size(), 1u);
    const auto place = book.nextPlace(phrase, NoteId{3}, Seconds(0));
    ASSERT_TRUE(place);
    EXPECT_EQ(place->place.kind, PlaceKind::MovedRun);
    book.open(phrase, place->place);
    EXPECT_EQ(book.open(phrase, place->place).step, HelpStep::WhichWay);
    ASSERT_EQ(hintsOf(book, phrase, study).size(), 1u);
    EXPECT_EQ(hintsOf(book, phrase, study)[0].notes, 3);
}

TEST_F(CheckBookTest, GoesOnFromASoundWithinALaterNoteOfARunThatTheCursorIsOnByThat) {
    PhraseCheck within = checkedRun();
    within.unwritten = {{{Seconds(1.5), Seconds(2)}, 66, 0.8}, {{Seconds(3), Seconds(3.5)}, 67, 0.8}};
    book.keep(within);
    std::optional<NoteId> underCursor;
    const auto help = [&] {
        const CheckedPlace place = book.nextPlace(phrase, underCursor, Seconds(0))->place;
        book.open(phrase, place);
        underCursor.reset();
        if (place.note) underCursor = *place.note;
        if (!place.note && place.range.begin < Seconds(2)) underCursor = NoteId{2};
        return place;
    };
    for (int step = 0; step < 3 * 4; ++step)
        help();
    EXPECT_EQ(help().kind, PlaceKind::MovedRun);
    EXPECT_EQ(help().heardMidi, 66);
    EXPECT_EQ(help().heardMidi, 67) << "the run was not asked for by the way";
    EXPECT_EQ(help().kind, PlaceKind::MovedRun);
}

TEST_F(CheckBookTest, KeepsTheHelpForARunWhileNotesOfItAreLeft) {
    book.keep(checkedRun());
    book.open(phrase, book.places(phrase)[0].place);
    Study after = study;
    after.notes[0].onset = Beats(1, 2);
    book.follow(study, after);
    ASSERT_EQ(book.places(phrase).size(), 1u);
    EXPECT_EQ(book.places(phrase)[0].place.notes.size(), 2u) << "the first one was moved";
    EXPECT_EQ(book.places(phrase)[0].step, HelpStep::SomethingOff);
}

} // namespace
} // namespace earwright::ui
