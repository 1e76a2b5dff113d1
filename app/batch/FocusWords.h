// The names by which commands and scripts know the parts of a stereo picture.
#pragma once

#include "core/sound/Focus.h"

#include <optional>
#include <string_view>
#include <utility>

namespace earwright::batch {

inline std::optional<Focus> focusNamed(std::string_view word) {
    constexpr std::pair<std::string_view, Focus> choices[] = {{"all", Focus::All},
                                                              {"left", Focus::Left},
                                                              {"right", Focus::Right},
                                                              {"centre", Focus::Centre},
                                                              {"sides", Focus::Sides}};
    for (const auto& [name, focus] : choices)
        if (name == word) return focus;
    return std::nullopt;
}

} // namespace earwright::batch
