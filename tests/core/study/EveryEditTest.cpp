// What all edits promise together: whatever is done to a study, in any order, it can be saved and opened
// again.
#include "core/study/BeatProposal.h"
#include "core/study/MarkEdits.h"
#include "core/study/MeterEdits.h"
#include "core/study/PlayerEdits.h"
#include "core/study/RecordingEdits.h"
#include "core/study/RhythmReader.h"
#include "core/study/SpellingEdits.h"
#include "core/study/SpreadEdits.h"
#include "core/study/StudyFile.h"
#include "tests/core/study/SampleStudy.h"

#include <functional>
#include <gtest/gtest.h>
#include <random>
#include <string>
#include <vector>

namespace earwright {
namespace {

/// Seeded choices, most of them sensible, some at the edge or beyond it.
class Hand {
public:
    explicit Hand(unsigned seed) : random(seed) {}

    int from(int least, int most) { return std::uniform_int_distribution(least, most)(random); }
    Seconds time() { return Seconds(from(0, 30) == 0 ? from(-1, 1) * 5000.0 : from(-200, 2200) / 100.0); }
    Range<Seconds> range() { return {time(), time()}; }
    Beats beats() { return Beats(from(-60, 240), from(1, 6)); }
    Pitch pitch() {
        return {from(lowestMidi, highestMidi), PitchName{static_cast<Step>(from(0, 6)), from(-2, 2)}};
    }
    Meter meter() { return {from(1, 13), 1 << from(0, 5)}; }
    std::string chords() {
        static const std::vector<std::string> words{"C7", "Fm7b5", " | ", "|", "%",
                                                    "/",  "N.C.",  "\n",  " ", "x\xff"};
        std::string text;
        for (int i = from(0, 9); i > 0; --i)
            text += words[static_cast<std::size_t>(from(0, 9))] + " ";
        return text;
    }
    template <class Id, class List>
    Id idOf(const List& list) {
        if (list.empty()) return Id{1};
        return list[static_cast<std::size_t>(from(0, static_cast<int>(list.size()) - 1))].id;
    }

private:
    std::mt19937 random;
};

using Edit = std::function<Study(const Study&, Hand&)>;

Study addAnySpan(const Study& study, Hand& hand) {
    const Seconds begin = hand.time();
    return addSpan(study, static_cast<SpanKind>(hand.from(0, 2)), "a", {begin, begin + Seconds(0.5)}).study;
}

Study rephrase(const Study& study, Hand& hand) {
    const NoteId id = hand.idOf<NoteId>(study.notes);
    Phrasing phrasing;
    phrasing.graceNotes = {hand.from(0, 127)};
    phrasing.trill = hand.from(-1, 6);
    phrasing.bend = Bend{hand.from(-1, 10), BendShape::UpAndDown};
    phrasing.slurred = hand.from(0, 1) == 1;
    phrasing.slurBy = SlurBy::PullOff;
    const auto kind = allPhrasingKinds[static_cast<std::size_t>(
        hand.from(0, static_cast<int>(allPhrasingKinds.size()) - 1))];
    const std::vector<NoteId> some{id, hand.idOf<NoteId>(study.notes)};
    switch (hand.from(0, 3)) {
    case 0:
        return setPhrasing(study, id, phrasing);
    case 1:
        return addGraceNote(study, some);
    case 2:
        return stepValue(study, some, kind, hand.from(-1, 1));
    default:
        return stepMark(study, some, kind);
    }
}

Study changeAnyMeter(const Study& study, Hand& hand) {
    const auto bars = hand.from(0, 1) == 1 ? std::optional<std::int64_t>(hand.from(0, 4)) : std::nullopt;
    const auto changed = changeMeter(study, hand.from(-3, 20), hand.meter(), bars);
    return changed ? *changed : study;
}

Study writeAnyProposal(const Study& study, Hand& hand) {
    if (!study.beatMap.hasTempo()) return study;
    const Seconds begin = hand.time();
    std::vector<FreeNote> notes;
    for (int i = hand.from(1, 4); i > 0; --i) {
        const Seconds onset = begin + Seconds(hand.from(0, 200) / 100.0);
        notes.push_back({{onset, onset + Seconds(hand.from(1, 60) / 100.0)}, hand.pitch().midi});
    }
    const auto proposals = proposeRhythms(study, notes);
    if (proposals.empty()) return study;
    return writeProposal(
        study, proposals[static_cast<std::size_t>(hand.from(0, static_cast<int>(proposals.size()) - 1))]);
}

const std::vector<Edit> edits{
    [](const Study& s, Hand& h) {
        return addNote(s, {h.pitch(), h.beats(), Beats(h.from(1, 9), 3)}).study;
    },
    [](const Study& s, Hand& h) { return moveNote(s, h.idOf<NoteId>(s.notes), h.pitch(), h.beats()); },
    [](const Study& s, Hand& h) { return setNoteLength(s, h.idOf<NoteId>(s.notes), h.beats()); },
    [](const Study& s, Hand& h) { return setLoudness(s, h.idOf<NoteId>(s.notes), h.from(-5, 15) / 10.0); },
    [](const Study& s, Hand& h) { return removeNote(s, h.idOf<NoteId>(s.notes)); },
    [](const Study& s, Hand& h) {
        return spreadEvenly(s, {h.idOf<NoteId>(s.notes), h.idOf<NoteId>(s.notes), h.idOf<NoteId>(s.notes)});
    },
    rephrase,
    [](const Study& s, Hand& h) { return tapBar(s, h.time()); },
    [](const Study& s, Hand& h) { return tapBeat(s, h.time()); },
    [](const Study& s, Hand& h) { return insertMark(s, h.time()); },
    [](const Study& s, Hand& h) {
        return acceptBeats(s, {{h.time(), h.from(0, 4)}, {h.time(), 1}, {h.time(), 2}});
    },
    [](const Study& s, Hand& h) { return moveMark(s, static_cast<std::size_t>(h.from(0, 12)), h.time()); },
    [](const Study& s, Hand& h) { return removeMark(s, static_cast<std::size_t>(h.from(0, 40))); },
    [](const Study& s, Hand& h) { return startBarOneAt(s, Seconds(h.from(-2, 20))); },
    [](const Study& s, Hand& h) { return h.from(0, 9) == 0 ? setMeter(s, h.meter()) : s; },
    addAnySpan,
    [](const Study& s, Hand& h) { return resizeSpan(s, h.idOf<SpanId>(s.spans), h.range()); },
    [](const Study& s, Hand& h) { return removeSpan(s, h.idOf<SpanId>(s.spans)); },
    [](const Study& s, Hand& h) { return layOutChoruses(s, h.from(-3, 9), h.from(0, 12), h.from(0, 4)); },
    [](const Study& s, Hand& h) { return setForm(s, h.chords()); },
    [](const Study& s, Hand& h) { return overrideBars(s, h.from(-4, 12), h.chords()); },
    [](const Study& s, Hand& h) { return clearOverride(s, h.from(-4, 12)); },
    [](const Study& s, Hand& h) { return setDivision(s, h.from(-9, 40), BeatDivision::Three); },
    [](const Study& s, Hand& h) { return setDivision(s, h.from(-9, 40), BeatDivision::Seven); },
    [](const Study& s, Hand& h) {
        return setKey(s, h.from(-9, 40), KeySignature{h.from(-9, 9), Mode::Minor});
    },
    changeAnyMeter,
    [](const Study& s, Hand& h) { return removeMeterChange(s, h.from(-3, 20)); },
    writeAnyProposal,
    [](const Study& s, Hand& h) {
        return setSwing(s, h.beats(), Swing{h.from(0, 50) / 10.0, h.from(7, 8)});
    },
    [](const Study& s, Hand& h) {
        return setTempoMark(s, {h.beats(), "", h.from(5, 700) / 1.0});
    },
    [](const Study& s, Hand& h) { return setDynamic(s, h.beats(), static_cast<Dynamic>(h.from(0, 8))); },
    [](const Study& s, Hand& h) {
        return setHairpin(s, {h.beats(), h.beats()}, HairpinKind::Louder);
    },
    [](const Study& s, Hand& h) {
        return setText(s, {h.beats(), h.chords(), h.from(0, 1) == 1});
    },
    [](const Study& s, Hand& h) {
        return setRepeat(s, {h.from(-9, 40), h.from(-9, 40), h.from(1, 4), h.from(0, 2)});
    },
    [](const Study& s, Hand& h) { return setPickup(s, Beats(h.from(-2, 40), 1 << h.from(0, 3))); },
    [](const Study& s, Hand& h) { return removeRepeat(s, h.from(-9, 40)); },
    [](const Study& s, Hand& h) { return pinString(s, h.idOf<NoteId>(s.notes), h.from(-2, 9)); },
    [](const Study& s, Hand& h) {
        return setTuning(s, {{h.from(-3, 130), h.from(28, 64)}, h.from(0, 40), h.from(-1, 30)});
    },
    [](const Study& s, Hand& h) { return respell(s, h.idOf<NoteId>(s.notes), *h.pitch().spelling); },
    [](const Study& s, Hand& h) {
        return setPlayers(s, {PitchRange{h.from(-3, 130), h.from(-3, 130)}, StereoPlace::Left});
    },
    [](const Study& s, Hand& h) { return addLooseEnd(s, h.time(), "why?").study; },
    [](const Study& s, Hand& h) { return setLooseEndDone(s, h.idOf<LooseEndId>(s.looseEnds), true); },
    [](const Study& s, Hand& h) {
        return addTakes(s, {{{},
                             "",
                             "a.wav",
                             {Frames(h.from(0, 9)), Frames(h.from(10, 99))},
                             h.time(),
                             0.5,
                             0,
                             "2031-05-04T18:22:07Z",
                             h.from(0, 1) == 1}});
    },
    [](const Study& s, Hand& h) { return chooseTake(s, h.idOf<TakeId>(s.takes)); },
    [](const Study& s, Hand& h) { return renameTake(s, h.idOf<TakeId>(s.takes), "take " + h.chords()); },
    [](const Study& s, Hand& h) { return removeTake(s, h.idOf<TakeId>(s.takes)); },
    [](const Study& s, Hand& h) { return setLoop(s, h.range()); },
    [](const Study& s, Hand& h) { return setSpeed(s, h.from(-5, 30) / 10.0); },
    [](const Study& s, Hand& h) { return setTransposition(s, h.from(-20, 20), h.from(-200, 200)); },
};

TEST(EveryEdit, LeavesAStudyThatCanBeSavedAndOpenedAgain) {
    for (const unsigned seed : {1u, 2u, 3u, 4u}) {
        Hand hand(seed);
        Study study = seed % 2 == 0 ? fullStudy() : Study{};
        for (int round = 0; round < 600; ++round) {
            const auto which = static_cast<std::size_t>(hand.from(0, static_cast<int>(edits.size()) - 1));
            study = edits[which](study, hand);
            if (round % 5 != 0) continue;
            const Result<Study> back = StudyFile::parse(StudyFile::text(study), "line.study");
            ASSERT_TRUE(back.ok()) << "seed " << seed << ", edit " << which << ": " << describe(back.error());
            // Chord texts that are not UTF-8 come back with the replacement character; all else is equal.
            EXPECT_EQ(StudyFile::text(*back), StudyFile::text(study));
        }
    }
}

} // namespace
} // namespace earwright
