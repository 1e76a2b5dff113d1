// What `check` prints, which scripts rely on.
#include "core/study/PhrasingEdits.h"
#include "core/study/PlayerEdits.h"
#include "core/study/StudyFile.h"
#include "tests/app/BatchRun.h"
#include "tests/app/ListeningMaterial.h"

#include <cstddef>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

TEST(CheckCommand, AnswersEveryRowInOrderWithTheFixedColumns) {
    const Material material;
    const BatchRun run({"check", material.audio, "--notes", material.notes});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_GE(run.rows.size(), 9u);
    EXPECT_EQ(run.rows[0],
              (std::vector<std::string>{"kind", "onset_s", "dur_s", "midi", "verdict", "score",
                                        "suggested_midi", "listened", "behind_ms", "begins_s", "together"}));
    const std::vector<int> written{60, 62, 65, 65, 67, 68, 67, 65};
    for (std::size_t i = 0; i < written.size(); ++i) {
        const auto& row = run.rows[i + 1];
        ASSERT_EQ(row.size(), 11u);
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

TEST(CheckCommand, SaysOfARunThatIsWrittenTooLateThatAllOfItIs) {
    const Material material;
    std::string rows = "onset_s\tdur_s\tmidi\n";
    for (std::size_t i = 0; i < theLine.size(); ++i) {
        const double late = i < 3 ? 0 : 0.3125;
        rows += std::to_string(0.5 + 0.3125 * static_cast<double>(i) + late) + "\t0.28\t" +
                std::to_string(theLine[i]) + "\n";
    }
    writeBytes(material.notes, rows);
    const BatchRun run({"check", material.audio, "--notes", material.notes});
    ASSERT_EQ(run.exitCode, 0) << run.errors;
    ASSERT_EQ(run.rows.size(), 9u) << "nothing is listed as missing";
    for (std::size_t i = 1; i <= 8; ++i) {
        const std::string& words = run.rows[i][10];
        if (i <= 3) {
            EXPECT_EQ(words, "");
            continue;
        }
        const std::string start = "the recording has these 5 notes ";
        ASSERT_TRUE(words.starts_with(start) && words.ends_with(" ms earlier")) << words;
        EXPECT_NEAR(std::stod(words.substr(start.size())), 312.5, 30);
        EXPECT_EQ(run.rows[i][6], "") << "its pitch is right";
    }
}

TEST(CheckCommand, NamesTheStepOfThePageByWhichARunOfAStudyIsMoved) {
    const Material material;
    Study late = studyOfTheLine();
    for (std::size_t i = 3; i < theLine.size(); ++i)
        late.notes[i].onset += Beats(1);
    Study low = studyOfTheLine();
    for (std::size_t i = 3; i < theLine.size(); ++i)
        low.notes[i].pitch.midi -= 12;
    const auto said = [&](const Study& study) {
        const std::string file = (material.folder / "line.study").string();
        writeBytes(file, StudyFile::text(study));
        const BatchRun run({"check", file});
        EXPECT_EQ(run.exitCode, 0) << run.errors;
        return run.rows.back().back();
    };
    EXPECT_EQ(said(late), "the recording has these 5 notes a quarter earlier");
    EXPECT_EQ(said(low), "the recording has these 5 notes an octave higher");
    EXPECT_EQ(said(studyOfTheLine()), "");
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

TEST(CheckCommand, PutsHowTheNotesOfAStudyArePlayedBeforeTheLastFourColumnsAndChangesNoOther) {
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
    ASSERT_EQ(plain.rows[0].size(), 13u);
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

} // namespace
} // namespace earwright
