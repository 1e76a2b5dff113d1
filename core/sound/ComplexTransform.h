// A Fourier transform of complex numbers, of one length.
#pragma once

#include "core/sound/FftwPlanning.h"

#include <cstddef>
#include <memory>
#include <span>

namespace earwright {

/// FFTW's complex transform with its buffers, the real parts of the numbers one after the other and the
/// imaginary parts likewise, so that what comes before and after it can be reckoned in wide vectors.
///
/// Threads: one thread at a time an object; objects are independent (planning is guarded, as FFTW's manual
/// asks for).
/// Units: unnormalised.
class ComplexTransform {
public:
    explicit ComplexTransform(std::size_t length);

    /// The real and imaginary parts of `length` numbers, which forward() reads.
    std::span<float> timeX() { return {numbers.get(), size}; }
    std::span<float> timeY() { return {numbers.get() + size, size}; }
    /// Those of `length` lines, which forward() writes.
    std::span<const float> spectrumX() const { return {lines.get(), size}; }
    std::span<const float> spectrumY() const { return {lines.get() + size, size}; }
    void forward();

private:
    std::size_t size;
    std::unique_ptr<float[], FftwFree> numbers;
    std::unique_ptr<float[], FftwFree> lines;
    /// Shared by all of one length.
    void* plan;
};

} // namespace earwright
