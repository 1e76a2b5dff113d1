#include "core/engine/BandFocus.h"

#include <cmath>

namespace earwright {

namespace {

BandFilter filterFor(const std::optional<Band>& band, SampleRate rate) {
    return band ? BandFilter(*band, rate) : BandFilter();
}

} // namespace

void BandFocus::setRate(SampleRate newRate) {
    rate = newRate;
    warmFrames = static_cast<int>(std::lround(warmSeconds * rate.hertz));
    fadeFrames = std::max(1, static_cast<int>(std::lround(fadeSeconds * rate.hertz)));
    heard = wanted;
    now = {filterFor(heard, rate), filterFor(heard, rate)};
    passed = warmFrames + fadeFrames;
}

void BandFocus::aim(const std::optional<Band>& band) {
    wanted = band;
    if (!isChanging() && wanted != heard) changeTo(wanted);
}

void BandFocus::changeTo(const std::optional<Band>& band) {
    heard = band;
    next = {filterFor(band, rate), filterFor(band, rate)};
    passed = 0;
}

void BandFocus::apply(float& left, float& right) {
    if (!isChanging()) {
        if (!heard) return;
        left = now[0].next(left);
        right = now[1].next(right);
        return;
    }
    const float share =
        static_cast<float>(std::max(0, passed + 1 - warmFrames)) / static_cast<float>(fadeFrames);
    const float in = share * share * (3.0f - 2.0f * share);
    const float newLeft = next[0].next(left);
    const float newRight = next[1].next(right);
    left = now[0].next(left);
    right = now[1].next(right);
    left += in * (newLeft - left);
    right += in * (newRight - right);
    if (++passed < warmFrames + fadeFrames) return;
    now = next;
    if (wanted != heard) changeTo(wanted);
}

void BandFocus::settle() {
    for (Pair* pair : {&now, &next})
        for (BandFilter& filter : *pair)
            filter.settle();
}

} // namespace earwright
