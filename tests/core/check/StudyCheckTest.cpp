#include "core/check/StudyCheck.h"

#include "core/check/HintLadder.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

using namespace tests;

/// Eighths at 120 beats a minute from bar 1 on at 1 s; the first eight belong to a phrase.
struct WrittenStudy {
    AnalysisSound sound{silence(Seconds(8)), {}};
    Study study;

    WrittenStudy() {
        study.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(8), 5.0_s}});
        const std::vector<int> line{60, 62, 63, 65, 67, 68, 67, 65, 63, 62, 60, 58};
        for (std::size_t i = 0; i < line.size(); ++i) {
            Note note;
            note.id = NoteId{i + 1};
            note.onset = Beats(static_cast<std::int64_t>(i), 2);
            note.length = Beats(1, 2);
            note.pitch.midi = line[i];
            study.notes.push_back(note);
            const Seconds begin = study.beatMap.seconds(note.onset);
            addTone(sound.left, {begin, begin + 0.23_s}, line[i]);
        }
        study.spans.push_back({SpanId{50}, SpanKind::Phrase, "first", {0.9_s, 2.95_s}});
    }

    RecordingEvidence evidence() const {
        auto recording = RecordingEvidence::listen(sound);
        EXPECT_TRUE(recording);
        return *std::move(recording);
    }
};

TEST(StudyCheck, ChecksTheNotesOfAPhrase) {
    WrittenStudy written;
    written.study.notes[3].pitch.midi = 66;
    const auto check = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(check);
    EXPECT_EQ(check->phrase, SpanId{50});
    ASSERT_EQ(check->notes.size(), 8u);
    EXPECT_EQ(check->count(Verdict::Supported), 7);
    EXPECT_EQ(check->note(NoteId{4})->verdict, Verdict::Contradicted);
    EXPECT_EQ(check->note(NoteId{4})->suggestedMidi, 65);
    EXPECT_GT(check->note(NoteId{4})->suggestedScore, 0.9) << "nothing but the line sounds";
    EXPECT_LE(check->note(NoteId{4})->suggestedScore, 1);
    EXPECT_NEAR(check->note(NoteId{4})->range.begin.value, 1.75, 1e-9);
}

TEST(StudyCheck, DoesNotMissANoteThatIsWrittenAHairBeforeThePhrase) {
    WrittenStudy written;
    // A swung note is played a little before the place where its phrase was marked.
    const Note atTheEdge = written.study.notes[4];
    const Seconds edge = written.study.beatMap.seconds(atTheEdge.onset);
    Span& phrase = written.study.spans[0];
    bool isListed = false;
    for (const double before : {0.02, 0.01, 0.005, 0.001}) {
        phrase.range = {edge - Seconds(0.05) + Seconds(before), 2.95_s};
        Study without = written.study;
        without.notes.erase(without.notes.begin() + 4);
        const auto missed = checkPhrase(without, phrase, written.evidence());
        isListed =
            isListed || (missed->unwritten.size() == 1 && missed->unwritten[0].midi == atTheEdge.pitch.midi);
    }
    EXPECT_TRUE(isListed) << "where it is not written";
    for (const double after : {0.001, 0.003, 0.006, 0.010, 0.015}) {
        phrase.range = {edge + Seconds(after), 2.95_s};
        EXPECT_TRUE(checkPhrase(written.study, phrase, written.evidence())->unwritten.empty()) << after;
    }
}

TEST(StudyCheck, ListsUnwrittenSoundsOfThePhraseOnly) {
    WrittenStudy written;
    written.study.notes.erase(written.study.notes.begin() + 9, written.study.notes.end());
    written.study.notes.erase(written.study.notes.begin() + 5);
    const auto check = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(check);
    ASSERT_EQ(check->unwritten.size(), 1u);
    EXPECT_EQ(check->unwritten[0].midi, 68);
}

TEST(StudyCheck, ChecksSeveralPhrasesAsEachAlone) {
    WrittenStudy written;
    written.study.notes[3].pitch.midi = 66;
    written.study.spans = {{SpanId{50}, SpanKind::Phrase, "first", {0.9_s, 1.95_s}},
                           {SpanId{51}, SpanKind::Phrase, "second", {1.95_s, 2.95_s}}};
    const RecordingEvidence evidence = written.evidence();
    std::vector<double> shares;
    const auto both = checkPhrases(written.study, written.study.spans, evidence, {},
                                   [&](double share) { shares.push_back(share); });
    ASSERT_TRUE(both);
    ASSERT_EQ(both->size(), 2u);
    for (std::size_t i = 0; i < 2; ++i) {
        const auto alone = checkPhrase(written.study, written.study.spans[i], evidence);
        ASSERT_TRUE(alone);
        EXPECT_EQ((*both)[i].notes, alone->notes);
        EXPECT_EQ((*both)[i].unwritten, alone->unwritten);
    }
    EXPECT_EQ((*both)[0].count(Verdict::Contradicted), 1);
    EXPECT_EQ((*both)[1].count(Verdict::Contradicted), 0);
    EXPECT_TRUE(std::ranges::is_sorted(shares));
    ASSERT_FALSE(shares.empty());
    EXPECT_LE(shares.back(), 1.0);
}

TEST(StudyCheck, ChecksOnlyPhrasesInWhichSomethingIsWritten) {
    WrittenStudy written;
    EXPECT_TRUE(isWritten(written.study, written.study.spans[0]));
    written.study.notes.clear();
    EXPECT_FALSE(isWritten(written.study, written.study.spans[0]));
    const auto check = checkStudy(written.study, written.evidence());
    ASSERT_TRUE(check);
    EXPECT_TRUE(check->unwritten.empty());
}

TEST(StudyCheck, LetsAGraceNoteAccountForItsSound) {
    // The sixth note written as a grace note before the seventh, which begins where the sixth did.
    WrittenStudy written;
    written.study.notes.erase(written.study.notes.begin() + 5);
    written.study.notes[5].onset = Beats(21, 8);
    written.study.notes[5].phrasing.graceNotes = {68};
    const auto check = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(check);
    for (const UnwrittenSound& sound : check->unwritten)
        EXPECT_NE(sound.midi, 68);
}

TEST(StudyCheck, HearsAStringThatIsPulledUpBeforeItIsStruckAtItsHeight) {
    WrittenStudy written;
    Note& note = written.study.notes[4];
    note.pitch.midi -= 2;
    note.phrasing.bend = Bend{4, BendShape::PrebentHeld};
    const auto right = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(right);
    EXPECT_EQ(right->note(note.id)->verdict, Verdict::Supported);
    EXPECT_EQ(right->note(note.id)->midi, 65) << "as it is written";
    note.pitch.midi -= 1;
    const auto wrong = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(wrong);
    EXPECT_EQ(wrong->note(note.id)->verdict, Verdict::Contradicted);
    EXPECT_EQ(wrong->note(note.id)->suggestedMidi, 65) << "the fret, not the height";
}

TEST(StudyCheck, ListsNoPitchThatAWrittenBendPasses) {
    // The sixth note is what the fifth is bent up to.
    WrittenStudy written;
    written.study.notes.erase(written.study.notes.begin() + 5);
    const auto missed = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(missed);
    ASSERT_EQ(missed->unwritten.size(), 1u);
    written.study.notes[4].length = Beats(1);
    written.study.notes[4].phrasing.bend = Bend{2, BendShape::Up};
    const auto check = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(check);
    EXPECT_TRUE(check->unwritten.empty());
}

/// Equal notes in turns, 67 and another, in place of the fifth and sixth note, which are written as one.
WrittenStudy takingTurns(int notes, int other) {
    WrittenStudy written;
    const auto from = static_cast<std::size_t>(2.0 * 44100), to = static_cast<std::size_t>(2.5 * 44100);
    std::fill(written.sound.left.begin() + static_cast<std::ptrdiff_t>(from),
              written.sound.left.begin() + static_cast<std::ptrdiff_t>(to), 0.0f);
    const Seconds each(0.5 / notes);
    for (int i = 0; i < notes; ++i) {
        const Seconds begin = 2.0_s + each * i;
        addTone(written.sound.left, {begin, begin + each - 0.005_s}, i % 2 == 0 ? 67 : other);
    }
    written.study.notes.erase(written.study.notes.begin() + 5);
    written.study.notes[4].length = Beats(1);
    return written;
}

TEST(StudyCheck, TellsOverHowMuchALineTrillsInPlaceOfTheOtherNote) {
    WrittenStudy written = takingTurns(6, 70);
    const RecordingEvidence evidence = written.evidence();
    Note& note = written.study.notes[4];
    note.phrasing.trill = 1;
    const auto wrong = checkPhrase(written.study, written.study.spans[0], evidence);
    ASSERT_TRUE(wrong);
    EXPECT_TRUE(wrong->unwritten.empty());
    ASSERT_TRUE(wrong->otherTrill(note.id));
    EXPECT_EQ(wrong->otherTrill(note.id)->written, 1);
    EXPECT_EQ(wrong->otherTrill(note.id)->heard, 3);
    EXPECT_EQ(wrong->otherTrill(note.id)->verdict, Verdict::Contradicted);
    const auto whole = checkStudy(written.study, evidence);
    ASSERT_TRUE(whole);
    EXPECT_EQ(whole->otherTrills, wrong->otherTrills);
    note.phrasing.trill = 3;
    const auto right = checkPhrase(written.study, written.study.spans[0], evidence);
    ASSERT_TRUE(right);
    EXPECT_TRUE(right->otherTrills.empty());
    EXPECT_TRUE(right->unwritten.empty());
}

TEST(StudyCheck, ListsOnceWhatIsTooSlowToBeATrill) {
    WrittenStudy written = takingTurns(4, 69);
    const auto countOfTops = [&] {
        const auto check = checkPhrase(written.study, written.study.spans[0], written.evidence());
        EXPECT_TRUE(check);
        return std::count_if(check->unwritten.begin(), check->unwritten.end(),
                             [](const UnwrittenSound& sound) { return sound.midi == 69; });
    };
    EXPECT_EQ(countOfTops(), 2) << "with no trill";
    written.study.notes[4].phrasing.trill = 1;
    EXPECT_EQ(countOfTops(), 1);
    written.study.notes[4].phrasing.trill = 2;
    EXPECT_EQ(countOfTops(), 0);
}

TEST(StudyCheck, AnswersForEveryNoteInTheStudysOrder) {
    const WrittenStudy written;
    const auto check = checkStudy(written.study, written.evidence());
    ASSERT_TRUE(check);
    ASSERT_EQ(check->notes.size(), written.study.notes.size());
    for (std::size_t i = 0; i < check->notes.size(); ++i)
        EXPECT_EQ(check->notes[i].note, written.study.notes[i].id);
    EXPECT_EQ(check->count(Verdict::Supported), 12);
}

/// The same line, eighths played two and a half to one: 107 ms behind their even place.
struct SwungStudy : WrittenStudy {
    SwungStudy() {
        sound = {silence(Seconds(8)), {}};
        for (const Note& note : study.notes) {
            const bool isOff = note.onset.denominator() == 2;
            const Seconds begin = study.beatMap.seconds(note.onset) + Seconds(isOff ? 0.107 : 0);
            addTone(sound.left, {begin, begin + (isOff ? 0.13_s : 0.34_s)}, note.pitch.midi);
        }
    }
};

TEST(StudyCheck, TellsHowAPhraseSwingsThatIsWrittenEvenly) {
    SwungStudy swung;
    const auto check = checkPhrase(swung.study, swung.study.spans[0], swung.evidence());
    ASSERT_TRUE(check);
    EXPECT_EQ(check->count(Verdict::Supported), 8);
    ASSERT_TRUE(check->unwrittenSwing);
    EXPECT_NEAR(check->unwrittenSwing->ratio, 2.5, 0.35);
    // The place stays as written, and how far behind it was heard stands beside it.
    EXPECT_NEAR(check->note(NoteId{4})->range.begin.value, 1.75, 1e-9);
    EXPECT_NEAR(check->note(NoteId{4})->behind.value, 0.107, 0.02);
    // Once the study says so, nothing is left to say.
    swung.study.page.swings = {{Beats(0), Swing{2.5, 8}}};
    const auto written = checkPhrase(swung.study, swung.study.spans[0], swung.evidence());
    ASSERT_TRUE(written);
    EXPECT_FALSE(written->unwrittenSwing);
    EXPECT_EQ(written->count(Verdict::Supported), 8);
}

TEST(StudyCheck, TellsTheStepByWhichARunIsWrittenTooLate) {
    WrittenStudy written;
    for (std::size_t i = 1; i < 6; ++i)
        written.study.notes[i].onset += Beats(1, 2);
    const auto check = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(check);
    for (std::size_t i = 1; i < 6; ++i) {
        const CheckedNote& note = *check->note(NoteId{i + 1});
        ASSERT_TRUE(note.together) << i;
        EXPECT_EQ(note.together->notes, 5);
        EXPECT_EQ(note.together->step, -Beats(1, 2)) << "the record has them an eighth earlier";
        EXPECT_FALSE(note.suggestedMidi) << i;
    }
    EXPECT_FALSE(check->note(NoteId{1})->together);
    EXPECT_TRUE(check->unwritten.empty());
    EXPECT_EQ(placesOf(*check).size(), 1u) << "one thing is off";
}

TEST(StudyCheck, TellsThatARunIsWrittenInAnotherOctave) {
    WrittenStudy written;
    for (std::size_t i = 2; i < 7; ++i)
        written.study.notes[i].pitch.midi -= 12;
    const auto check = checkPhrase(written.study, written.study.spans[0], written.evidence());
    ASSERT_TRUE(check);
    for (std::size_t i = 2; i < 7; ++i) {
        ASSERT_TRUE(check->note(NoteId{i + 1})->together) << i;
        EXPECT_EQ(check->note(NoteId{i + 1})->together->semitones, 12);
    }
    EXPECT_TRUE(check->unwritten.empty());
    EXPECT_EQ(placesOf(*check).size(), 1u) << "one thing is off";
}

TEST(StudyCheck, AsksForBarsWhereNoneAreMarked) {
    WrittenStudy written;
    written.study.beatMap = BeatMap();
    const auto check = checkStudy(written.study, written.evidence());
    ASSERT_FALSE(check);
    EXPECT_EQ(check.error().kind, ErrorKind::OutOfRange);
}

} // namespace
} // namespace earwright
