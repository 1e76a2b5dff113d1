// Readings and clefs as a list to choose from in a dialog.
#pragma once

#include "ui/page/ReadingChoices.h"

#include <QComboBox>

#include <cstddef>
#include <vector>

namespace earwright::ui {

/// A list of the choices in their order, at `now`. Ownership: the caller's, until it goes into a layout.
template <typename Value>
QComboBox* choiceBox(const std::vector<NamedChoice<Value>>& choices, const Value& now) {
    auto* box = new QComboBox;
    for (const NamedChoice<Value>& choice : choices) {
        box->addItem(choice.name);
        if (choice.value == now) box->setCurrentIndex(box->count() - 1);
    }
    return box;
}

/// Requires: the box was made of these choices, and there is at least one.
template <typename Value>
Value chosenIn(const QComboBox& box, const std::vector<NamedChoice<Value>>& choices) {
    return choices[static_cast<std::size_t>(box.currentIndex())].value;
}

} // namespace earwright::ui
