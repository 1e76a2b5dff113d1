// The readings and clefs a user chooses from, as they are called on the screen, on the command line and in
// what is remembered; the bars to a line of the page under the grid, on the screen and in what is remembered.
#pragma once

#include "core/engraving/PageView.h"

#include <QString>

#include <optional>
#include <vector>

namespace earwright::ui {

template <typename Value>
struct NamedChoice {
    /// Plain ASCII: "b-flat".
    QString word;
    /// For the user, translated.
    QString name;
    Value value;
};

/// For whom the notes are written.
std::vector<NamedChoice<Reading>> readingChoices();
/// None first: the clef that fits, whose word is "fitting".
std::vector<NamedChoice<std::optional<Clef>>> clefChoices();

/// One bar to a line up to mostBarsOfPageLine, "1" to "8"; behind them as many as fit, "fitting".
std::vector<NamedChoice<std::optional<int>>> barsPerLineChoices();

/// The value that goes with a word; none for a word that is not among them.
template <typename Value>
std::optional<Value> chosenBy(const std::vector<NamedChoice<Value>>& choices, const QString& word) {
    for (const NamedChoice<Value>& choice : choices)
        if (choice.word == word) return choice.value;
    return std::nullopt;
}

/// Requires: value is among the choices.
template <typename Value>
QString wordFor(const std::vector<NamedChoice<Value>>& choices, const Value& value) {
    for (const NamedChoice<Value>& choice : choices)
        if (choice.value == value) return choice.word;
    return {};
}

} // namespace earwright::ui
