#include "core/exchange/StandardMidi.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(StandardMidi, WritesVariableLengthQuantitiesAsTheStandardsExamples) {
    // Standard MIDI Files 1.0, table of examples under "Variable-length quantities".
    const std::vector<std::pair<std::uint32_t, std::string>> examples{
        {0x00, std::string(1, '\0')},
        {0x40, "\x40"},
        {0x7F, "\x7F"},
        {0x80, std::string("\x81\x00", 2)},
        {0x2000, std::string("\xC0\x00", 2)},
        {0x3FFF, "\xFF\x7F"},
        {0x4000, std::string("\x81\x80\x00", 3)},
        {0x100000, std::string("\xC0\x80\x00", 3)},
        {0x1FFFFF, "\xFF\xFF\x7F"},
        {0x200000, std::string("\x81\x80\x80\x00", 4)},
        {0x8000000, std::string("\xC0\x80\x80\x00", 4)},
        {0xFFFFFFF, "\xFF\xFF\xFF\x7F"}};
    for (const auto& [value, bytes] : examples)
        EXPECT_EQ(variableLength(value), bytes) << value;
}

TEST(StandardMidi, EndsTheTrackWithItsEndEvent) {
    const auto file = standardMidi(Study{});
    ASSERT_TRUE(file.ok());
    EXPECT_TRUE(file->starts_with("MThd"));
    EXPECT_TRUE(file->ends_with(std::string("\x00\xFF\x2F\x00", 4)));
}

TEST(StandardMidi, RefusesALineOverTooManyBars) {
    Study study;
    Note note;
    note.onset = Beats(900'000'000);
    note.length = Beats(1);
    study.notes = {note};
    const auto file = standardMidi(study);
    ASSERT_FALSE(file.ok());
    EXPECT_EQ(file.error().kind, ErrorKind::OutOfRange);
}

} // namespace
} // namespace earwright
