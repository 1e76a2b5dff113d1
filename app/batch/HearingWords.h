// The names by which scripts know the ways of hearing.
#pragma once

#include "core/engine/Engine.h"

#include <optional>
#include <string_view>
#include <utility>

namespace earwright::batch {

inline std::optional<Hearing> hearingNamed(std::string_view word) {
    constexpr std::pair<std::string_view, Hearing> choices[] = {{"record", Hearing::Record},
                                                                {"yours", Hearing::Yours},
                                                                {"together", Hearing::Together},
                                                                {"split", Hearing::Split},
                                                                {"trade", Hearing::Trade}};
    for (const auto& [name, hearing] : choices)
        if (name == word) return hearing;
    return std::nullopt;
}

} // namespace earwright::batch
