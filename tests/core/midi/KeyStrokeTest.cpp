#include "core/midi/KeyStroke.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

using Bytes = std::vector<std::uint8_t>;
using Kind = KeyStroke::Kind;

const std::chrono::steady_clock::time_point noon{std::chrono::hours(12)};

std::optional<KeyStroke> strokeOf(const Bytes& message) {
    return keyStrokeOf(message, noon);
}

// MIDI 1.0 Detailed Specification, Table II (channel voice messages): 1000nnnn 0kkkkkkk 0vvvvvvv is note off,
// 1001nnnn note on, and note on with velocity 0 is note off. Key 60 is middle C there.
TEST(KeyStrokes, AreReadOnAllSixteenChannels) {
    for (std::uint8_t channel = 0; channel < 16; ++channel) {
        EXPECT_EQ(strokeOf({static_cast<std::uint8_t>(0x90 + channel), 60, 100}),
                  (KeyStroke{Kind::Down, 60, 100, noon}));
        EXPECT_EQ(strokeOf({static_cast<std::uint8_t>(0x80 + channel), 60, 64}),
                  (KeyStroke{Kind::Up, 60, 64, noon}));
        EXPECT_EQ(strokeOf({static_cast<std::uint8_t>(0x90 + channel), 60, 0}),
                  (KeyStroke{Kind::Up, 60, 0, noon}));
    }
}

TEST(KeyStrokes, ReachFromTheLowestKeyToTheHighest) {
    EXPECT_EQ(strokeOf({0x90, 0, 1}), (KeyStroke{Kind::Down, 0, 1, noon}));
    EXPECT_EQ(strokeOf({0x90, 127, 127}), (KeyStroke{Kind::Down, 127, 127, noon}));
}

// Table III (controllers and mode messages): 120 is all sound off, 121 resets controllers, 122 is local
// control, 123 all notes off; 124 to 127 change the mode and turn all notes off. Table V: 1111 1111 is reset.
TEST(KeyStrokes, AllComeUpWhereTheSpecificationTurnsAllNotesOff) {
    for (const std::uint8_t controller : Bytes{120, 123, 124, 125, 126, 127}) {
        const auto stroke = strokeOf({0xb3, controller, 0});
        ASSERT_TRUE(stroke) << int{controller};
        EXPECT_EQ(stroke->kind, Kind::AllUp);
    }
    for (const std::uint8_t controller : Bytes{1, 7, 64, 119, 121, 122})
        EXPECT_FALSE(strokeOf({0xb3, controller, 127})) << int{controller};
    ASSERT_TRUE(strokeOf({0xff}));
    EXPECT_EQ(strokeOf({0xff})->kind, Kind::AllUp);
}

// Table II: A aftertouch of a key, C program, D aftertouch, E pitch bend; table V: clock, start, sensing.
TEST(KeyStrokes, AreNoneOfTheOtherMessages) {
    for (const Bytes& message :
         {Bytes{0xa0, 60, 40}, Bytes{0xc0, 5}, Bytes{0xd0, 90}, Bytes{0xe0, 0, 64}, Bytes{0xf8}, Bytes{0xfa},
          Bytes{0xfe}, Bytes{0xf0, 0x7e, 0x7f, 9, 1, 0xf7}, Bytes{0xf2, 3, 4}})
        EXPECT_FALSE(strokeOf(message)) << int{message[0]};
}

TEST(KeyStrokes, AreNotMadeOfBrokenMessages) {
    for (const Bytes& message :
         {Bytes{}, Bytes{0x90}, Bytes{0x90, 60}, Bytes{60, 100}, Bytes{60, 100, 3}, Bytes{0x90, 60, 100, 5},
          Bytes{0x90, 0x90, 100}, Bytes{0x90, 60, 0x80}, Bytes{0x80, 200, 0}})
        EXPECT_FALSE(strokeOf(message));
}

} // namespace
} // namespace earwright
