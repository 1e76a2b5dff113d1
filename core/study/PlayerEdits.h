// Saying who plays.
#pragma once

#include "core/study/Study.h"

namespace earwright {

/// Players as the user names them; a range that is none changes nothing.
Study setPlayers(const Study& study, const Players& players);

} // namespace earwright
