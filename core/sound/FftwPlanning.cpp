#include "core/sound/FftwPlanning.h"

namespace earwright {

std::mutex& fftwPlanning() {
    static std::mutex mutex;
    return mutex;
}

} // namespace earwright
