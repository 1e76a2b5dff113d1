// Claimed notes and spans of time as scripts hand them over.
#pragma once

#include "core/check/Claim.h"
#include "core/result/Result.h"

#include <filesystem>
#include <vector>

namespace earwright::batch {

/// Reads a table with the columns onset_s, dur_s and midi. Errors: NotFound, Unreadable; Malformed for
/// anything that is not an onset from 0 on, a length above 0 and a whole MIDI number from 0 to 127, with file
/// and line.
Result<std::vector<Claim>> readClaims(const std::filesystem::path& path);

/// Reads a table with the columns start_s and end_s. Errors as above; an end must come after its start.
Result<std::vector<Range<Seconds>>> readSpans(const std::filesystem::path& path);

} // namespace earwright::batch
