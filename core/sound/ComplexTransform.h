// A Fourier transform of complex numbers, of one length.
#pragma once

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
    struct FreeMemory {
        void operator()(void* memory) const;
    };
    struct DestroyPlan {
        void operator()(void* plan) const;
    };

    std::size_t size;
    std::unique_ptr<std::complex<float>[], FreeMemory> numbers;
    std::unique_ptr<std::complex<float>[], FreeMemory> lines;
    std::unique_ptr<void, DestroyPlan> plan;
};

} // namespace earwright
