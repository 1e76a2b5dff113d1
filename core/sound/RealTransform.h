// A Fourier transform of real sound and back, of one length.
#pragma once

#include "core/sound/FftwPlanning.h"

#include <complex>
#include <cstddef>
#include <memory>
#include <span>

namespace earwright {

/// FFTW's real transform with its buffers.
///
/// Threads: one thread at a time an object; objects are independent (planning is guarded, as FFTW's manual
/// asks for).
/// Units: unnormalised, forward and backward together multiply by the length.
class RealTransform {
public:
    /// length: even, best a power of two.
    explicit RealTransform(std::size_t length);

    /// `length` samples; forward() reads them, backward() writes them.
    std::span<float> time() { return {samples.get(), size}; }
    /// length / 2 + 1 lines; forward() writes them, backward() reads and destroys them.
    std::span<std::complex<float>> spectrum() { return {lines.get(), size / 2 + 1}; }
    void forward();
    void backward();

private:
    std::size_t size;
    std::unique_ptr<float[], FftwFree> samples;
    std::unique_ptr<std::complex<float>[], FftwFree> lines;
    std::unique_ptr<void, FftwDestroyPlan> forwardPlan;
    std::unique_ptr<void, FftwDestroyPlan> backwardPlan;
};

} // namespace earwright
