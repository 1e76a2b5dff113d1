#include "core/listening/ColourLearning.h"

#include "core/listening/JoinedEvidence.h"
#include "core/listening/QuickLog.h"
#include "core/listening/WideVectors.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

namespace earwright {

namespace {

using Weights = std::array<float, soundFeatureCount>;

/// More than so many tell little more, and a long recording has thousands.
constexpr std::size_t mostSpans = 96;
/// A colour learned from so many spans counts for half.
constexpr float halfKnown = 10;
/// Pitches more probable than this are taken for right.
constexpr float sure = 0.8f;
/// What is sure is looked for so often, and each time the colour makes so many steps towards it.
constexpr int rounds = 3;
constexpr int stepsARound = 4;

/// A span to learn from.
struct Lesson {
    SoundColumns features;
    /// How probable each pitch is without the colour: from the span itself, and from all that is known.
    PitchRow own;
    PitchRow known;
};

PitchRow sumOf(const PitchRow& one, const PitchRow& other, float share = 1) {
    PitchRow sum;
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        sum[pitch] = one[pitch] + share * other[pitch];
    sum.normalise();
    return sum;
}

std::optional<std::size_t> surePitch(const Lesson& lesson, const LineColour& colour) {
    const PitchRow row = sumOf(lesson.known, colour.addsTo(lesson.features), spanShare);
    const std::size_t best = row.best();
    return std::exp(row[best]) > sure ? std::optional(best) : std::nullopt;
}

/// Adds how the log probability of a pitch rises with each weight.
EARWRIGHT_WIDE_VECTORS
void addSlope(const SoundColumns& features, const PitchRow& probable, std::size_t pitch, Weights& slope) {
    constexpr std::size_t wides = columnSize / wideSize;
    constexpr float nothing = -80;
    std::array<float, columnSize> probabilities{};
    for (std::size_t other = 0; other < pitchCount; ++other)
        probabilities[other] = quickExp(std::max(probable[other], nothing));
    Wide expected[wides];
    for (std::size_t i = 0; i < wides; ++i)
        load(expected[i], probabilities.data() + i * wideSize);
    for (std::size_t feature = 0; feature < soundFeatureCount; ++feature) {
        Wide sums{};
        for (std::size_t i = 0; i < wides; ++i) {
            Wide numbers;
            load(numbers, features[feature].data() + i * wideSize);
            sums += numbers * expected[i];
        }
        float mean = 0;
        for (std::size_t i = 0; i < wideSize; ++i)
            mean += sums[i];
        slope[feature] += features[feature][pitch] - mean;
    }
}

/// Climbs by steps of much the same size in each weight (Kingma and Ba 2015, Adam).
class Climb {
public:
    explicit Climb(LineColour& from) : colour(from) {}

    void step(const Weights& slope) {
        constexpr float size = 0.08f;
        constexpr float meanKept = 0.9f;
        constexpr float squareKept = 0.99f;
        meanLeft *= meanKept;
        squareLeft *= squareKept;
        for (std::size_t i = 0; i < soundFeatureCount; ++i) {
            mean[i] = meanKept * mean[i] + (1 - meanKept) * slope[i];
            square[i] = squareKept * square[i] + (1 - squareKept) * slope[i] * slope[i];
            colour.weights[i] +=
                size * mean[i] / (1 - meanLeft) / (std::sqrt(square[i] / (1 - squareLeft)) + 1e-8f);
        }
    }

private:
    LineColour& colour;
    Weights mean{};
    Weights square{};
    float meanLeft = 1;
    float squareLeft = 1;
};

LineColour learnedFrom(const std::vector<Lesson>& lessons) {
    // Weights are held near 0 as by a normal prior.
    constexpr float holding = 0.2f;
    const auto count = static_cast<float>(lessons.size());
    LineColour colour;
    Climb climb(colour);
    for (int round = 0; round < rounds; ++round) {
        std::vector<std::optional<std::size_t>> pitches;
        for (const Lesson& lesson : lessons)
            pitches.push_back(surePitch(lesson, colour));
        for (int step = 0; step < stepsARound; ++step) {
            Weights slope{};
            for (std::size_t i = 0; i < lessons.size(); ++i)
                if (pitches[i])
                    addSlope(lessons[i].features, sumOf(lessons[i].own, colour.addsTo(lessons[i].features)),
                             *pitches[i], slope);
            for (std::size_t i = 0; i < soundFeatureCount; ++i)
                slope[i] = slope[i] / count - holding * colour.weights[i];
            climb.step(slope);
        }
    }
    for (float& weight : colour.weights)
        weight *= count / (count + halfKnown);
    return colour;
}

/// Places of the spans to learn from.
std::vector<std::size_t> chosenOf(std::size_t count) {
    std::vector<std::size_t> chosen;
    const std::size_t wanted = std::min(count, mostSpans);
    for (std::size_t i = 0; i < wanted; ++i)
        chosen.push_back(i * count / wanted);
    return chosen;
}

} // namespace

LineColour colourOf(const PassageEvidence& evidence, const ViewBlend& blend, const OnsetTrack& onsets,
                    const std::vector<Range<Seconds>>& spans, SpanOf kind) {
    const std::vector<PitchRow> own = blend.spans(evidence, spans);
    const std::vector<PitchRow> joined = joinedWithOnsets(own, spans, onsets);
    const std::vector<PitchRow> neighbours = neighbourEvidence(joined, spans, kind);
    const std::vector<std::size_t> chosen = chosenOf(spans.size());
    std::vector<Range<Seconds>> chosenSpans;
    for (const std::size_t i : chosen)
        chosenSpans.push_back(spans[i]);
    const std::vector<SpanLevels> levels = blend.levels(evidence, chosenSpans);
    std::vector<Lesson> lessons;
    lessons.reserve(chosen.size());
    for (std::size_t k = 0; k < chosen.size(); ++k)
        lessons.push_back(
            {soundColumns(levels[k]), own[chosen[k]], sumOf(joined[chosen[k]], neighbours[chosen[k]])});
    return learnedFrom(lessons);
}

} // namespace earwright
