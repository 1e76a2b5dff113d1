#include "core/engine/QuietSoundLibraries.h"

#include <dlfcn.h>
#include <initializer_list>

namespace earwright {

namespace {

void sayNothingAlsa(const char*, int, const char*, int, const char*, ...) {}
void sayNothingJack(const char*) {}

/// The libraries come in with PortAudio and are no dependency of ours, so their functions are looked up.
template <class Function>
Function find(const char* name) {
    return reinterpret_cast<Function>(dlsym(RTLD_DEFAULT, name));
}

} // namespace

void quietSoundLibraries() {
    using AlsaHandler = void (*)(const char*, int, const char*, int, const char*, ...);
    using JackHandler = void (*)(const char*);
    if (const auto set = find<int (*)(AlsaHandler)>("snd_lib_error_set_handler")) set(&sayNothingAlsa);
    for (const char* name : {"jack_set_error_function", "jack_set_info_function"})
        if (const auto set = find<void (*)(JackHandler)>(name)) set(&sayNothingJack);
}

} // namespace earwright
