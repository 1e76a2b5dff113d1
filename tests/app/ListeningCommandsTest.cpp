// The forms that scripts rely on: columns, order of rows, exit codes.
#include "core/study/ChartEdits.h"
#include "core/study/NoteEdits.h"
#include "core/study/PhrasingEdits.h"
#include "core/study/PlayerEdits.h"
#include "core/study/StudyFile.h"
#include "tests/app/BatchRun.h"
#include "tests/core/listening/SyntheticSound.h"
#include "tests/core/sound/WrittenFile.h"
#include "tests/core/study/SampleStudy.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

const std::vector<int> theLine{60, 62, 63, 65, 67, 68, 67, 65};

/// A folder with a recording of eight plucked tones and tables about it.
struct Material {
    ScratchFolder folder;
    std::string audio = (folder / "line.wav").string();
    std::string notes = (folder / "notes.tsv").string();
    std::string spans = (folder / "spans.tsv").string();

    explicit Material(double cents = 0) {
        std::vector<float> sound = silence(Seconds(4));
        std::string noteRows = "onset_s\tdur_s\tmidi\n";
        std::string spanRows = "start_s\tend_s\n";
        for (std::size_t i = 0; i < theLine.size(); ++i) {
            const double begin = 0.5 + 0.3125 * static_cast<double>(i);
            addTone(sound, {Seconds(begin), Seconds(begin + 0.28)}, theLine[i] + cents / 100);
            // The third is written two semitones high.
            const int written = theLine[i] + (i == 2 ? 2 : 0);
            noteRows += std::to_string(begin) + "\t0.28\t" + std::to_string(written) + "\n";
            spanRows += std::to_string(begin) + "\t" + std::to_string(begin + 0.28) + "\n";
        }
        writeSound(audio, SF_FORMAT_WAV | SF_FORMAT_PCM_16, analysisRate.hertz, 1, sound);
        writeBytes(notes, noteRows);
        writeBytes(spans, spanRows);
    }
};

/// The line as it is played, a beat of 312.5 ms to each tone.
Study studyOfTheLine() {
    Study study;
    study.recording.path = "line.wav";
    study.beatMap = BeatMap({{Beats(0), Seconds(0.5)}, {Beats(4), Seconds(1.75)}});
    for (std::size_t i = 0; i < theLine.size(); ++i)
        study = addNote(study, {Pitch{theLine[i], {}}, Beats(static_cast<std::int64_t>(i)), Beats(1)}).study;
    return study;
}

TEST(CheckCommand, AnswersEveryRowInOrderWithTheFixedColumns) {
    const Material material;
    const BatchRun run({"check", material.audio, "--notes", material.notes});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_GE(run.rows.size(), 9u);
    EXPECT_EQ(run.rows[0], (std::vector<std::string>{"kind", "onset_s", "dur_s", "midi", "verdict", "score",
                                                     "suggested_midi", "listened", "behind_ms", "begins_s"}));
    const std::vector<int> written{60, 62, 65, 65, 67, 68, 67, 65};
    for (std::size_t i = 0; i < written.size(); ++i) {
        const auto& row = run.rows[i + 1];
        ASSERT_EQ(row.size(), 10u);
        EXPECT_EQ(row[0], "claimed");
        EXPECT_NEAR(std::stod(row[1]), 0.5 + 0.3125 * static_cast<double>(i), 0.0005);
        EXPECT_NEAR(std::stod(row[2]), 0.28, 0.0005);
        EXPECT_EQ(std::stoi(row[3]), written[i]);
        EXPECT_EQ(row[4], i == 2 ? "contradicted" : "supported");
        EXPECT_EQ(row[6], i == 2 ? "63" : "");
    }
}

TEST(CheckCommand, TellsWhereAMisplacedNoteBegins) {
    const Material material;
    // The fifth of the line, at 1.75 s, is written 0.15 s late.
    writeBytes(material.notes,
               "onset_s\tdur_s\tmidi\n0.5\t0.28\t60\n0.8125\t0.28\t62\n1.125\t0.28\t63\n1.4375\t0.28\t65\n"
               "1.9\t0.15\t67\n2.0625\t0.28\t68\n2.375\t0.28\t67\n2.6875\t0.28\t65\n");
    const BatchRun run({"check", material.audio, "--notes", material.notes});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    const auto& row = run.rows[5];
    EXPECT_NE(row[4], "supported");
    EXPECT_EQ(row[6], "") << "its pitch is right";
    ASSERT_FALSE(row[9].empty());
    EXPECT_NEAR(std::stod(row[9]), 1.75, 0.03);
    EXPECT_EQ(run.rows[1][9], "") << "a note that begins where it is written";
}

TEST(CheckCommand, ListsUnwrittenSoundsAfterTheClaims) {
    const Material material;
    writeBytes(material.notes, "midi\tdur_s\tonset_s\n60\t0.28\t0.5\n62\t0.28\t0.8125\n65\t0.28\t1.4375\n"
                               "67\t0.28\t1.75\n68\t0.28\t2.0625\n67\t0.28\t2.375\n65\t0.28\t2.6875\n");
    const BatchRun run({"check", material.audio, "--notes", material.notes});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_EQ(run.rows.size(), 9u);
    const auto& last = run.rows[8];
    EXPECT_EQ(last[0], "unwritten");
    EXPECT_NEAR(std::stod(last[1]), 1.125, 0.05);
    EXPECT_EQ(last[3], "63");
    EXPECT_EQ(last[4], "");
}

TEST(HintCommand, NamesThePitchOfEverySpan) {
    const Material material;
    const BatchRun run({"hint", material.audio, "--spans", material.spans});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_EQ(run.rows.size(), 9u);
    EXPECT_EQ(run.rows[0],
              (std::vector<std::string>{"start_s", "end_s", "best_midi", "confidence", "listened"}));
    const std::vector<std::string> played{"60", "62", "63", "65", "67", "68", "67", "65"};
    for (std::size_t i = 0; i < played.size(); ++i)
        EXPECT_EQ(run.rows[i + 1][2], played[i]);
}

TEST(HintCommand, LeavesSilenceAndSpansOutsideTheRecordingEmpty) {
    const Material material;
    writeBytes(material.spans, "start_s\tend_s\n0.5\t0.8\n3.5\t3.9\n100\t100.5\n");
    const BatchRun run({"hint", material.audio, "--spans", material.spans});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_EQ(run.rows.size(), 4u);
    EXPECT_EQ(run.rows[1][2], "60");
    EXPECT_EQ(run.rows[2][2], "");
    EXPECT_EQ(run.rows[3][2], "");
}

TEST(HintCommand, HearsOnlyTheBandAndFocusAskedFor) {
    const Material material;
    writeBytes(material.spans, "start_s\tend_s\n0.5\t0.8\n");
    const auto hint = [&](const std::vector<std::string>& options) {
        std::vector<std::string> words{"hint", material.audio, "--spans", material.spans};
        words.insert(words.end(), options.begin(), options.end());
        const BatchRun run(words);
        EXPECT_EQ(run.exitCode, 0) << run.errors;
        return run.rows.size() == 2 ? run.rows[1][2] : "no row";
    };
    EXPECT_EQ(hint({"--band", "150", "5000"}), "60");
    // Middle C (261.6 Hz, ISO 16) and all its partials lie outside.
    EXPECT_EQ(hint({"--band", "20", "60"}), "");
    EXPECT_EQ(hint({"--focus", "all"}), "60");
}

TEST(HintCommand, KeepsToTheRangeOfTheLine) {
    const Material material;
    writeBytes(material.spans, "start_s\tend_s\n0.5\t0.8\n");
    const auto hint = [&](const std::string& range) {
        const BatchRun run({"hint", material.audio, "--spans", material.spans, "--range", range});
        EXPECT_EQ(run.exitCode, 0) << run.errors;
        return run.rows.size() == 2 && !run.rows[1][2].empty() ? std::stoi(run.rows[1][2]) : 0;
    };
    EXPECT_EQ(hint("guitar"), 60);
    EXPECT_EQ(hint("Bb3-F#4"), 60);
    EXPECT_GE(hint("F#4-C7"), 66) << "middle C lies below";
    for (const char* nonsense : {"kazoo", "E2", "E6-E2", "H2-E6", "E2-E6x", "-"})
        EXPECT_EQ(BatchRun({"hint", material.audio, "--spans", material.spans, "--range", nonsense}).exitCode,
                  2)
            << nonsense;
}

TEST(HintCommand, RefusesARangeThatCannotBeHeardAndCutsOneThatReachesBeyond) {
    const Material material;
    writeBytes(material.spans, "start_s\tend_s\n0.5\t0.8\n");
    const auto hint = [&](const std::string& range) {
        return BatchRun({"hint", material.audio, "--spans", material.spans, "--range", range});
    };
    for (const char* unheard : {"D7-G9", "C-1-D#1", "C7-G9"}) {
        const BatchRun run = hint(unheard);
        EXPECT_EQ(run.exitCode, 2) << unheard;
        EXPECT_NE(run.errors.find("E1 to C7"), std::string::npos) << run.errors;
    }
    const BatchRun cut = hint("C0-F#4");
    EXPECT_EQ(cut.exitCode, 0);
    EXPECT_NE(cut.errors.find("only E1 to F♯4"), std::string::npos) << cut.errors;
    EXPECT_EQ(cut.rows, hint("E1-F#4").rows);
    EXPECT_EQ(hint("E1-F#4").errors, "");
}

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

TEST(CheckCommand, ListensForTheInstrumentTheStudyNamesUnlessToldOtherwise) {
    // The line lies between C4 and A flat 4, above the instrument that the study names. The option is nearer
    // to the user than the study, also where it takes in everything.
    const Material material;
    const Study study = studyOfTheLine();
    const auto checked = [&](const Study& written, std::vector<std::string> words) {
        const std::string file = (material.folder / "line.study").string();
        writeBytes(file, StudyFile::text(written));
        words.insert(words.begin(), {"check", file});
        const BatchRun run(words);
        EXPECT_EQ(run.exitCode, 0) << run.errors;
        EXPECT_GE(run.rows.size(), 9u);
        return run.rows;
    };
    const Study low = setPlayers(study, {PitchRange{30, 50}, {}});
    const auto everything = checked(study, {});
    EXPECT_EQ(checked(low, {}), checked(study, {"--range", "F#1-D3"}));
    EXPECT_NE(checked(low, {}), everything);
    EXPECT_EQ(checked(low, {"--range", "piano"}), everything);
}

TEST(CheckCommand, PutsHowTheNotesOfAStudyArePlayedBeforeTheLastThreeColumnsAndChangesNoOther) {
    const Material material;
    // The fourth is written with an accent, the last not at all.
    Study study = studyOfTheLine();
    study = toggleMark(study, study.notes[3].id, &Phrasing::accented);
    study = removeNote(study, study.notes.back().id);
    const std::string file = (material.folder / "line.study").string();
    writeBytes(file, StudyFile::text(study));
    const BatchRun plain({"check", file});
    BatchRun run({"check", file, "--phrasing"});
    ASSERT_EQ(plain.exitCode, 0) << plain.errors;
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    using Row = std::vector<std::string>;
    const Row columns{"offset_ms",     "length_s", "loudness_db",     "slur_chance", "centre_cents",
                      "slide_cents",   "slide_ms", "slide_out_cents", "bend_cents",  "vibrato_hz",
                      "vibrato_cents", "trill_hz", "trill_semitones", "marks",       "heard"};
    ASSERT_EQ(plain.rows.size(), theLine.size() + 1);
    ASSERT_EQ(plain.rows[0].size(), 12u);
    ASSERT_EQ(run.rows.size(), plain.rows.size());
    std::vector<Row> playing;
    for (std::size_t i = 0; i < plain.rows.size(); ++i) {
        Row& row = run.rows[i];
        ASSERT_EQ(row.size(), plain.rows[i].size() + columns.size());
        const auto begin = row.begin() + 9; // behind bar and beat
        const auto end = begin + static_cast<std::ptrdiff_t>(columns.size());
        playing.emplace_back(begin, end);
        row.erase(begin, end);
        EXPECT_EQ(row, plain.rows[i]);
    }
    EXPECT_EQ(playing.front(), columns);
    for (std::size_t note = 1; note < theLine.size(); ++note) {
        // Tones begin where the beats are; an onset is told to some ten milliseconds.
        EXPECT_NEAR(std::stod(playing[note][0]), 0, 20) << note;
        EXPECT_EQ(playing[note][13].starts_with("accent:"), note == 4) << note << playing[note][13];
    }
    EXPECT_EQ(run.rows.back()[0], "unwritten");
    EXPECT_EQ(playing.back(), Row(columns.size()));
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
