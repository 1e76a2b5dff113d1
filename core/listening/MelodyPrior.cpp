#include "core/listening/MelodyPrior.h"

#include <algorithm>
#include <array>
#include <cassert>

namespace earwright {

namespace {

using Steps = std::array<PitchRow, pitchCount>;

Steps makeSteps() {
    Steps steps;
    for (std::size_t from = 0; from < pitchCount; ++from) {
        for (std::size_t to = 0; to < pitchCount; ++to) {
            const std::size_t interval = from > to ? from - to : to - from;
            steps[from][to] = -0.26f * static_cast<float>(std::min<std::size_t>(interval, 17)) -
                              (interval == 0 ? 0.35f : 0.0f) - (interval > 12 ? 0.5f : 0.0f);
        }
        steps[from].normalise();
    }
    return steps;
}

const Steps& steps() {
    static const Steps all = makeSteps();
    return all;
}

/// What `source` says about the pitch at the other end of a step.
PitchRow message(const PitchRow& source, float weight, bool forwards) {
    PitchRow result;
    PitchRow terms;
    for (std::size_t to = 0; to < pitchCount; ++to) {
        for (std::size_t from = 0; from < pitchCount; ++from)
            terms[from] = source[from] + weight * (forwards ? steps()[from][to] : steps()[to][from]);
        result[to] = logSumExp(terms.log);
    }
    return result;
}

PitchRow sum(const PitchRow& a, const PitchRow& b) {
    PitchRow both;
    std::transform(a.log.begin(), a.log.end(), b.log.begin(), both.log.begin(), std::plus<>());
    return both;
}

} // namespace

float melodyStep(std::size_t from, std::size_t to) {
    return steps()[from][to];
}

float melodyWeight(const Range<Seconds>& before, const Range<Seconds>& after) {
    constexpr Seconds rest{0.4};
    return after.begin - before.end < rest ? 1.0f : 0.5f;
}

std::vector<PitchRow> neighbourEvidence(const std::vector<PitchRow>& evidence,
                                        const std::vector<Range<Seconds>>& spans) {
    assert(evidence.size() == spans.size());
    const std::size_t count = spans.size();
    std::vector<PitchRow> fromLeft(count);
    std::vector<PitchRow> fromRight(count);
    for (std::size_t i = 1; i < count; ++i)
        fromLeft[i] =
            message(sum(fromLeft[i - 1], evidence[i - 1]), melodyWeight(spans[i - 1], spans[i]), true);
    for (std::size_t i = count; i-- > 1;)
        fromRight[i - 1] =
            message(sum(fromRight[i], evidence[i]), melodyWeight(spans[i - 1], spans[i]), false);
    for (std::size_t i = 0; i < count; ++i)
        fromLeft[i] = sum(fromLeft[i], fromRight[i]);
    return fromLeft;
}

} // namespace earwright
