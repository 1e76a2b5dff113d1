#include "core/midi/PortNames.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using Names = std::vector<std::string>;

TEST(PortNames, StayWhenACableIsPulledAndTheNumbersChange) {
    EXPECT_EQ(plainPortNames({"Stage Piano:Stage Piano MIDI 1 24:0"}), (Names{"Stage Piano MIDI 1"}));
    EXPECT_EQ(plainPortNames({"Stage Piano:Stage Piano MIDI 1 131:0"}), (Names{"Stage Piano MIDI 1"}));
}

TEST(PortNames, TellTheClientWhereThePortDoesNot) {
    EXPECT_EQ(plainPortNames({"Interface:In 2 20:1", "Interface:In 3 20:2"}),
              (Names{"Interface, In 2", "Interface, In 3"}));
}

TEST(PortNames, TellTwoKeyboardsOfAKindApart) {
    EXPECT_EQ(plainPortNames({"Keys:Keys MIDI 1 24:0", "Keys:Keys MIDI 1 28:0", "Keys:Keys MIDI 1 32:0"}),
              (Names{"Keys MIDI 1", "Keys MIDI 1 (2)", "Keys MIDI 1 (3)"}));
}

TEST(PortNames, OfOtherSystemsStayAsTheyAre) {
    EXPECT_EQ(plainPortNames({"Keys 49", "a:b", ""}), (Names{"Keys 49", "a:b", ""}));
}

TEST(PortNames, KnowTheLoopOfTheSystem) {
    EXPECT_TRUE(isLoopOfSystem(plainPortNames({"Midi Through:Midi Through Port-0 14:0"})[0]));
    EXPECT_FALSE(isLoopOfSystem("Keys MIDI 1"));
}

} // namespace
} // namespace earwright
