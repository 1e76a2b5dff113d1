#include "core/sound/ComplexTransform.h"

#include <fftw3.h>
#include <map>

namespace earwright {

namespace {

/// Room for the real and behind them the imaginary parts.
float* allocated(std::size_t length) {
    return fftwf_alloc_real(2 * length);
}

/// The plan for a length: made once, for planning takes as long as a thousand transforms. Plans and their map
/// are never destroyed, so that a thread that is still listening when the program ends has them. They may be
/// carried out on several threads, on any numbers that FFTW allocated and whose parts lie as far from each
/// other (FFTW manual, new-array execute functions).
void* planFor(std::size_t length) {
    static auto& plans = *new std::map<std::size_t, fftwf_plan>;
    const std::scoped_lock lock(fftwPlanning());
    fftwf_plan& plan = plans[length];
    if (!plan) {
        const std::unique_ptr<float[], FftwFree> numbers(allocated(length));
        const std::unique_ptr<float[], FftwFree> lines(allocated(length));
        const fftwf_iodim whole{static_cast<int>(length), 1, 1};
        plan = fftwf_plan_guru_split_dft(1, &whole, 0, nullptr, numbers.get(), numbers.get() + length,
                                         lines.get(), lines.get() + length, FFTW_ESTIMATE);
    }
    return plan;
}

} // namespace

ComplexTransform::ComplexTransform(std::size_t length)
    : size(length), numbers(allocated(length)), lines(allocated(length)), plan(planFor(length)) {}

void ComplexTransform::forward() {
    fftwf_execute_split_dft(static_cast<fftwf_plan>(plan), numbers.get(), numbers.get() + size, lines.get(),
                            lines.get() + size);
}

} // namespace earwright
