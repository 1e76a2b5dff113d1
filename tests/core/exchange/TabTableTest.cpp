#include "core/exchange/TabTable.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

const std::vector<std::string> columns{"start_s", "end_s"};

TEST(TabTable, ReadsColumnsInAnyOrderAndKeepsUnknownOnes) {
    const auto table = TabTable::parse("end_s\tword\tstart_s\n2.5\tx\t1\n", "spans.tsv", columns);
    ASSERT_TRUE(table.ok());
    EXPECT_EQ(table->rowCount(), 1u);
    EXPECT_DOUBLE_EQ(*table->number(0, "start_s"), 1.0);
    EXPECT_DOUBLE_EQ(*table->number(0, "end_s"), 2.5);
    EXPECT_EQ(table->text(0, "word"), "x");
}

TEST(TabTable, TakesWindowsLineEndsAByteOrderMarkAndEmptyLines) {
    const auto table = TabTable::parse("\xEF\xBB\xBFstart_s\tend_s\r\n\r\n1\t2\r\n", "spans.tsv", columns);
    ASSERT_TRUE(table.ok());
    EXPECT_DOUBLE_EQ(*table->number(0, "end_s"), 2.0);
}

TEST(TabTable, NamesTheMissingColumn) {
    const auto table = TabTable::parse("start_s\tend\n", "spans.tsv", columns);
    ASSERT_FALSE(table.ok());
    EXPECT_EQ(describe(table.error()), "spans.tsv: the header line has no column “end_s”. (line 1)");
}

TEST(TabTable, NamesTheLineOfARowWithTooFewCells) {
    const auto table = TabTable::parse("start_s\tend_s\n1\t2\n\n3\n", "spans.tsv", columns);
    ASSERT_FALSE(table.ok());
    EXPECT_EQ(table.error().where, "line 4");
}

TEST(TabTable, RefusesWhatIsNotAFiniteNumber) {
    for (const char* cell : {"", "x", "1,5", "nan", "inf", "1 2"}) {
        const auto table =
            TabTable::parse(std::string("start_s\tend_s\n") + cell + "\t2\n", "spans.tsv", columns);
        ASSERT_TRUE(table.ok());
        EXPECT_FALSE(table->number(0, "start_s").ok()) << cell;
    }
}

TEST(TabTable, SaysWhichFileIsNotThere) {
    const auto table = TabTable::read("no such file.tsv", columns);
    ASSERT_FALSE(table.ok());
    EXPECT_EQ(table.error().kind, ErrorKind::NotFound);
    EXPECT_NE(table.error().message.find("no such file.tsv"), std::string::npos);
}

} // namespace
} // namespace earwright
