#include "core/check/TrillCheck.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

constexpr Range<Seconds> played{Seconds(2.0), Seconds(2.8)};

std::vector<Note> trilled(int semitones) {
    Note note;
    note.id = NoteId{1};
    note.pitch.midi = 74;
    note.phrasing.trill = semitones;
    return {note};
}

std::vector<CheckedNote> answered(Verdict verdict, std::optional<int> suggested = std::nullopt) {
    CheckedNote checked;
    checked.note = NoteId{1};
    checked.range = played;
    checked.midi = 74;
    checked.verdict = verdict;
    checked.suggestedMidi = suggested;
    return {checked};
}

std::vector<UnwrittenSound> soundsOf(const std::vector<int>& pitches) {
    std::vector<UnwrittenSound> sounds;
    for (std::size_t i = 0; i < pitches.size(); ++i) {
        const Seconds begins(2.1 + 0.15 * static_cast<double>(i));
        sounds.push_back({{begins, begins + Seconds(0.07)}, pitches[i], 0.8});
    }
    return sounds;
}

/// Clearly heard, and trilled over so many semitones, or plain; its trace stays `away` from the written pitch
/// for a half of it.
std::vector<NotePlaying> playing(std::optional<double> semitones, double away = 0, double clearShare = 0.9) {
    NotePlaying note;
    note.heard = played;
    note.begins = true;
    note.pitch.clearShare = clearShare;
    if (semitones) note.pitch.trill = HeardTrill{7, *semitones};
    for (int i = 0; i < 80; ++i) {
        const double cents = 100 * away + (i % 2 == 0 ? 0 : 100 * semitones.value_or(0));
        note.contour.push_back({played.begin + Seconds(0.01 * i), cents, 1});
    }
    return {note};
}

TEST(TrillCheck, IsWorthMeasuringWhereATrillIsWrittenAndNothingElseIsWrong) {
    EXPECT_TRUE(mayTrillElsewhere(trilled(1)[0], answered(Verdict::Supported)[0]));
    EXPECT_TRUE(mayTrillElsewhere(trilled(1)[0], answered(Verdict::Unclear)[0]));
    EXPECT_FALSE(mayTrillElsewhere(trilled(1)[0], answered(Verdict::Contradicted, 70)[0]));
    EXPECT_TRUE(mayTrillElsewhere(trilled(1)[0], answered(Verdict::Contradicted, 76)[0]))
        << "it may begin with its other note";
    Note plain = trilled(1)[0];
    plain.phrasing.trill.reset();
    EXPECT_FALSE(mayTrillElsewhere(plain, answered(Verdict::Supported)[0]));
}

TEST(TrillCheck, TellsATrillWhoseOtherNoteIsAmongNoOtherSounds) {
    const auto wide = trillsHeard({}, trilled(1), answered(Verdict::Supported), playing(2));
    ASSERT_EQ(wide.trills.size(), 1u);
    EXPECT_EQ(wide.trills[0].heard, 2);
    EXPECT_EQ(wide.trills[0].verdict, Verdict::Contradicted);
    EXPECT_TRUE(trillsHeard({}, trilled(2), answered(Verdict::Supported), playing(2)).trills.empty());
    EXPECT_TRUE(trillsHeard({}, trilled(1), answered(Verdict::Supported), playing({})).trills.empty());
    EXPECT_TRUE(trillsHeard({}, trilled(1), answered(Verdict::Unclear), playing(2)).trills.empty())
        << "its own pitch is not sure";
}

TEST(TrillCheck, TellsHowFarATrillGoesInsteadOfEachTimeRound) {
    const auto heard =
        trillsHeard(soundsOf({76, 76, 81}), trilled(1), answered(Verdict::Supported), playing(1.9));
    const OtherTrill expected{NoteId{1}, played, 74, 1, 2, Verdict::Contradicted};
    ASSERT_EQ(heard.trills.size(), 1u);
    EXPECT_EQ(heard.trills[0], expected);
    ASSERT_EQ(heard.others.size(), 1u);
    EXPECT_EQ(heard.others[0].midi, 81);
    EXPECT_EQ(heard.notes, answered(Verdict::Supported)) << "its own pitch is right";
}

TEST(TrillCheck, TellsAWholeToneThatIsPlayedAsASemitone) {
    const auto heard = trillsHeard(soundsOf({75}), trilled(2), answered(Verdict::Supported), playing(1.05));
    ASSERT_EQ(heard.trills.size(), 1u);
    EXPECT_EQ(heard.trills[0].heard, 1);
    EXPECT_TRUE(heard.others.empty());
}

TEST(TrillCheck, TellsATrillThatIsNotWrittenInsteadOfEachTimeRound) {
    auto plain = trilled(2);
    plain[0].phrasing.trill.reset();
    const auto supported = answered(Verdict::Supported);
    EXPECT_TRUE(mayBeATrill(plain[0], supported[0], soundsOf({76, 76})));
    EXPECT_TRUE(mayBeATrill(plain[0], supported[0], soundsOf({76, 74})));
    EXPECT_FALSE(mayBeATrill(plain[0], supported[0], soundsOf({76}))) << "a note is left out";
    EXPECT_TRUE(mayBeATrill(plain[0], supported[0], soundsOf({74, 74})));
    EXPECT_FALSE(mayBeATrill(plain[0], supported[0], soundsOf({71, 71})));
    EXPECT_FALSE(mayBeATrill(plain[0], answered(Verdict::Contradicted, 70)[0], soundsOf({76, 76})));
    EXPECT_FALSE(mayBeATrill(trilled(2)[0], supported[0], soundsOf({76, 76})));
    const auto heard = trillsHeard(soundsOf({76, 74, 76, 81}), plain, supported, playing(1.9));
    ASSERT_EQ(heard.trills.size(), 1u);
    EXPECT_EQ(heard.trills[0], (OtherTrill{NoteId{1}, played, 74, 0, 2, Verdict::Contradicted}));
    ASSERT_EQ(heard.others.size(), 1u);
    EXPECT_EQ(heard.others[0].midi, 81);
    EXPECT_TRUE(trillsHeard(soundsOf({76, 74, 76}), plain, supported, playing({})).trills.empty())
        << "two notes are left out";
}

TEST(TrillCheck, LeavesAloneWhatIsHeardBesideATrillThatIsMeasuredAsItIsWritten) {
    const auto heard = trillsHeard(soundsOf({77}), trilled(2), answered(Verdict::Supported), playing(2.0));
    EXPECT_TRUE(heard.trills.empty());
    EXPECT_EQ(heard.others, soundsOf({77}));
}

TEST(TrillCheck, LeavesANoteMissingWhereTheRecordPlainlyHasNoTrill) {
    const auto heard =
        trillsHeard(soundsOf({76}), trilled(1), answered(Verdict::Supported), playing(std::nullopt));
    EXPECT_TRUE(heard.trills.empty());
    EXPECT_EQ(heard.others, soundsOf({76}));
}

TEST(TrillCheck, LeavesOpenHowFarATrillGoesThatCannotBeMeasured) {
    const auto heard =
        trillsHeard(soundsOf({76}), trilled(1), answered(Verdict::Supported), playing(std::nullopt, 0, 0.3));
    ASSERT_EQ(heard.trills.size(), 1u);
    EXPECT_EQ(heard.trills[0].verdict, Verdict::Unclear);
    EXPECT_EQ(heard.trills[0].heard, 2);
    EXPECT_TRUE(heard.others.empty());
}

TEST(TrillCheck, DoesNotTakeTheOtherNoteThatComesFirstForAnotherPitch) {
    for (const int written : {1, 2}) {
        const auto heard =
            trillsHeard(soundsOf({76}), trilled(written), answered(Verdict::Contradicted, 76), playing(2.0));
        EXPECT_EQ(heard.notes[0].verdict, Verdict::Unclear) << written;
        EXPECT_EQ(heard.notes[0].doubt, Doubt::Beginning);
        EXPECT_FALSE(heard.notes[0].suggestedMidi);
        EXPECT_EQ(heard.trills.size(), written == 1 ? 1u : 0u);
    }
}

TEST(TrillCheck, StillContradictsANoteWhoseTrillIsHeardBetweenTwoOthers) {
    const auto wrong = answered(Verdict::Contradicted, 76);
    // The same two semitones, on 76 and 78.
    const auto heard = trillsHeard({}, trilled(2), wrong, playing(2.0, 2));
    EXPECT_EQ(heard.notes, wrong);
    EXPECT_TRUE(heard.trills.empty());
}

} // namespace
} // namespace earwright
