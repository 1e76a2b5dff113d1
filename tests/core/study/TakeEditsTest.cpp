#include "core/study/TakeEdits.h"

#include "core/study/History.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

Take pass(int number, bool chosen = false) {
    Take take;
    take.file = "evening.wav";
    take.part = {Frames(1000 * number), Frames(1000 * number + 900)};
    take.at = Seconds(4);
    take.recorded = "2031-05-04T18:22:07Z";
    take.chosen = chosen;
    return take;
}

Study threePasses() {
    return addTakes(eightBarsAt120(), {pass(0), pass(1), pass(2, true)});
}

TEST(TakeEdits, KeepsTakesInTheOrderOfPlayingWithNamesAndIdsOfTheirOwn) {
    const Study study = threePasses();
    ASSERT_EQ(study.takes.size(), 3u);
    EXPECT_EQ(study.takes[0].name, "take 1");
    EXPECT_EQ(study.takes[2].name, "take 3");
    EXPECT_NE(study.takes[0].id, study.takes[1].id);
    EXPECT_EQ(study.chosenTake(), &study.takes[2]);
}

TEST(TakeEdits, GoesOnNumberingAfterTheHighest) {
    Study study = removeTake(threePasses(), threePasses().takes[1].id);
    study = renameTake(study, study.takes[0].id, "take of the day");
    study = addTakes(study, {pass(3)});
    EXPECT_EQ(study.takes.back().name, "take 4");
}

TEST(TakeEdits, ChoosesOneTakeOrNone) {
    Study study = threePasses();
    study = chooseTake(study, study.takes[0].id);
    EXPECT_EQ(study.chosenTake(), &study.takes[0]);
    EXPECT_EQ(chooseTake(study, TakeId{999}), study);
    EXPECT_EQ(chooseTake(study, std::nullopt).chosenTake(), nullptr);
    const Study more = addTakes(study, {pass(4, true)});
    EXPECT_EQ(more.chosenTake(), &more.takes[3]) << "a take just played takes the place of the one before";
}

TEST(TakeEdits, EveryOneOfThemCanBeUndone) {
    History history(eightBarsAt120());
    history.apply("keep takes", threePasses());
    const TakeId first = history.present().takes[0].id;
    history.apply("choose take", chooseTake(history.present(), first));
    history.apply("rename take", renameTake(history.present(), first, "the good one"));
    history.apply("remove take", removeTake(history.present(), first));
    EXPECT_EQ(history.present().takes.size(), 2u);
    EXPECT_EQ(history.present().chosenTake(), nullptr);
    history.undo();
    EXPECT_EQ(history.present().chosenTake()->name, "the good one");
    history.undo();
    history.undo();
    EXPECT_EQ(history.present().takes, threePasses().takes);
    history.undo();
    EXPECT_TRUE(history.present().takes.empty());
}

} // namespace
} // namespace earwright
