// Who plays, read from a study file.
#pragma once

#include "core/study/Players.h"
#include "core/study/StrictJson.h"

namespace earwright {

/// Member "players".
Players readPlayers(const StrictJson& json);

} // namespace earwright
