// Keeps a command from writing over the files it reads.
#pragma once

#include "core/result/Error.h"

#include <filesystem>
#include <initializer_list>
#include <optional>
#include <string>

namespace earwright::batch {

/// Why `out` must not be written: it is one of the files read, by the same or another name or link.
/// Recordings are never changed. Nothing where it is another file or a new one.
inline std::optional<Error> overwrittenInput(const std::string& out,
                                             std::initializer_list<std::string> inputs) {
    for (const std::string& input : inputs) {
        std::error_code unknown;
        if (std::filesystem::equivalent(out, input, unknown))
            return Error{ErrorKind::OutOfRange,
                         out + " is a file this command reads; name another one to write.", ""};
    }
    return std::nullopt;
}

} // namespace earwright::batch
