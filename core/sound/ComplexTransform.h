// A Fourier transform of complex numbers, of one length.
#pragma once

#include "core/sound/FftwPlanning.h"

#include <complex>
#include <cstddef>
#include <memory>
#include <span>

namespace earwright {

/// FFTW's complex transform with its buffers.
///
/// Threads: one thread at a time an object; objects are independent (planning is guarded, as FFTW's manual
/// asks for).
/// Units: unnormalised.
class ComplexTransform {
public:
    explicit ComplexTransform(std::size_t length);

    /// `length` numbers, which forward() reads.
    std::span<std::complex<float>> time() { return {numbers.get(), size}; }
    /// `length` lines, which forward() writes.
    std::span<const std::complex<float>> spectrum() const { return {lines.get(), size}; }
    void forward();

private:
    std::size_t size;
    std::unique_ptr<std::complex<float>[], FftwFree> numbers;
    std::unique_ptr<std::complex<float>[], FftwFree> lines;
    /// Shared by all of one length.
    void* plan;
};

} // namespace earwright
