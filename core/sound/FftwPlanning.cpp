#include "core/sound/FftwPlanning.h"

#include <fftw3.h>

namespace earwright {

std::mutex& fftwPlanning() {
    static std::mutex mutex;
    return mutex;
}

void FftwFree::operator()(void* memory) const {
    fftwf_free(memory);
}

void FftwDestroyPlan::operator()(void* plan) const {
    const std::scoped_lock lock(fftwPlanning());
    fftwf_destroy_plan(static_cast<fftwf_plan>(plan));
}

} // namespace earwright
