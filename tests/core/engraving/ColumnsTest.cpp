#include "core/engraving/Columns.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

Column note(double quarters, double left = 0, double right = 1.2) {
    Column column;
    column.quarters = quarters;
    column.row(ColumnRow::Staff) = Reach{left, right};
    return column;
}

Column barLine() {
    Column column;
    column.row(ColumnRow::Staff) = Reach{0.4, 0};
    return column;
}

TEST(Columns, FillTheWidth) {
    const auto places = spreadOver(40, {note(1), note(0.5), note(0.5), note(2), barLine()});
    EXPECT_NEAR(places.back(), 40, 1e-6);
    EXPECT_EQ(places.front(), 0);
}

// The rule stated in Columns.h: room grows with duration to the power 0.6, 2^0.6 = 1.516 for twice as long.
TEST(Columns, GiveLongerNotesMoreRoomButNotInProportion) {
    const auto places = spreadOver(60, {note(1), note(2), note(1), barLine()});
    const double quarter = places[1] - places[0];
    EXPECT_NEAR((places[2] - places[1]) / quarter, std::pow(2, 0.6), 1e-6);
    EXPECT_NEAR(places[3] - places[2], quarter, 1e-6);
}

TEST(Columns, NeverLetTwoThingsOfARowMeet) {
    // Too little room for the springs: what stands in the row decides.
    const auto places = spreadOver(8, {note(0.25), note(0.25, 1.5), note(0.25), note(0.25), barLine()});
    EXPECT_GE(places[1] - places[0], 1.2 + 1.5);
    EXPECT_GE(places[2] - places[1], 1.2);
}

TEST(Columns, KeepChordSymbolsApartAcrossColumnsWithoutOne) {
    std::vector<Column> columns{note(0.25), note(0.25), note(0.25), barLine()};
    columns[0].row(ColumnRow::Chords) = Reach{0, 7};
    columns[2].row(ColumnRow::Chords) = Reach{0, 5};
    const auto places = spreadOver(9, columns);
    EXPECT_GE(places[2] - places[0], 7);
}

TEST(Columns, ShareWhatAChordSymbolNeedsAmongTheNotesUnderIt) {
    std::vector<Column> columns{note(0.5), note(0.5), note(0.5), note(0.5), barLine()};
    columns[0].row(ColumnRow::Chords) = Reach{0, 12};
    columns[2].row(ColumnRow::Chords) = Reach{0, 3};
    const auto places = spreadWith(4, columns);
    EXPECT_GE(places[2] - places[0], 12);
    EXPECT_NEAR(places[1] - places[0], places[2] - places[1], 1e-9) << "no hole before the second symbol";
}

TEST(Columns, KeepWhatNotesUnderAChordSymbolNeedThemselves) {
    std::vector<Column> columns{note(0.25), note(0.25), note(0.25), note(0.25), note(1, 1.2), barLine()};
    columns[0].row(ColumnRow::Chords) = Reach{0, 8};
    columns[4].row(ColumnRow::Chords) = Reach{0, 3};
    for (const double quarter : {0.0, 1.0, 3.2, 8.0}) {
        const auto places = spreadWith(quarter, columns);
        EXPECT_GE(places[4] - places[0], 8) << quarter;
        EXPECT_GE(places[4] - places[3], 1.2 + 0.4 + 1.2 - 1e-9) << quarter;
        for (std::size_t i = 1; i < 4; ++i)
            EXPECT_GE(places[i] - places[i - 1], 1.2 + 0.4 - 1e-9) << quarter << " " << i;
    }
}

TEST(Columns, AreSqueezedWhereEvenThatIsTooWide) {
    const auto places = spreadOver(3, {note(1), note(1), note(1), barLine()});
    EXPECT_NEAR(places.back(), 3, 1e-9);
    EXPECT_TRUE(spreadOver(10, {}).empty());
}

} // namespace
} // namespace earwright
