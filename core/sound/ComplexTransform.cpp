#include "core/sound/ComplexTransform.h"

#include <fftw3.h>

namespace earwright {

namespace {

fftwf_complex* asFftw(std::complex<float>* numbers) {
    // Both are two floats, real part first (FFTW manual, complex numbers; C++ standard, complex.numbers).
    return reinterpret_cast<fftwf_complex*>(numbers);
}

std::complex<float>* allocated(std::size_t length) {
    return reinterpret_cast<std::complex<float>*>(fftwf_alloc_complex(length));
}

} // namespace

ComplexTransform::ComplexTransform(std::size_t length)
    : size(length), numbers(allocated(length)), lines(allocated(length)) {
    const std::scoped_lock lock(fftwPlanning());
    plan.reset(fftwf_plan_dft_1d(static_cast<int>(length), asFftw(numbers.get()), asFftw(lines.get()),
                                 FFTW_FORWARD, FFTW_ESTIMATE));
}

void ComplexTransform::forward() {
    fftwf_execute(static_cast<fftwf_plan>(plan.get()));
}

} // namespace earwright
