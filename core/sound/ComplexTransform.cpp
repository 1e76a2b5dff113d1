#include "core/sound/ComplexTransform.h"

#include <fftw3.h>
#include <map>

namespace earwright {

namespace {

fftwf_complex* asFftw(std::complex<float>* numbers) {
    // Both are two floats, real part first (FFTW manual, complex numbers; C++ standard, complex.numbers).
    return reinterpret_cast<fftwf_complex*>(numbers);
}

std::complex<float>* allocated(std::size_t length) {
    return reinterpret_cast<std::complex<float>*>(fftwf_alloc_complex(length));
}

/// The plan for a length: made once, for planning takes as long as some twenty transforms. Plans and their
/// map are never destroyed, so that a thread that is still listening when the program ends has them. They may
/// be carried out on several threads, on any numbers that FFTW allocated (FFTW manual, new-array execute
/// functions).
void* planFor(std::size_t length) {
    static auto& plans = *new std::map<std::size_t, fftwf_plan>;
    const std::scoped_lock lock(fftwPlanning());
    fftwf_plan& plan = plans[length];
    if (!plan) {
        const std::unique_ptr<std::complex<float>[], FftwFree> numbers(allocated(length));
        const std::unique_ptr<std::complex<float>[], FftwFree> lines(allocated(length));
        plan = fftwf_plan_dft_1d(static_cast<int>(length), asFftw(numbers.get()), asFftw(lines.get()),
                                 FFTW_FORWARD, FFTW_ESTIMATE);
    }
    return plan;
}

} // namespace

ComplexTransform::ComplexTransform(std::size_t length)
    : size(length), numbers(allocated(length)), lines(allocated(length)), plan(planFor(length)) {}

void ComplexTransform::forward() {
    fftwf_execute_dft(static_cast<fftwf_plan>(plan), asFftw(numbers.get()), asFftw(lines.get()));
}

} // namespace earwright
