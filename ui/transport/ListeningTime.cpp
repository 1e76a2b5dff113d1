#include "ui/transport/ListeningTime.h"

namespace earwright::ui {

void ListeningTime::add(double seconds, bool playing) {
    if (playing) {
        played += seconds;
        paused = 0;
        return;
    }
    paused += seconds;
    if (paused < rest) return;
    played = 0;
    putAway = false;
}

} // namespace earwright::ui
