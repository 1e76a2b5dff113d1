// The names by which commands and scripts know the parts of a stereo picture.
#pragma once

#include "core/sound/Focus.h"

#include <array>
#include <optional>
#include <string_view>
#include <utility>

namespace earwright::batch {

inline constexpr std::array<std::pair<std::string_view, Focus>, 5> focusWords{{{"all", Focus::All},
                                                                               {"left", Focus::Left},
                                                                               {"right", Focus::Right},
                                                                               {"centre", Focus::Centre},
                                                                               {"sides", Focus::Sides}}};

inline std::optional<Focus> focusNamed(std::string_view word) {
    for (const auto& [name, focus] : focusWords)
        if (name == word) return focus;
    return std::nullopt;
}

inline std::string_view nameOf(Focus wanted) {
    for (const auto& [name, focus] : focusWords)
        if (focus == wanted) return name;
    return {};
}

} // namespace earwright::batch
