#include "core/check/HintLadder.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

const Range<Seconds> range{Seconds(1), Seconds(1.2)};

CheckedPlace wrongPitch() {
    return {PlaceKind::WrongPitch, range, NoteId{1}, 65, 62};
}

TEST(HintLadder, SaysFirstOnlyThatSomethingIsOff) {
    const Hint hint = hintAt(wrongPitch(), HelpStep::SomethingOff);
    EXPECT_EQ(hint.range, range);
    EXPECT_FALSE(hint.kind || hint.direction || hint.semitones || hint.heardMidi);
}

TEST(HintLadder, SaysThenWhichWay) {
    const Hint hint = hintAt(wrongPitch(), HelpStep::WhichWay);
    EXPECT_EQ(hint.kind, PlaceKind::WrongPitch);
    EXPECT_EQ(hint.direction, -1);
    EXPECT_FALSE(hint.semitones || hint.heardMidi);
}

TEST(HintLadder, SaysThenHowFar) {
    const Hint hint = hintAt(wrongPitch(), HelpStep::HowFar);
    EXPECT_EQ(hint.semitones, -3);
    EXPECT_FALSE(hint.heardMidi);
}

TEST(HintLadder, ShowsItInTheEnd) {
    EXPECT_EQ(hintAt(wrongPitch(), HelpStep::ShowIt).heardMidi, 62);
}

TEST(HintLadder, MeasuresAnUnwrittenSoundFromTheNoteBefore) {
    const CheckedPlace place{PlaceKind::Unwritten, range, std::nullopt, std::nullopt, 70};
    EXPECT_EQ(hintAt(place, HelpStep::HowFar, 65).semitones, 5);
    EXPECT_FALSE(hintAt(place, HelpStep::HowFar).semitones);
}

TEST(HintLadder, TellsFromTheThirdStepWhetherANoteIsExtraOrMoved) {
    CheckedPlace place{PlaceKind::NothingThere, range, NoteId{1}, 65, {}, range.begin - Seconds(0.15)};
    EXPECT_EQ(hintAt(place, HelpStep::WhichWay).kind, PlaceKind::NothingThere);
    EXPECT_FALSE(hintAt(place, HelpStep::WhichWay).moved);
    EXPECT_EQ(hintAt(place, HelpStep::HowFar).moved, -1);
    place.beginsAt = range.begin + Seconds(0.15);
    EXPECT_EQ(hintAt(place, HelpStep::ShowIt).moved, 1);
    place.beginsAt.reset();
    EXPECT_FALSE(hintAt(place, HelpStep::ShowIt).moved);
}

TEST(HintLadder, TellsWhereANoteBeginsAtTheLastStepOnly) {
    const Seconds there = range.begin + Seconds(0.15);
    const CheckedPlace place{PlaceKind::NothingThere, range, NoteId{1}, 65, {}, there};
    for (const HelpStep step : {HelpStep::SomethingOff, HelpStep::WhichWay, HelpStep::HowFar})
        EXPECT_FALSE(hintAt(place, step).beginsAt) << static_cast<int>(step);
    EXPECT_EQ(hintAt(place, HelpStep::ShowIt).beginsAt, there);
}

TEST(HintLadder, KeepsWhatIsInDoubtAndTheTimeOfAnUnclearNote) {
    PhraseCheck check;
    check.notes.push_back({NoteId{1}, range, 60, Verdict::Unclear, 0.6, {}});
    check.notes.back().doubt = Doubt::Beginning;
    check.notes.back().beginsAt = range.begin + Seconds(0.1);
    const CheckedPlace place = placesOf(check).front();
    const Hint first = hintAt(place, HelpStep::SomethingOff);
    EXPECT_TRUE(first.isUnsure) << "its head says so";
    EXPECT_FALSE(first.doubt);
    EXPECT_EQ(hintAt(place, HelpStep::WhichWay).doubt, Doubt::Beginning);
    EXPECT_EQ(hintAt(place, HelpStep::HowFar).moved, 1);
    EXPECT_FALSE(hintAt(wrongPitch(), HelpStep::ShowIt).isUnsure);
}

TEST(HintLadder, SaysOnlyThatThePitchIsAnotherWhereItIsNotKnown) {
    PhraseCheck check;
    check.notes.push_back({NoteId{1}, {Seconds(2), Seconds(3)}, 60, Verdict::Contradicted, 0.05, {}});
    const auto places = placesOf(check);
    ASSERT_EQ(places.size(), 1u);
    EXPECT_EQ(places[0].kind, PlaceKind::WrongPitch);
    const Hint hint = hintAt(places[0], HelpStep::ShowIt);
    EXPECT_EQ(hint.direction, 0);
    EXPECT_FALSE(hint.semitones);
    EXPECT_FALSE(hint.heardMidi);
}

TEST(HintLadder, TellsOfATrillStepByStepHowFarItGoes) {
    PhraseCheck check;
    check.notes.push_back({NoteId{1}, range, 74, Verdict::Supported, 0.99, {}});
    check.otherTrills.push_back({NoteId{1}, range, 74, 2, 1, Verdict::Contradicted});
    const auto places = placesOf(check);
    ASSERT_EQ(places.size(), 1u);
    EXPECT_EQ(places[0].note, NoteId{1});
    const Hint first = hintAt(places[0], HelpStep::SomethingOff);
    EXPECT_FALSE(first.isUnsure);
    EXPECT_FALSE(first.kind) << "not that it is the trill";
    EXPECT_FALSE(first.direction);
    const Hint second = hintAt(places[0], HelpStep::WhichWay);
    EXPECT_EQ(second.kind, PlaceKind::OtherTrill);
    EXPECT_EQ(second.direction, -1);
    EXPECT_FALSE(second.trillHeard);
    EXPECT_FALSE(second.semitones);
    const Hint third = hintAt(places[0], HelpStep::HowFar);
    EXPECT_EQ(third.trillHeard, 1);
    EXPECT_EQ(third.semitones, -1);
    EXPECT_FALSE(third.heardMidi);
    EXPECT_EQ(hintAt(places[0], HelpStep::ShowIt).heardMidi, 75);
}

TEST(HintLadder, TellsOfATrillThatIsNotWrittenThatItIsOneThenHowFarItGoes) {
    PhraseCheck check;
    check.notes.push_back({NoteId{1}, range, 74, Verdict::Supported, 0.99, {}});
    check.otherTrills.push_back({NoteId{1}, range, 74, 0, 2, Verdict::Contradicted});
    const auto places = placesOf(check);
    ASSERT_EQ(places.size(), 1u);
    EXPECT_FALSE(hintAt(places[0], HelpStep::SomethingOff).kind);
    const Hint second = hintAt(places[0], HelpStep::WhichWay);
    EXPECT_EQ(second.kind, PlaceKind::MissingTrill);
    EXPECT_FALSE(second.trillHeard);
    EXPECT_EQ(hintAt(places[0], HelpStep::HowFar).trillHeard, 2);
    EXPECT_EQ(hintAt(places[0], HelpStep::ShowIt).heardMidi, 76);
}

TEST(HintLadder, HasOnePlaceForANoteThatIsUnclearAndWhoseTrillMayGoElsewhere) {
    PhraseCheck check;
    check.notes.push_back({NoteId{1}, range, 74, Verdict::Unclear, 0.6, {}});
    check.otherTrills.push_back({NoteId{1}, range, 74, 1, 2, Verdict::Unclear});
    const auto places = placesOf(check);
    ASSERT_EQ(places.size(), 1u);
    EXPECT_EQ(places[0].kind, PlaceKind::OtherTrill);
    EXPECT_TRUE(hintAt(places[0], HelpStep::SomethingOff).isUnsure);
}

TEST(HintLadder, SaysFromTheSecondStepOnThatWhatIsHeardMayBeTheBand) {
    PhraseCheck check;
    check.notes.push_back({NoteId{1}, range, 60, Verdict::Contradicted, 0.05, 62});
    EXPECT_FALSE(placesOf(check)[0].mayBeBand) << "where nothing tells";
    check.notes[0].suggestedScore = 0.97;
    EXPECT_FALSE(placesOf(check)[0].mayBeBand);
    check.notes[0].suggestedScore = 0.8;
    const auto places = placesOf(check);
    EXPECT_TRUE(places[0].mayBeBand);
    EXPECT_FALSE(hintAt(places[0], HelpStep::SomethingOff).mayBeBand);
    for (const HelpStep step : {HelpStep::WhichWay, HelpStep::HowFar, HelpStep::ShowIt})
        EXPECT_TRUE(hintAt(places[0], step).mayBeBand);
    check.notes[0].verdict = Verdict::Unclear;
    EXPECT_FALSE(placesOf(check)[0].mayBeBand) << "what is unclear is not promised anyway";
}

TEST(HintLadder, PutsTheOpenPlacesOfACheckInOrder) {
    PhraseCheck check;
    check.notes.push_back({NoteId{1}, {Seconds(2), Seconds(3)}, 60, Verdict::Supported, 0.99, {}});
    check.notes.push_back({NoteId{2}, {Seconds(3), Seconds(4)}, 60, Verdict::Contradicted, 0.05, 62});
    check.notes.push_back({NoteId{3}, {Seconds(4), Seconds(5)}, 60, Verdict::Contradicted, 0.05, {}, true});
    check.notes.push_back({NoteId{4}, {Seconds(5), Seconds(6)}, 60, Verdict::Unclear, 0.6, {}});
    check.unwritten.push_back({{Seconds(1), Seconds(1.1)}, 67, 0.9});
    const auto places = placesOf(check);
    ASSERT_EQ(places.size(), 4u);
    EXPECT_EQ(places[0].kind, PlaceKind::Unwritten);
    EXPECT_EQ(places[1].kind, PlaceKind::WrongPitch);
    EXPECT_EQ(places[2].kind, PlaceKind::NothingThere);
    EXPECT_EQ(places[3].kind, PlaceKind::Unclear);
}

/// A check of five notes that are all off in one way, the second of them right by chance.
PhraseCheck checkOfRun(const OffTogether& together) {
    PhraseCheck check;
    for (std::uint64_t i = 1; i <= 5; ++i) {
        const Seconds begin(0.25 * static_cast<double>(i));
        CheckedNote note{NoteId{i}, {begin, begin + Seconds(0.2)}, 65, Verdict::Contradicted};
        note.nothingBegins = together.isMoved();
        if (together.isMoved()) note.beginsAt = begin + together.later;
        if (!together.isMoved()) note.suggestedMidi = 65 + together.semitones;
        note.together = together;
        check.notes.push_back(note);
    }
    check.notes[1].verdict = Verdict::Supported;
    return check;
}

const Range<Seconds> runRange{Seconds(0.25), Seconds(1.45)};

CheckedPlace movedRun(double later, std::optional<Beats> step = std::nullopt) {
    const auto places = placesOf(checkOfRun({runRange, 5, Seconds(later), step}));
    EXPECT_EQ(places.size(), 1u) << "one thing is off";
    return places.front();
}

CheckedPlace octaveRun(int semitones) {
    const auto places = placesOf(checkOfRun({runRange, 5, Seconds(0), {}, semitones}));
    EXPECT_EQ(places.size(), 1u) << "one thing is off";
    return places.front();
}

TEST(HintLadder, MakesOnePlaceOfARunThatIsOffInOneWay) {
    const CheckedPlace place = movedRun(-0.25);
    EXPECT_EQ(place.kind, PlaceKind::MovedRun);
    EXPECT_EQ(place.note, NoteId{1});
    EXPECT_EQ(place.notes.size(), 5u);
    EXPECT_TRUE(place.isAbout(NoteId{4}));
    EXPECT_FALSE(place.isAbout(NoteId{6}));
    EXPECT_EQ(octaveRun(12).kind, PlaceKind::OctaveRun);
}

TEST(HintLadder, SpeaksOfTheLastNoteOfARunAloneOnceTheOthersWereChanged) {
    PhraseCheck check = checkOfRun({runRange, 5, Seconds(-0.25)});
    check.notes.erase(check.notes.begin(), check.notes.begin() + 4);
    const auto places = placesOf(check);
    ASSERT_EQ(places.size(), 1u);
    EXPECT_EQ(places[0].kind, PlaceKind::NothingThere);
    EXPECT_EQ(hintAt(places[0], HelpStep::HowFar).moved, -1);
}

TEST(HintLadder, TellsOfAMovedRunFirstItsNotesThenItsPlacesThenTheWayThenTheDistance) {
    const CheckedPlace place = movedRun(-0.25, -Beats(1, 2));
    const Hint first = hintAt(place, HelpStep::SomethingOff);
    EXPECT_EQ(first.notes, 5);
    EXPECT_FALSE(first.kind);
    const Hint second = hintAt(place, HelpStep::WhichWay);
    EXPECT_EQ(second.kind, PlaceKind::MovedRun);
    EXPECT_FALSE(second.moved || second.apart || second.apartInBeats || second.beginsAt);
    const Hint third = hintAt(place, HelpStep::HowFar);
    EXPECT_EQ(third.moved, -1);
    EXPECT_FALSE(third.apart || third.apartInBeats || third.beginsAt);
    const Hint last = hintAt(place, HelpStep::ShowIt);
    EXPECT_EQ(last.apart, Seconds(-0.25));
    EXPECT_EQ(last.apartInBeats, -Beats(1, 2));
    EXPECT_EQ(last.beginsAt, Seconds(0));
}

TEST(HintLadder, TellsOfARunInAnotherOctaveWhichOneFromTheThirdStep) {
    const Hint second = hintAt(octaveRun(12), HelpStep::WhichWay);
    EXPECT_EQ(second.kind, PlaceKind::OctaveRun);
    EXPECT_EQ(second.direction, 0);
    EXPECT_FALSE(second.semitones || second.heardMidi);
    EXPECT_EQ(hintAt(octaveRun(12), HelpStep::HowFar).direction, 1);
    EXPECT_EQ(hintAt(octaveRun(-12), HelpStep::HowFar).semitones, -12);
    EXPECT_EQ(hintAt(octaveRun(-12), HelpStep::ShowIt).heardMidi, 53);
}

TEST(HintLadder, SaysTheSameOfEveryRunWhateverAStepKeepsBack) {
    const CheckedPlace run = movedRun(-0.25, -Beats(1, 2));
    for (const CheckedPlace& other :
         {movedRun(0.12), movedRun(-0.5, -Beats(1)), octaveRun(12), octaveRun(-12)})
        EXPECT_EQ(hintAt(other, HelpStep::SomethingOff), hintAt(run, HelpStep::SomethingOff));
    EXPECT_EQ(hintAt(movedRun(0.12), HelpStep::WhichWay), hintAt(run, HelpStep::WhichWay));
    EXPECT_EQ(hintAt(octaveRun(12), HelpStep::WhichWay), hintAt(octaveRun(-12), HelpStep::WhichWay));
    EXPECT_EQ(hintAt(movedRun(-0.5, -Beats(1)), HelpStep::HowFar), hintAt(run, HelpStep::HowFar));
}

/// Any two places whose truths differ only in what a step keeps back must look the same at that step.
TEST(HintLadder, LooksTheSameWhateverAStepKeepsBack) {
    const auto wrongPitch = [&](int heard) {
        return CheckedPlace{PlaceKind::WrongPitch, range, NoteId{1}, 60, heard, {}};
    };
    const auto unwritten = [&](int heard) {
        return CheckedPlace{PlaceKind::Unwritten, range, std::nullopt, std::nullopt, heard, {}};
    };
    const auto extra = [&](std::optional<Seconds> begins) {
        return CheckedPlace{PlaceKind::NothingThere, range, NoteId{1}, 60, std::nullopt, begins};
    };
    const std::vector<CheckedPlace> all{wrongPitch(61), wrongPitch(72),      wrongPitch(48),
                                        unwritten(64),  extra(std::nullopt), extra(Seconds(1.1))};
    for (const CheckedPlace& place : all)
        EXPECT_EQ(hintAt(place, HelpStep::SomethingOff, 60), hintAt(all.front(), HelpStep::SomethingOff, 60))
            << "that something is off, and nothing of what";
    for (int heard = 61; heard <= 84; ++heard) {
        EXPECT_EQ(hintAt(wrongPitch(heard), HelpStep::WhichWay), hintAt(wrongPitch(61), HelpStep::WhichWay))
            << "which way, and not how far";
        EXPECT_EQ(hintAt(unwritten(heard), HelpStep::WhichWay, 60),
                  hintAt(unwritten(61), HelpStep::WhichWay, 60));
    }
    EXPECT_EQ(hintAt(extra(std::nullopt), HelpStep::WhichWay),
              hintAt(extra(Seconds(1.1)), HelpStep::WhichWay))
        << "that nothing begins here, and not where it does";
    // Without a note before it, how far an unwritten sound lies says nothing of its pitch.
    for (int heard = 40; heard <= 84; ++heard)
        EXPECT_EQ(hintAt(unwritten(heard), HelpStep::HowFar), hintAt(unwritten(40), HelpStep::HowFar));
}

} // namespace
} // namespace earwright
