#include "core/sound/RealTransform.h"

#include <fftw3.h>

namespace earwright {

namespace {

fftwf_complex* asFftw(std::complex<float>* lines) {
    // Both are two floats, real part first (FFTW manual, complex numbers; C++ standard, complex.numbers).
    return reinterpret_cast<fftwf_complex*>(lines);
}

} // namespace

RealTransform::RealTransform(std::size_t length)
    : size(length),
      samples(fftwf_alloc_real(length)),
      lines(reinterpret_cast<std::complex<float>*>(fftwf_alloc_complex(length / 2 + 1))) {
    const std::scoped_lock lock(fftwPlanning());
    const int n = static_cast<int>(length);
    forwardPlan.reset(fftwf_plan_dft_r2c_1d(n, samples.get(), asFftw(lines.get()), FFTW_ESTIMATE));
    backwardPlan.reset(fftwf_plan_dft_c2r_1d(n, asFftw(lines.get()), samples.get(), FFTW_ESTIMATE));
}

void RealTransform::forward() {
    fftwf_execute(static_cast<fftwf_plan>(forwardPlan.get()));
}

void RealTransform::backward() {
    fftwf_execute(static_cast<fftwf_plan>(backwardPlan.get()));
}

} // namespace earwright
