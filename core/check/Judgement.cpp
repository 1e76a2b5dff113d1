#include "core/check/Judgement.h"

#include "core/check/JudgementWeights.h"

#include <cmath>

namespace earwright {

namespace {

double logistic(float x) {
    return 1 / (1 + std::exp(-static_cast<double>(x)));
}

} // namespace

double probabilityRight(const ClaimFeatures& features) {
    return logistic(claimPitchOdds(features.pitch)) * logistic(claimOnsetOdds(features.onset));
}

double probabilityOfSuggestion(const std::array<float, suggestionFeatureCount>& features) {
    return logistic(suggestionOdds(features));
}

double probabilityOfNote(const std::array<float, unwrittenFeatureCount>& features) {
    return logistic(unwrittenOdds(features));
}

Verdict verdictOf(double right, double another) {
    if (right > supportedAbove) return Verdict::Supported;
    return right < contradictedBelow || another >= right ? Verdict::Contradicted : Verdict::Unclear;
}

} // namespace earwright
