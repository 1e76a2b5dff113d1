// The lock that planning FFTW's transforms needs.
#pragma once

#include <mutex>

namespace earwright {

/// Planning and destroying plans must not happen on two threads at once; transforming may (FFTW manual,
/// thread safety).
std::mutex& fftwPlanning();

} // namespace earwright
