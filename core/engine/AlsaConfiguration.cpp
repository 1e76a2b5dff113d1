#include "core/engine/AlsaConfiguration.h"

#include <dlfcn.h>

namespace earwright {

bool alsaIsConfigured() {
    // ALSA comes in with PortAudio and is no dependency of ours, so its functions are looked up.
    using Update = int (*)();
    using Search = int (*)(void*, const char*, void**);
    const auto update = reinterpret_cast<Update>(dlsym(RTLD_DEFAULT, "snd_config_update"));
    const auto search = reinterpret_cast<Search>(dlsym(RTLD_DEFAULT, "snd_config_search"));
    void** const tree = static_cast<void**>(dlsym(RTLD_DEFAULT, "snd_config"));
    if (!update || !search || !tree) return true;
    if (update() < 0 || !*tree) return false;
    void* devices = nullptr;
    return search(*tree, "pcm", &devices) == 0;
}

} // namespace earwright
