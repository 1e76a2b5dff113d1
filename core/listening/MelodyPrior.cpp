#include "core/listening/MelodyPrior.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace earwright {

namespace {

/// How much of a step counts.
constexpr float withinPhrase = 1;
constexpr float acrossRest = 0.5f;

using Steps = std::array<PitchRow, pitchCount>;

/// How much rarer a repeated pitch is than the slope has it, as log probability.
constexpr float repetition(SpanOf kind) {
    return kind == SpanOf::Note ? 1.5f : 0.35f;
}

Steps makeSteps(SpanOf kind) {
    Steps steps;
    for (std::size_t from = 0; from < pitchCount; ++from) {
        for (std::size_t to = 0; to < pitchCount; ++to) {
            const std::size_t interval = from > to ? from - to : to - from;
            steps[from][to] = -0.26f * static_cast<float>(std::min<std::size_t>(interval, 17)) -
                              (interval == 0 ? repetition(kind) : 0.0f) - (interval > 12 ? 0.5f : 0.0f);
        }
        steps[from].normalise();
    }
    return steps;
}

const Steps& steps(SpanOf kind) {
    static const Steps claimed = makeSteps(SpanOf::Claim);
    static const Steps notes = makeSteps(SpanOf::Note);
    return kind == SpanOf::Note ? notes : claimed;
}

/// Probabilities of the steps to the power of a weight, by `from` and by `to`.
struct StepPowers {
    Steps forwards;
    Steps backwards;

    StepPowers(SpanOf kind, float weight) {
        for (std::size_t from = 0; from < pitchCount; ++from)
            for (std::size_t to = 0; to < pitchCount; ++to)
                forwards[from][to] = backwards[to][from] = std::exp(weight * steps(kind)[from][to]);
    }
};

/// Within a phrase and across a rest.
class PowersOfKind {
public:
    explicit PowersOfKind(SpanOf kind) : within(kind, withinPhrase), across(kind, acrossRest) {}
    const StepPowers& of(float weight) const { return weight == withinPhrase ? within : across; }

private:
    StepPowers within;
    StepPowers across;
};

const PowersOfKind& powersOf(SpanOf kind) {
    static const PowersOfKind claimed(SpanOf::Claim);
    static const PowersOfKind notes(SpanOf::Note);
    return kind == SpanOf::Note ? notes : claimed;
}

/// What `source` says about the pitch at the other end of a step.
PitchRow message(const PitchRow& source, const StepPowers& powers, bool forwards) {
    const Steps& step = forwards ? powers.forwards : powers.backwards;
    const float top = source[source.best()];
    PitchRow result;
    for (std::size_t from = 0; from < pitchCount; ++from) {
        const float probability = std::exp(source[from] - top);
        for (std::size_t to = 0; to < pitchCount; ++to)
            result[to] += probability * step[from][to];
    }
    for (float& value : result.log)
        value = top + std::log(value);
    return result;
}

PitchRow sum(const PitchRow& a, const PitchRow& b) {
    PitchRow both;
    std::transform(a.log.begin(), a.log.end(), b.log.begin(), both.log.begin(), std::plus<>());
    return both;
}

} // namespace

float melodyStep(std::size_t from, std::size_t to) {
    return steps(SpanOf::Claim)[from][to];
}

float melodyWeight(const Range<Seconds>& before, const Range<Seconds>& after) {
    constexpr Seconds rest{0.4};
    return after.begin - before.end < rest ? withinPhrase : acrossRest;
}

std::vector<PitchRow> neighbourEvidence(const std::vector<PitchRow>& evidence,
                                        const std::vector<Range<Seconds>>& spans, SpanOf kind) {
    assert(evidence.size() == spans.size());
    const std::size_t count = spans.size();
    const PowersOfKind& all = powersOf(kind);
    const auto powers = [&](std::size_t i) -> const StepPowers& {
        return all.of(melodyWeight(spans[i - 1], spans[i]));
    };
    std::vector<PitchRow> fromLeft(count);
    std::vector<PitchRow> fromRight(count);
    for (std::size_t i = 1; i < count; ++i)
        fromLeft[i] = message(sum(fromLeft[i - 1], evidence[i - 1]), powers(i), true);
    for (std::size_t i = count; i-- > 1;)
        fromRight[i - 1] = message(sum(fromRight[i], evidence[i]), powers(i), false);
    for (std::size_t i = 0; i < count; ++i)
        fromLeft[i] = sum(fromLeft[i], fromRight[i]);
    return fromLeft;
}

} // namespace earwright
