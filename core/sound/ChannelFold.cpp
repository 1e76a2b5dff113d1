#include "core/sound/ChannelFold.h"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <utility>

namespace earwright {

namespace {

constexpr float minus3dB = 0.70710678f;

std::pair<float, float> gainsOf(ChannelPlace place) {
    switch (place) {
    case ChannelPlace::Left:
        return {1.0f, 0.0f};
    case ChannelPlace::Right:
        return {0.0f, 1.0f};
    case ChannelPlace::Centre:
        return {minus3dB, minus3dB};
    case ChannelPlace::LowFrequency:
        return {0.0f, 0.0f};
    case ChannelPlace::SurroundLeft:
        return {minus3dB, 0.0f};
    case ChannelPlace::SurroundRight:
        return {0.0f, minus3dB};
    case ChannelPlace::SurroundCentre:
        return {minus3dB * minus3dB, minus3dB * minus3dB};
    }
    return {0.0f, 0.0f};
}

} // namespace

ChannelFold::ChannelFold(const std::vector<ChannelPlace>& places) {
    assert(!places.empty());
    if (places.size() <= 2) {
        toLeft.assign(places.size(), 0.0f);
        toRight.assign(places.size(), 0.0f);
        toLeft.front() = 1.0f;
        toRight.back() = 1.0f;
        return;
    }
    for (const ChannelPlace place : places) {
        const auto [left, right] = gainsOf(place);
        toLeft.push_back(left);
        toRight.push_back(right);
    }
    const float loudest = std::max({std::accumulate(toLeft.begin(), toLeft.end(), 0.0f),
                                    std::accumulate(toRight.begin(), toRight.end(), 0.0f), 1.0f});
    for (float& gain : toLeft)
        gain /= loudest;
    for (float& gain : toRight)
        gain /= loudest;
}

std::vector<ChannelPlace> ChannelFold::usualPlaces(int channels) {
    using enum ChannelPlace;
    switch (channels) {
    case 1:
        return {Centre};
    case 2:
        return {Left, Right};
    case 3:
        return {Left, Right, Centre};
    case 4:
        return {Left, Right, SurroundLeft, SurroundRight};
    case 5:
        return {Left, Right, Centre, SurroundLeft, SurroundRight};
    case 6:
        return {Left, Right, Centre, LowFrequency, SurroundLeft, SurroundRight};
    case 7:
        return {Left, Right, Centre, LowFrequency, SurroundCentre, SurroundLeft, SurroundRight};
    case 8:
        return {Left, Right, Centre, LowFrequency, SurroundLeft, SurroundRight, SurroundLeft, SurroundRight};
    default:
        break;
    }
    std::vector<ChannelPlace> spread;
    for (int channel = 0; channel < channels; ++channel)
        spread.push_back(channel % 2 == 0 ? Left : Right);
    return spread;
}

void ChannelFold::apply(std::span<const float> in, std::span<float> out) const {
    const std::size_t wide = toLeft.size();
    if (!isNeeded()) {
        std::copy(in.begin(), in.end(), out.begin());
        return;
    }
    for (std::size_t frame = 0; frame * wide < in.size(); ++frame) {
        float left = 0;
        float right = 0;
        for (std::size_t channel = 0; channel < wide; ++channel) {
            const float sample = in[frame * wide + channel];
            left += toLeft[channel] * sample;
            right += toRight[channel] * sample;
        }
        out[2 * frame] = left;
        out[2 * frame + 1] = right;
    }
}

} // namespace earwright
