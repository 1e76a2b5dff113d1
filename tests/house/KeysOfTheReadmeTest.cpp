// Reads the keys that the README names and fails where the table of commands has none of that name. Of keys
// without a modifier, letters and function keys are read in its steps too, all others in its table alone.
#include "ui/commands/CommandTable.h"

#include <cctype>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace earwright::ui {
namespace {

using Words = std::vector<std::string>;

const std::map<std::string, Qt::Key> namedKeys{
    {"Space", Qt::Key_Space},
    {"Home", Qt::Key_Home},
    {"Enter", Qt::Key_Return},
    {"Backspace", Qt::Key_Backspace},
    {"Esc", Qt::Key_Escape},
    {"Tab", Qt::Key_Tab},
    {"Delete", Qt::Key_Delete},
    {"PageUp", Qt::Key_PageUp},
    {"PageDown", Qt::Key_PageDown},
    {"Up", Qt::Key_Up},
    {"Down", Qt::Key_Down},
    {"↑", Qt::Key_Up},
    {"↓", Qt::Key_Down},
    {"→", Qt::Key_Right},
    {"←", Qt::Key_Left},
    {"−", Qt::Key_Minus},
    {"=", Qt::Key_Equal},
    {",", Qt::Key_Comma},
    {".", Qt::Key_Period},
    {"[", Qt::Key_BracketLeft},
    {"]", Qt::Key_BracketRight},
    {"F6", Qt::Key_F6},
};
/// The system's own key for a menu, and what is no key.
const std::set<std::string> notInTheTable{"Menu", "wheel", "then", "and", "letters", "or", "MIDI", "keys"};
const std::map<std::string, Qt::KeyboardModifier> modifierNames{
    {"Ctrl+", Qt::ControlModifier}, {"Shift+", Qt::ShiftModifier}, {"Alt+", Qt::AltModifier}};

const std::regex chord(R"((?:(?:Ctrl|Shift|Alt)\+)+[^\s;:)]+)");

std::string withoutBreaks(std::string text) {
    text = std::regex_replace(text, std::regex("Page\\s+up"), "PageUp");
    return std::regex_replace(text, std::regex("Page\\s+down"), "PageDown");
}

std::string readme() {
    std::ifstream file(std::filesystem::path(EARWRIGHT_SOURCE_DIR) / "README.md");
    std::stringstream text;
    text << file.rdbuf();
    return withoutBreaks(text.str());
}

/// What the steps say, but for what is to be typed and keys with a modifier.
std::string stepsOfTheJob() {
    const std::string text = readme();
    const std::size_t begin = text.find("## How the job is done");
    const std::string steps = text.substr(begin, text.find("## Keys") - begin);
    return std::regex_replace(std::regex_replace(steps, std::regex("`[^`]*`"), ""), chord, "");
}

/// The cells on the left of the table of keys, as far as they are commands of the desk.
Words keyCells() {
    Words cells;
    std::istringstream text(readme());
    bool isInTable = false;
    for (std::string line; std::getline(text, line);) {
        if (line == "| --- | --- |" || line == "| keys | do |") continue;
        if (line == "## Keys") isInTable = true;
        if (line.starts_with("## ") && line != "## Keys") isInTable = false;
        if (!isInTable || !line.starts_with("| ")) continue;
        const std::string cell = line.substr(2, line.find(" | ") - 2);
        // Those are the list's own.
        if (cell.find("among the loose ends") == std::string::npos) cells.push_back(cell);
    }
    return cells;
}

std::optional<Qt::Key> keyCalled(const std::string& name) {
    if (const auto named = namedKeys.find(name); named != namedKeys.end()) return named->second;
    const bool isSign = name.size() == 1 && (std::isupper(name[0]) != 0 || std::isdigit(name[0]) != 0);
    return isSign ? std::optional(static_cast<Qt::Key>(name[0])) : std::nullopt;
}

/// Modifiers at the head of a word, which they are taken off.
Qt::KeyboardModifiers takeModifiers(std::string& word) {
    Qt::KeyboardModifiers taken;
    for (bool found = true; found;) {
        found = false;
        for (const auto& [name, modifier] : modifierNames)
            if (word.starts_with(name)) {
                taken |= modifier;
                word.erase(0, name.size());
                found = true;
            }
    }
    return taken;
}

bool isBound(Qt::KeyboardModifiers modifiers, Qt::Key key) {
    static const auto bound = [] {
        std::set<QString> all;
        for (const Command& each : commandTable())
            for (const QKeySequence& sequence : each.keys)
                all.insert(sequence.toString(QKeySequence::PortableText));
        return all;
    }();
    return bound.contains(QKeySequence(QKeyCombination(modifiers, key)).toString(QKeySequence::PortableText));
}

/// The keys that a word stands for: arrows along the line, with Shift and Alt those up and down too.
std::vector<Qt::Key> keysOf(const std::string& word, Qt::KeyboardModifiers modifiers) {
    if (word == "arrows" && (modifiers == Qt::ShiftModifier || modifiers == Qt::AltModifier))
        return {Qt::Key_Left, Qt::Key_Right, Qt::Key_Up, Qt::Key_Down};
    if (word == "arrows") return {Qt::Key_Left, Qt::Key_Right};
    const auto key = keyCalled(word);
    return key ? std::vector{*key} : std::vector<Qt::Key>();
}

void expectBound(const std::string& word, Qt::KeyboardModifiers modifiers, const std::string& where) {
    if (notInTheTable.contains(word)) return;
    const std::vector<Qt::Key> keys = keysOf(word, modifiers);
    EXPECT_FALSE(keys.empty()) << "\"" << word << "\" is no key: " << where;
    for (const Qt::Key key : keys)
        EXPECT_TRUE(isBound(modifiers, key)) << word << " does nothing: " << where;
}

/// "2 to 9" as all of them.
std::string withRanges(const std::string& cell) {
    std::string all;
    std::smatch range;
    static const std::regex fromTo("([0-9]) to ([0-9])");
    if (!std::regex_search(cell, range, fromTo)) return cell;
    for (char digit = range.str(1)[0]; digit <= range.str(2)[0]; ++digit)
        all += std::string(1, digit) + ' ';
    all.pop_back();
    return range.prefix().str() + all + range.suffix().str();
}

/// Reads "Ctrl+Shift+→ ←; Ctrl+A": a modifier holds for the keys behind it, until a semicolon or a word.
/// Gives the number of keys.
int expectCellBound(const std::string& cell) {
    int seen = 0;
    Qt::KeyboardModifiers modifiers;
    std::istringstream words(withRanges(cell));
    for (std::string word; words >> word; ++seen) {
        const bool ends = word.size() > 1 && word.back() == ';';
        if (ends) word.pop_back();
        if (word.size() > 1 && word.back() == ',' && !word.ends_with("+,")) word.pop_back();
        if (const Qt::KeyboardModifiers own = takeModifiers(word)) modifiers = own;
        if (notInTheTable.contains(word)) modifiers = {};
        expectBound(word, modifiers, cell);
        if (ends) modifiers = {};
    }
    return seen;
}

TEST(KeysOfTheReadme, AreAllInTheTableOfCommands) {
    int seen = 0;
    for (const std::string& cell : keyCells())
        seen += expectCellBound(cell);
    EXPECT_GT(seen, 150) << "the table of keys was not found";
}

TEST(KeysOfTheReadme, WithCtrlShiftOrAltAreInTheTableOfCommandsWhereverTheyAreNamed) {
    int seen = 0;
    const std::string text = readme();
    for (std::sregex_iterator each(text.begin(), text.end(), chord), end; each != end; ++each) {
        const std::string whole = each->str();
        std::string word = whole;
        const Qt::KeyboardModifiers modifiers = takeModifiers(word);
        while (word.size() > 1 && (word.back() == ',' || word.back() == '.'))
            word.pop_back();
        expectBound(word, modifiers, whole);
        ++seen;
    }
    EXPECT_GT(seen, 80) << "the keys were not found";
}

TEST(KeysOfTheReadme, ThatAreLettersAreInTheTableOfCommandsInTheStepsToo) {
    int seen = 0;
    const std::string text = stepsOfTheJob();
    static const std::regex letter(R"(\b(?:[A-Z]|F[0-9]+)\b)");
    for (std::sregex_iterator each(text.begin(), text.end(), letter), end; each != end; ++each) {
        const std::string word = each->str();
        // The article, or the pitch to tune to, unless it stands in a row of keys.
        if (word == "A" && each->prefix() != " ") continue;
        expectBound(word, {}, word + each->suffix().str().substr(0, 30));
        ++seen;
    }
    EXPECT_GT(seen, 20) << "the steps were not found";
}

} // namespace
} // namespace earwright::ui
