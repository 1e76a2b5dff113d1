#include "core/check/EarRecordKeeping.h"

#include <gtest/gtest.h>
#include <initializer_list>
#include <utility>

namespace earwright {
namespace {

const SpanId phrase{7};
const Range<Seconds> whole{Seconds(0), Seconds(10)};

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
    return afterCheck(record, check, whole);
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
    EXPECT_EQ(places(record)[0], (EarPlace{Seconds(1.0), HelpStep::None, false, true}));
    EXPECT_EQ(places(record)[1], (EarPlace{Seconds(2.0), HelpStep::None, false, false}));
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
    record = afterCheck(record, checkOf({}), {Seconds(0), Seconds(5)});
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

} // namespace
} // namespace earwright
