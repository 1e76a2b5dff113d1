#include "core/check/Judgement.h"

#include "core/check/JudgementWeights.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

double logistic(double x) {
    return 1 / (1 + std::exp(-x));
}

/// By how much the odds of an unclaimed onset fall: the weights were fitted on lines alone and over bands
/// together, with about as many other onsets as notes of the line.
constexpr double leastFall = -2;
constexpr double mostFall = 1;
double fallOfOdds(double others, double notes) {
    return std::clamp(std::log((others + 1) / (notes + 1)), leastFall, mostFall);
}

/// Of 224 repeated notes left out of renderings 182 were found so, and five other sounds; one in ten is left
/// out.
constexpr double ofStruckAgain = 0.8;

} // namespace

double probabilityRight(const ClaimFeatures& features) {
    return probabilityOfPitch(features) * probabilityOfBeginning(features);
}

double probabilityOfPitch(const ClaimFeatures& features) {
    return logistic(claimPitchOdds(features.pitch));
}

double probabilityOfBeginning(const ClaimFeatures& features) {
    return logistic(claimOnsetOdds(features.onset));
}

double probabilityOfSuggestion(const std::array<float, suggestionFeatureCount>& features) {
    return logistic(suggestionOdds(features));
}

std::vector<double> probabilitiesOfNotes(const std::vector<UnwrittenCandidate>& candidates,
                                         std::size_t claims) {
    double unwritten = 0;
    for (const UnwrittenCandidate& candidate : candidates)
        unwritten += logistic(unwrittenOdds(candidate.features));
    const double fall = claims == 0 ? 0
                                    : fallOfOdds(static_cast<double>(candidates.size()) - unwritten,
                                                 static_cast<double>(claims) + unwritten);
    std::vector<double> probabilities;
    for (const UnwrittenCandidate& candidate : candidates) {
        const double probability = logistic(unwrittenOdds(candidate.features) - fall);
        probabilities.push_back(candidate.isStruckAgain ? std::max(probability, ofStruckAgain) : probability);
    }
    return probabilities;
}

bool mayBeListed(const std::array<float, unwrittenFeatureCount>& atBest) {
    return logistic(unwrittenOdds(atBest) - leastFall) > unwrittenAbove;
}

Verdict verdictOf(double right, double another) {
    if (right > supportedAbove) return Verdict::Supported;
    return right < contradictedBelow || another >= right ? Verdict::Contradicted : Verdict::Unclear;
}

} // namespace earwright
