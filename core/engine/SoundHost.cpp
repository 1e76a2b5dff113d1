#include "core/engine/SoundHost.h"

#include "core/engine/AlsaConfiguration.h"
#include "core/engine/QuietSoundLibraries.h"

#include <portaudio.h>
#include <utility>
#include <vector>

namespace earwright {

class SoundTurn::Host {
public:
    std::mutex guard;
    /// Guarded by `guard`.
    std::vector<SoundGuest*> guests;
    bool isStarted = false;
    std::uint64_t listing = 0;

    void start() {
        if (isStarted) return;
        quietSoundLibraries();
        isStarted = alsaIsConfigured() && Pa_Initialize() == paNoError;
        ++listing;
    }
    void stop() {
        if (isStarted) Pa_Terminate();
        isStarted = false;
    }
};

SoundTurn::Host& SoundTurn::host() {
    // Never destroyed: a thread that a hanging server keeps may still be in it when the program ends.
    static Host* const only = new Host;
    return *only;
}

SoundTurn::SoundTurn() : turn(host().guard) {
    host().start();
}

SoundTurn::~SoundTurn() {
    if (host().guests.empty()) host().stop();
}

bool SoundTurn::isReady() const {
    return host().isStarted;
}

void SoundTurn::enter(SoundGuest& guest) {
    host().guests.push_back(&guest);
}

void SoundTurn::leave(SoundGuest& guest) {
    std::erase(host().guests, &guest);
}

bool SoundTurn::hasGuests() const {
    return !host().guests.empty();
}

void SoundTurn::listAnew() {
    for (SoundGuest* guest : std::exchange(host().guests, {}))
        guest->soundHostRestarts(*this);
    host().stop();
    host().start();
}

std::uint64_t SoundTurn::listing() const {
    return host().listing;
}

} // namespace earwright
