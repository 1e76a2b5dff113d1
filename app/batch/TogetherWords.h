// What is off about a run of notes, in a sentence for the headless tool.
#pragma once

#include "core/check/OffTogether.h"

#include <optional>
#include <string>

namespace earwright::batch {

/// "the recording has these 8 notes an eighth earlier"; the distance in milliseconds where no bars say which
/// step it is. Empty for a note that is in no such run.
std::string wordsFor(const std::optional<OffTogether>& together);

} // namespace earwright::batch
