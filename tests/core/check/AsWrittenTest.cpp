#include "core/check/AsWritten.h"

#include "core/check/RecordingCheck.h"
#include "core/check/StudyCheck.h"
#include "core/check/StudyChords.h"
#include "core/check/StudyPlaying.h"
#include "core/listening/PitchHint.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

/// A line in eighths over a comped chord a bar with its bass, all of it off by so many cents, as from a tape
/// that runs fast or slow. Half a semitone is 50 cents by the definition of the cent (A. Ellis, 1885), and so
/// a tape that is off by it reads from either side.
struct DetunedStudy {
    AnalysisSound sound{silence(10.5_s), {}};
    Study study;

    explicit DetunedStudy(double cents, bool withLine = true) {
        study.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(16), 9.0_s}});
        const double off = cents / 100;
        if (withLine) writeLine(off);
        // Rootless voicings over their roots (common practice): D minor, G7 and twice C major.
        const std::vector<std::vector<int>> voicings{
            {53, 57, 60, 64}, {53, 57, 59, 64}, {52, 55, 59, 62}, {52, 55, 59, 62}};
        const std::vector<int> roots{38, 43, 36, 36};
        for (std::size_t bar = 0; bar < voicings.size(); ++bar) {
            const Seconds begin = 1.0_s + 2.0_s * static_cast<double>(bar);
            for (const int midi : voicings[bar])
                addTone(sound.left, {begin, begin + 1.9_s}, midi + off, 0.06f);
            for (const Seconds at : {begin, begin + 1.0_s})
                addTone(sound.left, {at, at + 0.9_s}, roots[bar] + off, 0.15f);
        }
        const auto bars = parseBars("Dm7 | G7 | Cmaj7 | Cmaj7", study.meter);
        for (std::size_t bar = 0; bar < bars.size(); ++bar)
            study.chart.overrides[static_cast<std::int64_t>(bar) + 1] = bars[bar];
        study.spans.push_back({SpanId{50}, SpanKind::Phrase, "first", {0.9_s, 9.0_s}});
    }

    RecordingEvidence heard() const { return *RecordingEvidence::listen(sound); }

private:
    void writeLine(double off) {
        const std::vector<int> line{74, 72, 69, 65, 64, 65, 69, 72, 71, 69, 67, 65, 62, 65, 68, 71,
                                    72, 71, 67, 64, 62, 64, 67, 71, 74, 72, 71, 67, 64, 62, 59, 60};
        for (std::size_t i = 0; i < line.size(); ++i) {
            const auto at = static_cast<std::int64_t>(i);
            study.notes.push_back({NoteId{i + 1}, Beats(at, 2), Beats(1, 2), Pitch{line[i], {}}, 0.6, {}});
            const Seconds begin = study.beatMap.seconds(Beats(at, 2));
            addTone(sound.left, {begin, begin + 0.23_s}, line[i] + off);
        }
    }
};

constexpr double detunings[] = {-60, -50, -45, 45, 50, 60};

TEST(AsWritten, CountsPitchesFromTheSideThatIsWritten) {
    for (const double cents : detunings) {
        const DetunedStudy detuned(cents);
        const auto tuned = asWritten(detuned.study, detuned.heard());
        ASSERT_TRUE(tuned);
        // TuningTest allows three cents.
        EXPECT_NEAR(tuned->tuningCurve().cents(), cents, 3) << cents;
        // Asked again of its own answer it stays.
        EXPECT_EQ(asWritten(detuned.study, *tuned)->tuningCurve(), tuned->tuningCurve()) << cents;
    }
}

TEST(AsWritten, BringsNotesTracesAndHintsToTheWrittenPitch) {
    for (const double cents : detunings) {
        const DetunedStudy detuned(cents);
        const RecordingEvidence recording = detuned.heard();
        const auto check = checkPhrase(detuned.study, detuned.study.spans[0], recording);
        EXPECT_EQ(check->count(Verdict::Contradicted), 0) << cents;
        EXPECT_GE(check->count(Verdict::Supported), 30) << cents;
        const auto measured = measureNotes(detuned.study, detuned.study.notes, recording);
        ASSERT_TRUE(measured);
        int clear = 0;
        for (const auto& [id, note] : *measured) {
            if (note.playing.pitch.clearShare < 0.6) continue;
            ++clear;
            EXPECT_NEAR(note.playing.pitch.centreCents, 0, 12) << cents << " note " << id.value;
        }
        EXPECT_GE(clear, 30) << cents;
        const auto tuned = asWritten(detuned.study, recording);
        const auto passage = tuned->passage({0.0_s, 10.0_s});
        std::vector<Range<Seconds>> spans;
        for (const CheckedNote& note : check->notes)
            spans.push_back(note.range);
        const auto hints = pitchHints(*passage, spans);
        int right = 0;
        for (std::size_t i = 0; i < hints.size(); ++i)
            right += hints[i].bestMidi == check->notes[i].midi;
        EXPECT_GE(right, 30) << cents;
    }
}

TEST(AsWritten, BringsChordsToTheWrittenPitchByTheLineOrByThemselves) {
    const auto answers = [](double cents, bool withLine) {
        const DetunedStudy detuned(cents, withLine);
        std::vector<Verdict> verdicts;
        const auto chords = checkChords(detuned.study, {0.5_s, 9.0_s}, detuned.heard());
        for (const CheckedChord& chord : *chords)
            verdicts.push_back(chord.answer.verdict);
        return verdicts;
    };
    for (const bool withLine : {true, false}) {
        const std::vector<Verdict> inTune = answers(0, withLine);
        ASSERT_GE(std::count(inTune.begin(), inTune.end(), Verdict::Supported), 3);
        for (const double cents : {-50.0, -45.0, 45.0, 50.0})
            EXPECT_EQ(answers(cents, withLine), inTune)
                << cents << (withLine ? " with" : " without") << " its line";
    }
}

TEST(AsWritten, TellsHowFarItIsWithChordsThatAreReadBothWays) {
    const DetunedStudy detuned(50, false);
    std::vector<double> shares;
    const auto chords = checkChords(detuned.study, {0.5_s, 9.0_s}, detuned.heard(), {},
                                    [&](double share) { shares.push_back(share); });
    ASSERT_TRUE(chords);
    EXPECT_EQ(shares.size(), 2 * chords->size()) << "each chord is heard at both readings";
    EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
    EXPECT_EQ(shares.back(), 1);
}

/// So many, a second apart.
std::vector<Claim> longLine(int length) {
    std::vector<Claim> claims;
    for (int i = 0; i < length; ++i)
        claims.push_back({{Seconds(i), Seconds(i + 0.5)}, 60});
    return claims;
}

TEST(AsWritten, AsksAtMostThirtyTwoNotesFromAllOverALine) {
    for (int length = 0; length <= 200; ++length) {
        const std::vector<Claim> asked = claimsAsked(longLine(length));
        ASSERT_EQ(asked.size(), static_cast<std::size_t>(std::min(length, 32))) << length;
        std::vector<int> leftOut;
        for (std::size_t i = 1; i < asked.size(); ++i)
            if (const double step = (asked[i].range.begin - asked[i - 1].range.begin).value; step != 1)
                leftOut.push_back(static_cast<int>(step) - 1);
        if (length <= 34) continue;
        EXPECT_EQ(asked.front().range.begin, 0.0_s);
        EXPECT_EQ(asked.back().range.begin, Seconds(length - 1));
        ASSERT_EQ(leftOut.size(), 3u) << length;
        const auto [least, most] = std::minmax_element(leftOut.begin(), leftOut.end());
        EXPECT_LE(*most - *least, 1) << length;
    }
}

TEST(AsWritten, AsksNoNoteThatCannotBeHeardBothWays) {
    std::vector<Claim> claims = longLine(6);
    claims[1].midi = lowestHeardMidi;
    claims[2].midi = highestHeardMidi;
    std::swap(claims[4], claims[5]);
    EXPECT_EQ(claimsAsked(claims), (std::vector<Claim>{claims[0], claims[3], claims[5], claims[4]}));
}

TEST(AsWritten, StillContradictsAWrongNoteOfADetunedRecord) {
    for (const double cents : {-50.0, 50.0})
        for (const int wrong : {-1, 1}) {
            DetunedStudy detuned(cents);
            detuned.study.notes[9].pitch.midi += wrong;
            const auto check = checkPhrase(detuned.study, detuned.study.spans[0], detuned.heard());
            EXPECT_EQ(check->note(NoteId{10})->verdict, Verdict::Contradicted) << cents << ' ' << wrong;
            EXPECT_EQ(check->note(NoteId{10})->suggestedMidi, 69) << cents << ' ' << wrong;
        }
}

TEST(AsWritten, LetsNoPhrasePassThatIsWrittenASemitoneOffTheRest) {
    DetunedStudy detuned(50);
    for (std::size_t i = 24; i < 32; ++i)
        detuned.study.notes[i].pitch.midi += 1;
    detuned.study.spans = {{SpanId{50}, SpanKind::Phrase, "last", {6.95_s, 9.0_s}}};
    const auto check = checkPhrase(detuned.study, detuned.study.spans[0], detuned.heard());
    EXPECT_GE(check->count(Verdict::Contradicted), 7);
}

TEST(AsWritten, LeavesARecordingAloneThatReadsOneWayOnlyOrOfWhichTooLittleIsWritten) {
    DetunedStudy nearly(30);
    for (Note& note : nearly.study.notes)
        note.pitch.midi += 1;
    EXPECT_NEAR(asWritten(nearly.study, nearly.heard())->tuningCurve().cents(), 30, 3);
    DetunedStudy few(50);
    few.study.notes.resize(3);
    EXPECT_FALSE(tellsItsReading(few.study));
    const RecordingEvidence heard = few.heard();
    EXPECT_EQ(asWritten(few.study, heard)->tuningCurve(), heard.tuningCurve());
}

TEST(AsWritten, MovesADriftingTuningAsAWhole) {
    const TuningCurve drifting(40, 1.0_s, {30, 40, 50, 60});
    const TuningCurve moved = drifting.moved(-100);
    EXPECT_EQ(moved.cents(), -60);
    EXPECT_EQ(moved.centsAt(2.5_s), -45);
    EXPECT_EQ(moved.reach(), drifting.reach());
    EXPECT_EQ(otherReading(drifting, {{1.0_s, 2.0_s}, {2.0_s, 3.0_s}}), -100);
    EXPECT_EQ(otherReading(moved, {{1.0_s, 2.0_s}, {2.0_s, 3.0_s}}), 100);
    EXPECT_EQ(otherReading(drifting, {{0.0_s, 1.0_s}}), 0);
    EXPECT_EQ(otherReading(drifting, {}), 0);
}

} // namespace
} // namespace earwright
