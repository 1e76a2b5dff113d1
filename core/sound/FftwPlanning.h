// What FFTW's transforms have in common: the lock that planning needs, and owners of memory and plans.
#pragma once

#include <mutex>

namespace earwright {

/// Planning and destroying plans must not happen on two threads at once; transforming may (FFTW manual,
/// thread safety).
std::mutex& fftwPlanning();

/// Frees what FFTW allocated.
struct FftwFree {
    void operator()(void* memory) const;
};

/// Destroys a plan, under the lock.
struct FftwDestroyPlan {
    void operator()(void* plan) const;
};

} // namespace earwright
