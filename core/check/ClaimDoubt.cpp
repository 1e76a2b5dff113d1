#include "core/check/ClaimDoubt.h"

#include "core/check/Judgement.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace earwright {

namespace {

/// In a shorter span the notes before and after it are heard as well (PassageEvidence::spans).
constexpr Seconds shortest{0.07};
/// Its pitch is not what is in doubt.
constexpr double surePitch = 0.8;

bool isOfTheNeighbours(const ClaimContext& context, std::size_t claim, int midi) {
    constexpr std::size_t reach = 2;
    const std::size_t first = claim - std::min(claim, reach);
    const std::size_t end = std::min(claim + reach + 1, context.claims.size());
    for (std::size_t other = first; other < end; ++other)
        if (other != claim && context.claims[other].midi == midi) return true;
    return false;
}

bool isCovered(const ClaimContext& context, std::size_t claim) {
    constexpr float clearly = -1;
    const PitchRow& row = context.own[claim];
    if (row.leadOf(context.pitchIndex(claim)) > clearly) return false;
    // Where nothing sounds every pitch is about as improbable as the others, and one of them is the best.
    constexpr double heard = 0.5;
    if (std::exp(static_cast<double>(row[row.best()])) < heard) return false;
    const int strongest = lowestHeardMidi + static_cast<int>(row.best());
    const int own = context.claims[claim].midi;
    return (strongest - own) % 12 != 0 && !isOfTheNeighbours(context, claim, strongest);
}

} // namespace

Doubt doubtAbout(const ClaimContext& context, std::size_t claim, const ClaimFeatures& features) {
    const double pitch = probabilityOfPitch(features);
    if (pitch > surePitch && (probabilityOfBeginning(features) < pitch || isOutOfPlace(context, claim)))
        return Doubt::Beginning;
    if (context.claims[claim].range.length() < shortest) return Doubt::Short;
    return isCovered(context, claim) ? Doubt::Covered : Doubt::Faint;
}

} // namespace earwright
