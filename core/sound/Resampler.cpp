#include "core/sound/Resampler.h"

#include <cassert>
#include <new>
#include <samplerate.h>

namespace earwright {

void Resampler::Delete::operator()(SRC_STATE_tag* state) const {
    src_delete(state);
}

Resampler::Resampler(int channels, double ratio) : channelCount(channels), outPerIn(ratio) {
    assert(channels >= 1 && src_is_valid_ratio(ratio));
    int failure = 0;
    state.reset(src_new(SRC_SINC_MEDIUM_QUALITY, channels, &failure));
    if (!state) throw std::bad_alloc();
}

Resampler::Step Resampler::process(std::span<const float> in, std::span<float> out, bool last) {
    const auto wide = static_cast<std::size_t>(channelCount);
    SRC_DATA data{};
    data.data_in = in.data();
    data.input_frames = static_cast<long>(in.size() / wide);
    data.data_out = out.data();
    data.output_frames = static_cast<long>(out.size() / wide);
    data.end_of_input = last ? 1 : 0;
    data.src_ratio = outPerIn;
    [[maybe_unused]] const int failure = src_process(state.get(), &data);
    assert(failure == 0);
    return {static_cast<std::size_t>(data.input_frames_used),
            static_cast<std::size_t>(data.output_frames_gen)};
}

void Resampler::reset() {
    src_reset(state.get());
}

} // namespace earwright
