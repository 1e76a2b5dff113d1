#include "tests/core/engine/Landmarks.h"

#include "tests/core/engine/HeldRecording.h"

#include <cmath>

namespace earwright::tests::landmarks {

namespace {

constexpr long count = 239;
/// A pair's own distance is below 10 000 frames, the distance to the next pair always above 12 000.
constexpr long shortest = 600;
constexpr long step = 39;
constexpr long between = 11000;
constexpr float loudness = 0.6f;

long firstOf(long number) {
    return (number + 1) * spacing;
}
long secondOf(long number) {
    return firstOf(number) + shortest + step * number;
}

} // namespace

std::shared_ptr<Recording> recording() {
    std::vector<float> samples(static_cast<std::size_t>((count + 1) * spacing), 0.0f);
    for (long number = 0; number < count; ++number)
        samples[static_cast<std::size_t>(firstOf(number))] =
            samples[static_cast<std::size_t>(secondOf(number))] = loudness;
    return held(std::move(samples), rate);
}

std::vector<long> clicksIn(const std::vector<float>& stereo) {
    std::vector<long> found;
    for (std::size_t i = 0; 2 * i < stereo.size(); ++i)
        if (std::abs(stereo[2 * i]) > loudness / 2 &&
            (found.empty() || static_cast<long>(i) - found.back() > shortest / 2))
            found.push_back(static_cast<long>(i));
    return found;
}

std::vector<Landmark> in(const std::vector<float>& stereo) {
    const std::vector<long> clicks = clicksIn(stereo);
    std::vector<Landmark> found;
    for (std::size_t i = 1; i < clicks.size(); ++i) {
        const long apart = clicks[i] - clicks[i - 1];
        if (apart > between) continue;
        const long number = std::lround(static_cast<double>(apart - shortest) / static_cast<double>(step));
        if (number >= 0 && number < count) found.push_back({clicks[i - 1], firstOf(number)});
    }
    return found;
}

long clicksBefore(long place) {
    long found = 0;
    for (long number = 0; number < count; ++number)
        found += (firstOf(number) < place) + (secondOf(number) < place);
    return found;
}

} // namespace earwright::tests::landmarks
