#include "ui/commands/CommandTable.h"

#include <gtest/gtest.h>
#include <set>
#include <string>

namespace earwright::ui {
namespace {

TEST(CommandTable, HasEveryCommandOnce) {
    std::set<CommandId> seen;
    for (const Command& entry : commandTable())
        EXPECT_TRUE(seen.insert(entry.id).second) << entry.word;
    EXPECT_EQ(seen.size(), static_cast<std::size_t>(CommandId::About) + 1);
}

TEST(CommandTable, GivesNoKeyTwice) {
    std::set<QString> seen;
    for (const Command& entry : commandTable())
        for (const QKeySequence& key : entry.keys)
            EXPECT_TRUE(seen.insert(key.toString()).second)
                << entry.word << " " << key.toString().toStdString();
}

TEST(CommandTable, UsesNoWordOrNameTwice) {
    std::set<std::string> words;
    std::set<std::string> names;
    for (const Command& entry : commandTable()) {
        EXPECT_TRUE(words.insert(entry.word).second) << entry.word;
        EXPECT_TRUE(names.insert(entry.name).second) << entry.name;
        EXPECT_FALSE(std::string(entry.about).empty()) << entry.word;
    }
}

struct ExpectedKey {
    CommandId id;
    const char* key;
};

// The table of keys the product describes, written out a second time by hand.
constexpr ExpectedKey expectedKeys[] = {
    {CommandId::PlayPause, "Space"},
    {CommandId::LetGo, "Esc"},
    {CommandId::Undo, "Ctrl+Z"},
    {CommandId::Redo, "Ctrl+Shift+Z"},
    {CommandId::Save, "Ctrl+S"},
    {CommandId::Open, "Ctrl+O"},
    {CommandId::TapBar, "Return"},
    {CommandId::TapBeat, "Shift+Return"},
    {CommandId::LoopFromOrToHere, "L"},
    {CommandId::LoopPhrase, "P"},
    {CommandId::Slower, "-"},
    {CommandId::Faster, "="},
    {CommandId::FullSpeed, "0"},
    {CommandId::ClimbOnOrOff, "K"},
    {CommandId::ClimbStepBack, "Shift+K"},
    {CommandId::GapLonger, "O"},
    {CommandId::GapShorter, "Shift+O"},
    {CommandId::TradeSlower, "Ctrl+-"},
    {CommandId::TradeFaster, "Ctrl+="},
    {CommandId::NextBand, "B"},
    {CommandId::HoldHere, "D"},
    {CommandId::PlayInTune, "I"},
    {CommandId::Clicks, "W"},
    {CommandId::CountIn, "Shift+W"},
    {CommandId::YoursLouder, "Y"},
    {CommandId::YoursSofter, "Shift+Y"},
    {CommandId::LoopStartEarlier, ","},
    {CommandId::LoopStartLater, "."},
    {CommandId::LoopEndEarlier, "Shift+,"},
    {CommandId::LoopEndLater, "Shift+."},
    {CommandId::DivideByTwo, "2"},
    {CommandId::DivideByThree, "3"},
    {CommandId::DivideByFour, "4"},
    {CommandId::DivideBySix, "6"},
    {CommandId::NoteInOrOut, "N"},
    {CommandId::Longer, "Shift+Right"},
    {CommandId::Shorter, "Shift+Left"},
    {CommandId::NoteHigher, "Alt+Up"},
    {CommandId::NoteLower, "Alt+Down"},
    {CommandId::SpreadNotes, "Alt+3"},
    {CommandId::RespellNote, "Alt+A"},
    {CommandId::EnterByInstrument, "Alt+I"},
    {CommandId::NoteEarlier, "Alt+Left"},
    {CommandId::NoteLater, "Alt+Right"},
    {CommandId::Slide, "S"},
    {CommandId::Grace, "G"},
    {CommandId::Trill, "R"},
    {CommandId::Slur, "U"},
    {CommandId::Ghost, "X"},
    {CommandId::Accent, "A"},
    {CommandId::BendNote, "Alt+B"},
    {CommandId::Vibrato, "Alt+V"},
    {CommandId::HammerPull, "Alt+H"},
    {CommandId::SlideOn, "Alt+S"},
    {CommandId::MarkHigher, "Alt+PgUp"},
    {CommandId::DivideByFive, "5"},
    {CommandId::DivideBySeven, "7"},
    {CommandId::DivideByTwelve, "Alt+2"},
    {CommandId::NextColumn, "Tab"},
    {CommandId::PreviousColumn, "Shift+Tab"},
    {CommandId::NextHearing, "V"},
    {CommandId::NextFocus, "F"},
    {CommandId::PreviousFocus, "Shift+F"},
    {CommandId::CheckPhrase, "C"},
    {CommandId::NextHelp, "H"},
    {CommandId::HowPlayed, "Shift+A"},
    {CommandId::CheckChords, "Ctrl+Shift+C"},
    {CommandId::TellChord, "Shift+H"},
    {CommandId::WhoPlays, "Ctrl+Shift+W"},
    {CommandId::ShowEarRecord, "Ctrl+H"},
    {CommandId::LooseEndHere, "Q"},
    {CommandId::NextLooseEnd, "J"},
    {CommandId::FewerBars, "Ctrl+PgUp"},
    {CommandId::MoreBars, "Ctrl+PgDown"},
    {CommandId::ShowPage, "Shift+E"},
    {CommandId::NextReading, "Alt+Shift+R"},
    {CommandId::NextClef, "Alt+Shift+C"},
    {CommandId::PageTablature, "Alt+Shift+T"},
    {CommandId::PageChords, "Alt+Shift+K"},
    {CommandId::PageDegrees, "Alt+Shift+D"},
    {CommandId::PageFewerBars, "Alt+Shift+Left"},
    {CommandId::PageMoreBars, "Alt+Shift+Right"},
    {CommandId::PageLarger, "Alt+Shift+Up"},
    {CommandId::PageSmaller, "Alt+Shift+Down"},
    {CommandId::PageChoices, "Alt+Shift+E"},
    {CommandId::EntryOctaveHigher, "Alt+O"},
    {CommandId::EntryOctaveLower, "Alt+Shift+O"},
};

TEST(CommandTable, HasTheKeysTheProductDescribes) {
    for (const ExpectedKey& expected : expectedKeys) {
        ASSERT_FALSE(command(expected.id).keys.empty()) << expected.key;
        EXPECT_EQ(command(expected.id).keys.front().toString(QKeySequence::PortableText).toStdString(),
                  expected.key);
    }
}

TEST(CommandTable, LeavesNoMenuEmpty) {
    std::set<CommandMenu> filled;
    for (const Command& entry : commandTable())
        filled.insert(entry.menu);
    EXPECT_EQ(filled.size(), 10u);
    for (const CommandMenu menu : filled)
        EXPECT_FALSE(translatedName(menu).isEmpty());
}

} // namespace
} // namespace earwright::ui
