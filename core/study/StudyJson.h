// How the small things of a study file become JSON.
#pragma once

#include "core/time/Beats.h"

#include <nlohmann/json.hpp>

namespace earwright {

/// A whole number, or "7/2".
inline nlohmann::ordered_json toJson(const Beats& beats) {
    if (beats.denominator() == 1) return beats.numerator();
    return toString(beats);
}

template <class List, class Item>
nlohmann::ordered_json listOf(const List& list, Item item) {
    nlohmann::ordered_json array = nlohmann::ordered_json::array();
    for (const auto& element : list)
        array.push_back(item(element));
    return array;
}

} // namespace earwright
