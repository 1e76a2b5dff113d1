#include "tests/core/listening/HollowLine.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace earwright::tests {

namespace {

constexpr Seconds noteLength{0.27};

void addHollowTone(std::vector<float>& sound, Seconds begin, int midi) {
    const auto first = static_cast<std::size_t>(analysisRate.frames(begin).value);
    const auto count = static_cast<std::size_t>(analysisRate.frames(noteLength).value);
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / analysisRate.hertz;
        const double envelope = std::min({1.0, t / 0.01, (noteLength.value - t) / 0.02});
        double sum = 0;
        for (int h = 1; h <= 10; ++h)
            sum += (h == 1 ? 0.02 : 1.0 / h) * std::sin(2 * std::numbers::pi * h * hertzOf(midi) * t);
        sound[first + i] += static_cast<float>(0.1 * envelope * sum);
    }
}

} // namespace

HollowLine::HollowLine() {
    const std::vector<int> steps{0, 2, 3, 5, 7, 8, 10, 12, 14, 15, 12, 10, 7, 5, 3, 2};
    for (std::size_t i = 0; i < 3 * steps.size(); ++i) {
        const Seconds begin(0.5 + 0.3 * static_cast<double>(i));
        spans.push_back({begin, begin + noteLength});
        pitches.push_back(48 + steps[i % steps.size()]);
        addHollowTone(sound.left, begin, pitches.back());
    }
    addNoise(sound.left, 0.001f);
}

PassageEvidence HollowLine::evidence() const {
    return *PassageEvidence::listen(sound, 0, passage);
}

int HollowLine::named(const std::vector<PitchRow>& rows) const {
    int right = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        right += lowestHeardMidi + static_cast<int>(rows[i].best()) == pitches[i] ? 1 : 0;
    return right;
}

} // namespace earwright::tests
