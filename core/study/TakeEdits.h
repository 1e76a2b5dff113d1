// Takes: kept, chosen to be heard, named, taken off the list.
#pragma once

#include "core/study/Study.h"

#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// Puts takes just recorded at the end of the list, in their order, each under an id of its own, and chooses
/// the one that says so (the last of them). Those without a name get one: "take 7". Ids given are not looked
/// at. Requires: each lies within the limits of a study (Limits.h), is not empty, and names a file without a
/// folder.
Study addTakes(const Study& study, const std::vector<Take>& recorded);
/// Heard as "yours" from now on; nothing brings the written notes back. An id that is not there changes
/// nothing.
Study chooseTake(const Study& study, std::optional<TakeId> id);
Study renameTake(const Study& study, TakeId id, const std::string& name);
/// Off the list. The sound file is left where it is, so that undoing brings the take back.
Study removeTake(const Study& study, TakeId id);

} // namespace earwright
