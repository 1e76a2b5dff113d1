// The forms that scripts rely on: columns, order of rows, exit codes.
#include "core/study/ChartEdits.h"
#include "core/study/StudyFile.h"
#include "tests/app/BatchRun.h"
#include "tests/app/ListeningMaterial.h"
#include "tests/core/study/SampleStudy.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

TEST(TuningCommand, TellsTheRecordingsOwnA) {
    const Material material(-23);
    const BatchRun run({"tuning", material.audio});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_EQ(run.rows.size(), 2u);
    EXPECT_EQ(run.rows[0], (std::vector<std::string>{"reference_hz", "cents", "confidence", "drift_cents"}));
    const double cents = std::stod(run.rows[1][1]);
    EXPECT_NEAR(cents, -23, 1.5);
    EXPECT_NEAR(1200 * std::log2(std::stod(run.rows[1][0]) / 440), cents, 0.02);
}

TEST(BeatsCommand, PrintsARowForEachBeatItFinds) {
    const Material material;
    const BatchRun run({"beats", material.audio, "--taps", "0.5,1"});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_GE(run.rows.size(), 3u);
    EXPECT_EQ(run.rows[0], (std::vector<std::string>{"time_s", "bar_position", "confidence"}));
    for (std::size_t i = 2; i < run.rows.size(); ++i)
        EXPECT_NEAR(std::stod(run.rows[i][0]) - std::stod(run.rows[i - 1][0]), 0.5, 0.08);
}

TEST(FeelCommand, PrintsARowForEachPhraseOfAStudy) {
    // The eighths lie 312.5 ms apart: beats of 625 ms, played evenly and on the beat.
    const Material material;
    Study study;
    study.recording.path = "line.wav";
    study.beatMap = BeatMap({{Beats(0), Seconds(0.5)}, {Beats(4), Seconds(3.0)}});
    for (std::size_t i = 0; i < theLine.size(); ++i) {
        Note note;
        note.id = NoteId{i + 1};
        note.onset = Beats(static_cast<std::int64_t>(i), 2);
        note.length = Beats(1, 2);
        note.pitch.midi = theLine[i];
        study.notes.push_back(note);
    }
    study.spans = {{SpanId{20}, SpanKind::Phrase, "all", {Seconds(0.4), Seconds(3.2)}},
                   {SpanId{21}, SpanKind::Phrase, "rest", {Seconds(3.2), Seconds(3.9)}}};
    study.nextId = 30;
    const std::string file = (material.folder / "line.study").string();
    writeBytes(file, StudyFile::text(study));
    const BatchRun run({"feel", file});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_EQ(run.rows.size(), 3u);
    EXPECT_EQ(run.rows[0],
              (std::vector<std::string>{"phrase", "start_s", "end_s", "notes", "pairs", "swing_ratio",
                                        "swing_least", "swing_most", "short_eighth_ms", "on_beat",
                                        "placement_ms", "placement_spread_ms"}));
    EXPECT_EQ(run.rows[1][0], "all");
    EXPECT_EQ(run.rows[1][3], "8");
    // Four pairs, the last of which has no next beat: too few for a ratio.
    EXPECT_EQ(run.rows[1][4], "3");
    EXPECT_EQ(run.rows[1][5], "");
    EXPECT_EQ(run.rows[1][9], "4");
    EXPECT_NEAR(std::stod(run.rows[1][10]), 0, 5);
    EXPECT_EQ(run.rows[2][3], "0");
}

TEST(ChordsCommand, PrintsARowForEachChordWithTheBeatOfItsOwnMeter) {
    // Quarters of 300 ms: bar 2, of 6/8, lasts from 1.7 s for six eighths of 150 ms. Its second chord stands
    // on the second dotted quarter (common practice), the fourth eighth, 450 ms on.
    const Material material;
    Study study;
    study.recording.path = "line.wav";
    study.beatMap = BeatMap({{Beats(0), Seconds(0.5)}, {Beats(4), Seconds(1.7)}});
    study = overrideBars(meterFrom(study, 2, Meter{6, 8}), 2, "Cm7 F7");
    const std::string file = (material.folder / "line.study").string();
    writeBytes(file, StudyFile::text(study));
    const BatchRun run({"chords", file});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_EQ(run.rows.size(), 3u);
    EXPECT_EQ(run.rows[0],
              (std::vector<std::string>{"bar", "beat", "start_s", "end_s", "chord", "verdict", "score",
                                        "heard_against", "missing", "bass", "heard", "bass_expected",
                                        "bass_verdict", "bass_score", "bass_played", "bass_clearness"}));
    EXPECT_EQ(std::vector<std::string>(run.rows[1].begin(), run.rows[1].begin() + 5),
              (std::vector<std::string>{"2", "1.000", "1.700", "2.150", "Cm7"}));
    EXPECT_EQ(std::vector<std::string>(run.rows[2].begin(), run.rows[2].begin() + 5),
              (std::vector<std::string>{"2", "4.000", "2.150", "2.600", "F7"}));
    for (const std::size_t row : {1, 2}) {
        ASSERT_EQ(run.rows[row].size(), 16u);
        for (const std::size_t verdict : {5, 12}) {
            const std::string& word = run.rows[row][verdict];
            EXPECT_TRUE(word == "supported" || word == "contradicted" || word == "unclear") << word;
            EXPECT_GE(std::stod(run.rows[row][verdict + 1]), 0);
            EXPECT_LE(std::stod(run.rows[row][verdict + 1]), 1);
        }
    }
    EXPECT_EQ(run.rows[1][11], "C");
    EXPECT_EQ(run.rows[2][11], "F");
}

TEST(EarCommand, PrintsWhatWasFoundOverTimeByIntervalAndByMistake) {
    const ScratchFolder folder;
    const std::string file = (folder / "line.study").string();
    Study study;
    const auto note = [](int day, HelpStep help, std::optional<int> interval,
                         std::optional<Mistake> mistake) {
        return FoundNote{Seconds(1), NoteId{1}, std::chrono::year(2031) / 5 / day, help, interval, mistake};
    };
    study.earRecord.phrases = {
        {SpanId{1},
         {},
         {note(5, HelpStep::None, {}, {}), note(6, HelpStep::HowFar, -3, Mistake::Octave),
          note(12, HelpStep::None, 17, {})}}};
    writeBytes(file, StudyFile::text(study));
    const BatchRun run({"ear", file});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    // 5 May 2031 is a Monday, see EarSummaryTest.
    EXPECT_EQ(run.rows, (std::vector<std::vector<std::string>>{{"group", "key", "found", "unaided", "helped"},
                                                               {"all", "", "3", "2", "1"},
                                                               {"week", "2031-05-05", "2", "1", "1"},
                                                               {"week", "2031-05-12", "1", "1", "0"},
                                                               {"interval", "3", "1", "0", "1"},
                                                               {"interval", "13", "1", "1", "0"},
                                                               {"mistake", "none", "2", "2", "0"},
                                                               {"mistake", "octave", "1", "0", "1"}}));
    const BatchRun byMonth({"ear", file, "--by", "month"});
    ASSERT_EQ(byMonth.rows.size(), 7u);
    EXPECT_EQ(byMonth.rows[2], (std::vector<std::string>{"month", "2031-05-01", "3", "2", "1"}));
    EXPECT_EQ(BatchRun({"ear", file, "--by", "year"}).exitCode, 2);
    EXPECT_EQ(BatchRun({"ear"}).exitCode, 2);
    EXPECT_EQ(BatchRun({"ear", (folder / "missing.study").string()}).exitCode, 1);
}

TEST(BeatsCommand, CountsBarsFromTheFirstTapAndKeepsToAStretch) {
    const Material material;
    const BatchRun run(
        {"beats", material.audio, "--taps", "1,1.5", "--meter", "3", "--from", "0.8", "--to", "3"});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_GE(run.rows.size(), 4u);
    for (std::size_t i = 1; i < run.rows.size(); ++i) {
        const double time = std::stod(run.rows[i][0]);
        EXPECT_GT(time, 0.7);
        EXPECT_LT(time, 3.1);
        // A beat lasts about half a second; the one near 1 s is the first.
        const int beat = static_cast<int>(std::lround((time - 1) / 0.5));
        EXPECT_EQ(std::stoi(run.rows[i][1]), (beat % 3 + 3) % 3 + 1) << time;
    }
    EXPECT_EQ(BatchRun({"beats", material.audio, "--meter", "3"}).exitCode, 2);
    EXPECT_EQ(BatchRun({"beats", material.audio, "--from", "3", "--to", "2"}).exitCode, 2);
}

TEST(ListeningCommands, BlameTheInputWithOneSentence) {
    const Material material;
    const std::string missing = (material.folder / "missing.wav").string();
    const std::string broken = (material.folder / "broken.tsv").string();
    writeBytes(broken, "onset_s\tdur_s\tmidi\n1.0\t-0.5\t60\n");
    for (const auto& words :
         std::vector<std::vector<std::string>>{{"tuning", missing},
                                               {"beats", missing},
                                               {"check", missing, "--notes", material.notes},
                                               {"check", material.audio, "--notes", missing},
                                               {"check", material.audio, "--notes", broken},
                                               {"check", material.audio, "--notes", material.spans},
                                               {"check", (material.folder / "missing.study").string()},
                                               {"feel", missing},
                                               {"chords", (material.folder / "missing.study").string()},
                                               {"hint", material.audio, "--spans", broken},
                                               {"tuning", material.notes}}) {
        const BatchRun run(words);
        EXPECT_EQ(run.exitCode, 1) << run.errors;
        EXPECT_TRUE(run.output.empty());
        EXPECT_EQ(std::count(run.errors.begin(), run.errors.end(), '\n'), 1) << run.errors;
    }
}

TEST(ListeningCommands, BlameTheCommandLineForWhatIsUnknownOrLeftOut) {
    const Material material;
    for (const auto& words : std::vector<std::vector<std::string>>{
             {"tuning"},
             {"tuning", material.audio, "--cents", "3"},
             {"beats", material.audio, "--taps", "3"},
             {"beats", material.audio, "--taps", "3,2"},
             {"beats", material.audio, "--taps", "1,2,x"},
             {"feel"},
             {"chords"},
             {"check", material.audio},
             {"check", material.audio, "--notes"},
             {"check", "some.study", "--notes", material.notes},
             {"hint", material.audio},
             {"hint", material.audio, "--spans", material.spans, "--band", "200"},
             {"hint", material.audio, "--spans", material.spans, "--band", "900", "300"},
             {"hint", material.audio, "--spans", material.spans, "--focus", "middle"},
             {"hint", material.audio, "--notes", material.notes}}) {
        const BatchRun run(words);
        EXPECT_EQ(run.exitCode, 2) << run.errors;
        EXPECT_FALSE(run.errors.empty());
    }
}

} // namespace
} // namespace earwright
