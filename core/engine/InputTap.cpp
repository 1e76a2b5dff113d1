#include "core/engine/InputTap.h"

#include <utility>

namespace earwright {

void InputTap::setOpen(bool open) {
    const std::lock_guard lock(guard);
    opened = open;
    kept.samples.clear();
}

bool InputTap::isOpen() const {
    const std::lock_guard lock(guard);
    return opened;
}

void InputTap::give(const InputBlock& block) {
    const std::lock_guard lock(guard);
    if (!opened) return;
    if (block.first != next || block.stream != stream || block.rateHertz != kept.rate.hertz) {
        kept.samples.clear();
        kept.rate = SampleRate{block.rateHertz};
        stream = block.stream;
    }
    next = InputFrames(block.first.value + static_cast<std::int64_t>(block.frames));
    for (std::size_t i = 0; i < block.frames; ++i)
        kept.samples.push_back(block.mono(i));
    const auto most = static_cast<std::size_t>(kept.rate.hertz);
    if (kept.samples.size() <= most) return;
    const auto surplus = static_cast<std::ptrdiff_t>(kept.samples.size() - most);
    kept.samples.erase(kept.samples.begin(), kept.samples.begin() + surplus);
}

TappedSound InputTap::take() {
    const std::lock_guard lock(guard);
    return {std::exchange(kept.samples, {}), kept.rate};
}

} // namespace earwright
