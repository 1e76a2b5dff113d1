// What `hint` prints, which scripts rely on.
#include "tests/app/BatchRun.h"
#include "tests/app/ListeningMaterial.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

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

} // namespace
} // namespace earwright
