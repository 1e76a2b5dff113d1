#include "core/study/PlayerEdits.h"

namespace earwright {

Study setPlayers(const Study& study, const Players& players) {
    if (players.line && !isRange(rangeOf(*players.line))) return study;
    Study edited = study;
    edited.players = players;
    return edited;
}

} // namespace earwright
