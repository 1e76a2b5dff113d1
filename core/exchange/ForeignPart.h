// The parts of a file from elsewhere, and which of them becomes the line.
#pragma once

#include "core/result/Result.h"

#include <cstddef>
#include <string>
#include <vector>

namespace earwright {

/// One part as its file names it, or as it is counted where it has no name of its own.
struct ForeignPart {
    std::string name;
    /// Notes with a pitch, grace notes aside.
    std::size_t notes = 0;
    /// Struck, not pitched: never taken unless it is asked for.
    bool isDrums = false;
    friend bool operator==(const ForeignPart&, const ForeignPart&) = default;
};

/// The index of the part meant by `wish`: its number, counted from 1, or its name in any case of letters, or
/// the beginning of a name that no other part's has. An empty wish takes the first part with notes that is
/// not drums, else the first with notes.
///
/// Errors, which list the parts: OutOfRange for a wish that fits none or several; Malformed where the part
/// meant has no notes. Threads: any.
Result<std::size_t> chosenPart(const std::vector<ForeignPart>& parts, const std::string& wish,
                               const std::string& file);

/// A part's name from a file in one line of at most 60 bytes of UTF-8; `otherwise` where nothing is left.
std::string partName(const std::string& name, const std::string& otherwise);

} // namespace earwright
