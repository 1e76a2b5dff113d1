// Keyboards are plugged in, pulled out and played without any being there.
#include "core/midi/MidiKeyboard.h"

#include "tests/core/midi/FakePorts.h"

#include <algorithm>
#include <chrono>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <memory>
#include <thread>

namespace earwright {
namespace {

using namespace std::chrono_literals;
using Kind = KeyStroke::Kind;
using tests::FakeCables;
using tests::FakePorts;

struct Keyboards : testing::Test {
    FakeCables cables;
    std::unique_ptr<MidiKeyboard> keyboard;

    void start(const KeyboardWish& wish = {}) {
        keyboard = std::make_unique<MidiKeyboard>(std::make_unique<FakePorts>(cables), wish, 2ms);
    }
    /// Looks are 2 ms apart; seconds are for a crowded machine.
    template <class Condition>
    bool soon(Condition holds) {
        for (int i = 0; i < 5000; ++i) {
            if (holds(keyboard->report())) return true;
            std::this_thread::sleep_for(1ms);
        }
        return false;
    }
    bool soonListensTo(const std::string& name) {
        return soon([&](const KeyboardReport& report) { return report.isKnown && report.name == name; });
    }
};

TEST_F(Keyboards, AreNoTroubleWhereThereIsNone) {
    start();
    ASSERT_TRUE(soonListensTo(""));
    EXPECT_EQ(keyboard->report(), (KeyboardReport{true, "", "", {}, ""}));
    EXPECT_TRUE(keyboard->take().empty());
}

TEST_F(Keyboards, HandOverWhatIsPlayedOnce) {
    cables.plug({"Midi Through Port-0", "Keys"});
    start();
    ASSERT_TRUE(soonListensTo("Keys")) << "the system's loop is no keyboard";
    const auto at = std::chrono::steady_clock::now();
    cables.send("Keys", {0x90, 62, 90}, at);
    cables.send("Keys", {0xfe}, at);
    cables.send("Keys", {0x80, 62, 0}, at + 200ms);
    EXPECT_THAT(keyboard->take(), testing::ElementsAre(KeyStroke{Kind::Down, 62, 90, at},
                                                       KeyStroke{Kind::Up, 62, 0, at + 200ms}));
    EXPECT_TRUE(keyboard->take().empty());
}

TEST_F(Keyboards, AreTakenAgainWhenTheyComeBack) {
    cables.plug({"Keys"});
    start();
    ASSERT_TRUE(soonListensTo("Keys"));
    cables.send("Keys", {0x90, 62, 90});
    cables.pull("Keys");
    ASSERT_TRUE(soonListensTo(""));
    EXPECT_EQ(keyboard->report().lost, "Keys");
    const auto strokes = keyboard->take();
    ASSERT_EQ(strokes.size(), 2u);
    EXPECT_EQ(strokes[1].kind, Kind::AllUp) << "nobody holds a key of what is gone";
    cables.plug({"Other", "Keys"});
    ASSERT_TRUE(soon([](const KeyboardReport& report) { return !report.name.empty(); }));
    EXPECT_EQ(keyboard->report().name, "Keys") << "though the other is listed first";
    EXPECT_EQ(keyboard->report().lost, "");
    cables.send("Keys", {0x90, 64, 90});
    EXPECT_EQ(keyboard->take().size(), 1u);
}

TEST_F(Keyboards, StayWhenAnotherIsPluggedIn) {
    cables.plug({"Keys"});
    start();
    ASSERT_TRUE(soonListensTo("Keys"));
    cables.plugFirst("Another");
    ASSERT_TRUE(soon([](const KeyboardReport& report) { return report.choices.size() == 2; }));
    EXPECT_EQ(keyboard->report().name, "Keys");
    EXPECT_TRUE(cables.isOpen("Keys"));
    EXPECT_TRUE(keyboard->take().empty()) << "no key was let go";
}

TEST_F(Keyboards, AreChosenByName) {
    cables.plug({"Keys", "Another"});
    start({true, "Another"});
    ASSERT_TRUE(soonListensTo("Another"));
    keyboard->use({true, "Keys"});
    EXPECT_TRUE(soonListensTo("Keys"));
    EXPECT_FALSE(cables.isOpen("Another"));
    keyboard->use({true, "Not there"});
    EXPECT_TRUE(soonListensTo("")) << "the one that was chosen is waited for";
    keyboard->use({true, "Keys"});
    ASSERT_TRUE(soonListensTo("Keys"));
    keyboard->use({false, ""});
    EXPECT_TRUE(soonListensTo(""));
    EXPECT_FALSE(cables.isOpen("Keys"));
}

TEST_F(Keyboards, SayWhyNoneCanBeListenedToAndTryAgain) {
    cables.plug({"Keys"});
    cables.refuse("Keys is busy.");
    start();
    ASSERT_TRUE(soon([](const KeyboardReport& report) { return report.trouble == "Keys is busy."; }));
    cables.refuse("");
    ASSERT_TRUE(soonListensTo("Keys"));
    EXPECT_EQ(keyboard->report().trouble, "");
    cables.breakDown("This system has no MIDI.");
    ASSERT_TRUE(soon([](const KeyboardReport& report) { return !report.trouble.empty(); }));
    EXPECT_EQ(keyboard->report().lost, "Keys");
    cables.breakDown("");
    EXPECT_TRUE(soonListensTo("Keys"));
}

TEST_F(Keyboards, KeepNoMoreThanALongPassAndGoInMidPlay) {
    cables.plug({"Keys"});
    start();
    ASSERT_TRUE(soonListensTo("Keys"));
    for (int i = 0; i < 1500; ++i)
        cables.send("Keys", {0x90, static_cast<std::uint8_t>(i % 100), 64});
    const auto strokes = keyboard->take();
    ASSERT_EQ(strokes.size(), 1024u);
    EXPECT_EQ(strokes.back().midi, 1499 % 100);
    cables.send("Keys", {0x90, 60, 64});
    keyboard.reset();
    EXPECT_FALSE(cables.isOpen("Keys"));
}

// Where a computer has no sequencer, as most build machines, this is the friendly word; elsewhere the list.
TEST(SystemPorts, AnswerWithNamesOrWithASentence) {
    const auto ports = systemMidiPorts();
    if (!ports) GTEST_SKIP() << "built without MIDI";
    const auto names = ports->names();
    if (names) {
        for (const std::string& name : *names)
            EXPECT_EQ(std::count(names->begin(), names->end(), name), 1) << name;
        GTEST_SKIP() << "this machine has a sequencer: " << names->size() << " ports";
    }
    EXPECT_THAT(names.error().message, testing::HasSubstr("no MIDI"));
    EXPECT_FALSE(ports->open("Keys", [](auto, auto) {}).ok());
    ports->close();
}

} // namespace
} // namespace earwright
