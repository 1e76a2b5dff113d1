#include "core/engine/QuietSoundLibraries.h"

#include <cstdio>
#include <dlfcn.h>
#include <initializer_list>
#include <mutex>
#include <string_view>
#include <unistd.h>

namespace earwright {

namespace {

void sayNothingAlsa(const char*, int, const char*, int, const char*, ...) {}
void sayNothingJack(const char*) {}

/// The libraries come in with PortAudio and are no dependency of ours, so their functions are looked up.
template <class Function>
Function find(const char* name) {
    return reinterpret_cast<Function>(dlsym(RTLD_DEFAULT, name));
}

#ifdef __GLIBC__
/// PortAudio 19.6, pa_debugprint.h and the macro PA_ENSURE: one line, printed in one piece.
bool isPortAudioTalk(std::string_view text) {
    return text.starts_with("Expression '") && text.find("' failed in 'src/") != text.npos;
}

ssize_t passOn(void*, const char* text, std::size_t size) {
    if (isPortAudioTalk({text, size})) return static_cast<ssize_t>(size);
    std::size_t written = 0;
    while (written < size) {
        const ssize_t more = write(STDERR_FILENO, text + written, size - written);
        if (more <= 0) break;
        written += static_cast<std::size_t>(more);
    }
    return static_cast<ssize_t>(size);
}

void sieveErrors() {
    cookie_io_functions_t sieve{};
    sieve.write = &passOn;
    FILE* const sieved = fopencookie(nullptr, "w", sieve);
    if (!sieved) return;
    // glibc still hands over each printed message in one piece.
    std::setvbuf(sieved, nullptr, _IONBF, 0);
    stderr = sieved;
}
#else
void sieveErrors() {}
#endif

} // namespace

void quietSoundLibraries() {
    static std::once_flag done;
    std::call_once(done, [] {
        using AlsaHandler = void (*)(const char*, int, const char*, int, const char*, ...);
        using JackHandler = void (*)(const char*);
        if (const auto set = find<int (*)(AlsaHandler)>("snd_lib_error_set_handler")) set(&sayNothingAlsa);
        for (const char* name : {"jack_set_error_function", "jack_set_info_function"})
            if (const auto set = find<void (*)(JackHandler)>(name)) set(&sayNothingJack);
        sieveErrors();
    });
}

} // namespace earwright
