#include "core/check/EarRecordKeeping.h"

#include <gtest/gtest.h>
#include <initializer_list>
#include <utility>

namespace earwright {
namespace {

const SpanId phrase{7};
const Range<Seconds> whole{Seconds(0), Seconds(10)};
const Day today{std::chrono::year(2031) / 5 / 4};

/// A check with written notes at times, each with its verdict, and unwritten sounds at times.
PhraseCheck checkOf(std::initializer_list<std::pair<double, Verdict>> notes,
                    std::initializer_list<double> unwritten = {}) {
    PhraseCheck check{phrase, {}, {}};
    for (const auto& [time, verdict] : notes)
        check.notes.push_back(
            {NoteId{check.notes.size() + 1}, {Seconds(time), Seconds(time + 0.2)}, 60, verdict, 0.5, {}});
    for (const double time : unwritten)
        check.unwritten.push_back({{Seconds(time), Seconds(time + 0.2)}, 62, 0.9});
    return check;
}

EarRecord after(const EarRecord& record, const PhraseCheck& check) {
    return afterCheck(record, check, whole, today);
}

const std::vector<EarPlace>& places(const EarRecord& record) {
    return record.phrases.at(0).places;
}

TEST(EarRecordKeeping, TheFirstCheckOpensTheEntryAndCountsNothing) {
    const EarRecord record = after({}, checkOf({{1.0, Verdict::Supported}}));
    ASSERT_EQ(record.phrases.size(), 1u);
    EXPECT_EQ(record.phrases[0].phrase, phrase);
    EXPECT_TRUE(places(record).empty());
    EXPECT_EQ(record.foundByEar(), 0);
}

TEST(EarRecordKeeping, ContradictedNotesAndUnwrittenSoundsBecomePlacesButUnclearNotesDoNot) {
    const EarRecord record =
        after({}, checkOf({{2.0, Verdict::Contradicted}, {3.0, Verdict::Unclear}, {4.0, Verdict::Supported}},
                          {1.0}));
    ASSERT_EQ(places(record).size(), 2u);
    EXPECT_EQ(places(record)[0], (EarPlace{Seconds(1.0), HelpStep::None, false, true, Mistake::Missing}));
    EXPECT_EQ(places(record)[1],
              (EarPlace{Seconds(2.0), HelpStep::None, false, false, Mistake::Pitch, NoteId{1}}));
}

TEST(EarRecordKeeping, AWrongNotePutRightWasFoundByEar) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}}));
    EXPECT_EQ(record.foundByEar(), 0);
    record = after(record, checkOf({{2.04, Verdict::Supported}}));
    EXPECT_EQ(record.foundByEar(), 1);
    EXPECT_EQ(record.foundWithHelp(), 0);
}

TEST(EarRecordKeeping, AMissingNoteWrittenDownWasFoundByEar) {
    EarRecord record = after({}, checkOf({}, {2.0}));
    record = after(record, checkOf({{2.0, Verdict::Supported}}));
    EXPECT_EQ(record.foundByEar(), 1);
}

TEST(EarRecordKeeping, AMissingSoundWrittenWhereItIsCountedWasFoundByEar) {
    // Listed where a swung eighth sounds, written a tenth of a second before, where it is counted.
    EarRecord record = after({}, checkOf({}, {2.0}));
    PhraseCheck written = checkOf({{1.9, Verdict::Supported}});
    record = after(record, written);
    EXPECT_EQ(record.foundByEar(), 0) << "another note";
    written.notes[0].behind = Seconds(0.1);
    record = after(record, written);
    EXPECT_EQ(record.foundByEar(), 1);
}

TEST(EarRecordKeeping, AMissingSoundThatWasShownWasNotFoundByEarThoughItIsWrittenWhereItIsCounted) {
    EarRecord record = after({}, checkOf({}, {2.0}));
    record = withHelp(record, phrase, Seconds(2.0), HelpStep::ShowIt);
    PhraseCheck written = checkOf({{1.9, Verdict::Supported}});
    written.notes[0].behind = Seconds(0.1);
    record = after(record, written);
    ASSERT_EQ(record.phrases[0].found.size(), 1u);
    EXPECT_EQ(record.phrases[0].found[0].help, HelpStep::ShowIt);
    EXPECT_EQ(record.foundByEar(), 0);
}

TEST(EarRecordKeeping, AnExtraNoteTakenOutWasFoundByEar) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}}));
    record = after(record, checkOf({}));
    EXPECT_EQ(record.foundByEar(), 1);
}

TEST(EarRecordKeeping, AWrongNoteTakenOutWhereASoundIsLeftIsNotSettled) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}}));
    record = after(record, checkOf({}, {2.02}));
    ASSERT_EQ(places(record).size(), 1u);
    EXPECT_FALSE(places(record)[0].settled);
    EXPECT_TRUE(places(record)[0].unwritten);
    // From now on only a note can settle it.
    record = after(record, checkOf({}));
    EXPECT_EQ(record.foundByEar(), 0);
    record = after(record, checkOf({{2.0, Verdict::Supported}}));
    EXPECT_EQ(record.foundByEar(), 1);
}

TEST(EarRecordKeeping, AnUnwrittenSoundTheNextCheckNoLongerHearsIsNotFound) {
    EarRecord record = after({}, checkOf({}, {2.0}));
    record = after(record, checkOf({}));
    EXPECT_EQ(record.foundByEar(), 0);
}

TEST(EarRecordKeeping, AnUnclearNoteNeitherSettlesAPlaceNorOpensOne) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}}));
    record = after(record, checkOf({{2.0, Verdict::Unclear}}));
    EXPECT_EQ(record.foundByEar(), 0);
    record = after(record, checkOf({{2.0, Verdict::Supported}}));
    EXPECT_EQ(record.foundByEar(), 1);
    record = after(record, checkOf({{2.0, Verdict::Unclear}}));
    EXPECT_EQ(record.foundByEar(), 1);
}

TEST(EarRecordKeeping, AnUnclearNoteThatBecomesSupportedWasNotFound) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Unclear}}));
    record = after(record, checkOf({{2.0, Verdict::Supported}}));
    EXPECT_EQ(record.foundByEar(), 0);
    EXPECT_EQ(record.foundWithHelp(), 0);
}

TEST(EarRecordKeeping, HelpMakesItFoundWithHelp) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}, {3.0, Verdict::Contradicted}}));
    record = withHelp(record, phrase, Seconds(2.01), HelpStep::WhichWay);
    record = withHelp(record, phrase, Seconds(2.0), HelpStep::SomethingOff);
    EXPECT_EQ(places(record)[0].help, HelpStep::WhichWay);
    EXPECT_EQ(places(record)[1].help, HelpStep::None);
    record = after(record, checkOf({{2.0, Verdict::Supported}, {3.0, Verdict::Supported}}));
    EXPECT_EQ(record.foundByEar(), 1);
    EXPECT_EQ(record.foundWithHelp(), 1);
}

TEST(EarRecordKeeping, HelpAtAnUnclearPlaceIsRememberedSoThatItNeverCountsAsFoundByEar) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Unclear}}));
    record = withHelp(record, phrase, Seconds(2.0), HelpStep::SomethingOff);
    record = after(record, checkOf({{2.0, Verdict::Contradicted}}));
    record = after(record, checkOf({{2.0, Verdict::Supported}}));
    EXPECT_EQ(record.foundByEar(), 0);
}

TEST(EarRecordKeeping, HelpAfterAPlaceIsSettledTakesNothingBack) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}}));
    record = after(record, checkOf({{2.0, Verdict::Supported}}));
    record = withHelp(record, phrase, Seconds(2.0), HelpStep::ShowIt);
    EXPECT_EQ(record.foundByEar(), 1);
}

TEST(EarRecordKeeping, APlaceSpoiledAgainIsOpenAgainAndCountsOnceWhenPutRight) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}}));
    record = after(record, checkOf({{2.0, Verdict::Supported}}));
    record = after(record, checkOf({{2.0, Verdict::Contradicted}}));
    EXPECT_EQ(record.foundByEar(), 0);
    record = after(record, checkOf({{2.0, Verdict::Supported}}));
    EXPECT_EQ(record.foundByEar(), 1);
    EXPECT_EQ(places(record).size(), 1u);
}

TEST(EarRecordKeeping, NeighboursCloserThanTheToleranceKeepTheirOwnPlaces) {
    // A grace note 50 ms before its note: each verdict goes with the nearer place.
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}, {2.05, Verdict::Contradicted}}));
    ASSERT_EQ(places(record).size(), 2u);
    record = after(record, checkOf({{2.0, Verdict::Supported}, {2.05, Verdict::Contradicted}}));
    EXPECT_TRUE(places(record)[0].settled);
    EXPECT_FALSE(places(record)[1].settled);
    EXPECT_EQ(places(record).size(), 2u);
}

TEST(EarRecordKeeping, PlacesOutsideWhatWasCheckedStayAsTheyAre) {
    EarRecord record = after({}, checkOf({{8.0, Verdict::Contradicted}}));
    record = afterCheck(record, checkOf({}), {Seconds(0), Seconds(5)}, today);
    EXPECT_EQ(record.foundByEar(), 0);
}

TEST(EarRecordKeeping, PhrasesAreKeptApart) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Contradicted}}));
    PhraseCheck other = checkOf({{2.0, Verdict::Supported}});
    other.phrase = SpanId{8};
    record = after(record, other);
    EXPECT_EQ(record.phrases.size(), 2u);
    EXPECT_EQ(record.foundByEar(), 0);
}

const std::vector<FoundNote>& found(const EarRecord& record) {
    return record.phrases.at(0).found;
}

/// One checked note.
CheckedNote noteOf(std::uint64_t id, double time, int midi, Verdict verdict,
                   std::optional<int> suggested = std::nullopt) {
    return {NoteId{id}, {Seconds(time), Seconds(time + 0.2)}, midi, verdict, 0.5, suggested};
}

PhraseCheck checkWith(std::vector<CheckedNote> notes) {
    return {phrase, std::move(notes), {}};
}

TEST(FoundNotes, ANoteRightAtOnceIsFoundUnaidedWithItsDayAndItsInterval) {
    const EarRecord record =
        after({}, checkWith({noteOf(1, 1, 60, Verdict::Supported), noteOf(2, 2, 67, Verdict::Supported),
                             noteOf(3, 3, 63, Verdict::Unclear), noteOf(4, 4, 65, Verdict::Supported)}));
    EXPECT_EQ(found(record), (std::vector<FoundNote>{
                                 {Seconds(1), NoteId{1}, today, HelpStep::None, std::nullopt, std::nullopt},
                                 {Seconds(2), NoteId{2}, today, HelpStep::None, 7, std::nullopt},
                                 {Seconds(4), NoteId{4}, today, HelpStep::None, 2, std::nullopt}}));
}

TEST(FoundNotes, KeepTheDayOfTheCheckThatFirstSupportedThem) {
    const PhraseCheck check = checkWith({noteOf(1, 1, 60, Verdict::Supported)});
    const EarRecord first = after({}, check);
    const EarRecord later = afterCheck(first, check, whole, today + std::chrono::days(9));
    EXPECT_EQ(later, first);
}

TEST(FoundNotes, KeepWhatWasWrongFirst) {
    struct Case {
        std::optional<int> suggested;
        bool nothingBegins;
        Mistake mistake;
    };
    for (const Case& one : {Case{72, false, Mistake::Octave}, Case{36, false, Mistake::Octave},
                            Case{59, false, Mistake::Semitone}, Case{62, false, Mistake::Pitch},
                            Case{std::nullopt, false, Mistake::Pitch}, Case{59, true, Mistake::Rhythm}}) {
        CheckedNote wrong = noteOf(1, 1, 60, Verdict::Contradicted, one.suggested);
        wrong.nothingBegins = one.nothingBegins;
        EarRecord record = after({}, checkWith({wrong}));
        EXPECT_TRUE(found(record).empty());
        // Still wrong, in another way: the first mistake stays.
        record = after(record, checkWith({noteOf(1, 1, 63, Verdict::Contradicted, 62)}));
        record = after(record, checkWith({noteOf(1, 1, 62, Verdict::Supported)}));
        ASSERT_EQ(found(record).size(), 1u);
        EXPECT_EQ(found(record)[0].mistake, one.mistake);
        EXPECT_TRUE(found(record)[0].isUnaided());
    }
}

TEST(FoundNotes, AMissingNoteWrittenDownWasMissingFirst) {
    EarRecord record = after({}, checkOf({}, {2.0}));
    record = after(record, checkOf({{2.03, Verdict::Supported}}));
    ASSERT_EQ(found(record).size(), 1u);
    EXPECT_EQ(found(record)[0].mistake, Mistake::Missing);
}

// A grace note of the record that nobody wrote sounds just before the note it leads to.
TEST(FoundNotes, ANoteBesideASoundThatIsStillUnwrittenIsFoundForItself) {
    EarRecord record = after({}, checkOf({{2.0, Verdict::Supported}}, {1.95}));
    ASSERT_EQ(record.phrases[0].found.size(), 1u);
    EXPECT_FALSE(record.phrases[0].found[0].mistake) << "it was right at once";
    EarRecord shown = withHelp(after({}, checkOf({}, {1.95})), phrase, Seconds(1.95), HelpStep::ShowIt);
    shown = after(shown, checkOf({{2.0, Verdict::Supported}}, {1.95}));
    ASSERT_EQ(shown.phrases[0].found.size(), 1u);
    EXPECT_EQ(shown.phrases[0].found[0].help, HelpStep::None) << "the help was for the grace note";
}

TEST(FoundNotes, CountAsHelpedFromTheHighestStepOpened) {
    EarRecord record = after({}, checkWith({noteOf(1, 2, 60, Verdict::Contradicted, 62)}));
    record = withHelp(record, phrase, Seconds(2), HelpStep::SomethingOff);
    record = withHelp(record, phrase, Seconds(2), HelpStep::HowFar);
    record = after(record, checkWith({noteOf(1, 2, 62, Verdict::Supported)}));
    ASSERT_EQ(found(record).size(), 1u);
    EXPECT_EQ(found(record)[0].help, HelpStep::HowFar);
}

TEST(FoundNotes, AHelpedNoteThatIsMovedStillCountsAsHelped) {
    CheckedNote early = noteOf(1, 2, 62, Verdict::Contradicted);
    early.nothingBegins = true;
    EarRecord record = after({}, checkWith({early}));
    record = withHelp(record, phrase, Seconds(2), HelpStep::WhichWay);
    record = after(record, checkWith({noteOf(1, 2.4, 62, Verdict::Supported)}));
    ASSERT_EQ(found(record).size(), 1u);
    EXPECT_EQ(found(record)[0].help, HelpStep::WhichWay);
    EXPECT_EQ(found(record)[0].mistake, Mistake::Rhythm);
    // An unclear note has no place until help is opened for it; the help goes with the note as well.
    record = after({}, checkWith({noteOf(1, 2, 62, Verdict::Unclear)}));
    record = withHelp(record, phrase, Seconds(2), HelpStep::ShowIt, NoteId{1});
    record = after(record, checkWith({noteOf(1, 2.4, 62, Verdict::Supported)}));
    EXPECT_EQ(found(record).at(0).help, HelpStep::ShowIt);
}

/// The help with which a note was found. Requires: it was.
HelpStep helpOf(const EarRecord& record, std::uint64_t id) {
    for (const FoundNote& note : found(record))
        if (note.note == NoteId{id}) return note.help;
    ADD_FAILURE() << "note " << id << " was not found";
    return HelpStep::None;
}

TEST(FoundNotes, AHelpedNoteThatIsDeletedAndWrittenAnewStillCountsAsHelped) {
    CheckedNote early = noteOf(1, 2, 62, Verdict::Contradicted);
    early.nothingBegins = true;
    // Nearer, but found without the help before it was opened.
    const CheckedNote other = noteOf(2, 2.07, 64, Verdict::Supported);
    EarRecord asked = after({}, checkWith({early, other}));
    asked = withHelp(asked, phrase, Seconds(2), HelpStep::HowFar, NoteId{1});
    const CheckedNote anew = noteOf(3, 2.09, 62, Verdict::Supported);
    const EarRecord moved = after(asked, checkWith({other, anew}));
    EXPECT_EQ(helpOf(moved, 3), HelpStep::HowFar);
    EXPECT_EQ(found(moved)[1].mistake, Mistake::Rhythm);
    EXPECT_EQ(helpOf(moved, 2), HelpStep::None);
    // First unclear, later supported: the help has not got lost meanwhile.
    EarRecord later = after(asked, checkWith({other, noteOf(3, 2.09, 62, Verdict::Unclear)}));
    later = after(later, checkWith({other, anew}));
    EXPECT_EQ(helpOf(later, 3), HelpStep::HowFar);
    // One note takes the help on, the nearest, and none that is farther off than help looks.
    const EarRecord two = after(asked, checkWith({other, anew, noteOf(4, 2.2, 62, Verdict::Supported)}));
    EXPECT_EQ(helpOf(two, 3), HelpStep::HowFar);
    EXPECT_EQ(helpOf(two, 4), HelpStep::None);
    const EarRecord far = after(asked, checkWith({noteOf(3, 1.7, 62, Verdict::Supported), other}));
    EXPECT_EQ(helpOf(far, 3), HelpStep::None);
    // While the helped note is there, the help stays with it.
    const EarRecord beside = after(asked, checkWith({early, other, anew}));
    EXPECT_EQ(helpOf(beside, 3), HelpStep::None);
}

TEST(FoundNotes, HelpGivesAPlaceWithoutANoteTheOneItWasOpenedFor) {
    // As older files have places: nobody's.
    EarRecord record{{{phrase, {{Seconds(2)}}, {}}}};
    record = withHelp(record, phrase, Seconds(2.01), HelpStep::WhichWay, NoteId{1});
    EXPECT_EQ(places(record).at(0).note, NoteId{1});
    record = after(record, checkWith({noteOf(1, 2.4, 62, Verdict::Supported)}));
    EXPECT_EQ(found(record).at(0).help, HelpStep::WhichWay) << "it goes with the note";
    record = withHelp(record, phrase, Seconds(2.01), HelpStep::ShowIt, NoteId{2});
    EXPECT_EQ(places(record).size(), 2u) << "another note has a place of its own";
}

TEST(FoundNotes, ANoteWrittenWrongAgainIsNotFoundUntilItIsPutRightAndThenWithTheHelpOpenedMeanwhile) {
    EarRecord record = after({}, checkWith({noteOf(1, 2, 62, Verdict::Supported)}));
    record = after(record, checkWith({noteOf(1, 2, 61, Verdict::Contradicted, 62)}));
    EXPECT_TRUE(found(record).empty());
    record = withHelp(record, phrase, Seconds(2), HelpStep::ShowIt);
    record = after(record, checkWith({noteOf(1, 2, 62, Verdict::Supported)}));
    ASSERT_EQ(found(record).size(), 1u);
    EXPECT_EQ(found(record)[0].help, HelpStep::ShowIt);
    EXPECT_EQ(found(record)[0].mistake, Mistake::Semitone);
}

TEST(FoundNotes, ANoteWrittenAnewAtItsPlaceIsTheSameNote) {
    const EarRecord record = after({}, checkWith({noteOf(1, 2, 62, Verdict::Supported)}));
    const EarRecord anew = afterCheck(record, checkWith({noteOf(8, 2.02, 62, Verdict::Supported)}), whole,
                                      today + std::chrono::days(1));
    ASSERT_EQ(found(anew).size(), 1u);
    EXPECT_EQ(found(anew)[0].day, today);
    EXPECT_EQ(found(anew)[0].note, NoteId{8});
}

TEST(FoundNotes, HelpForANeighbourCloserThanTheToleranceIsNotTheirs) {
    EarRecord record = after(
        {}, checkWith({noteOf(1, 2, 62, Verdict::Contradicted), noteOf(2, 2.05, 64, Verdict::Supported)}));
    record = withHelp(record, phrase, Seconds(2), HelpStep::ShowIt, NoteId{1});
    record = after(
        record, checkWith({noteOf(1, 2, 63, Verdict::Supported), noteOf(2, 2.05, 64, Verdict::Supported)}));
    ASSERT_EQ(found(record).size(), 2u);
    EXPECT_EQ(found(record)[0].help, HelpStep::ShowIt);
    EXPECT_EQ(found(record)[1].help, HelpStep::None);
    EXPECT_EQ(found(record)[1].mistake, std::nullopt);
}

} // namespace
} // namespace earwright
