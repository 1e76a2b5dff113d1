// Prints the numbers by which claims and unclaimed onsets are judged, for odds.py to learn from.
//
// print_claim_features AUDIO NOTES, where NOTES has lines of onset, length (seconds) and MIDI number, sorted
// by onset. Prints for each line "claim MIDI", the pitch that would be suggested instead, with the numbers
// about the claim's pitch, its onset and the suggestion; and then "onset TIME MIDI F1…F10" for each
// candidate.
#include "core/check/ClaimFeatures.h"
#include "core/check/UnwrittenSounds.h"
#include "core/listening/RecordingEvidence.h"

#include <cstdio>
#include <fstream>

using namespace earwright;

namespace {

std::vector<Claim> readClaims(const char* path) {
    std::vector<Claim> claims;
    std::ifstream file(path);
    double onset = 0;
    double length = 0;
    int midi = 0;
    while (file >> onset >> length >> midi)
        claims.push_back({{Seconds(onset), Seconds(onset + length)}, midi});
    return claims;
}

template <std::size_t Count>
void printFeatures(const std::array<float, Count>& features) {
    for (const float feature : features)
        std::printf("\t%.6g", static_cast<double>(feature));
}

} // namespace

int main(int count, char** words) {
    if (count != 3) return 2;
    const auto recording = Recording::open(words[1]);
    if (!recording) return 1;
    const auto listened = RecordingEvidence::listen(*recording);
    const auto evidence = listened->passage({Seconds(0), listened->duration()});
    const ClaimContext context = contextOf(*evidence, readClaims(words[2]));
    const std::vector<ClaimFeatures> features = claimFeatures(context);
    for (std::size_t i = 0; i < features.size(); ++i) {
        const Suggestion suggestion = suggestionFor(context, i);
        std::printf("claim\t%d", suggestion.midi);
        printFeatures(features[i].pitch);
        printFeatures(features[i].onset);
        printFeatures(suggestion.features);
        std::printf("\n");
    }
    for (const UnwrittenCandidate& candidate : unwrittenCandidates(*evidence, context, context.claims, {})) {
        std::printf("onset\t%.4f\t%d", candidate.range.begin.value, candidate.midi);
        printFeatures(candidate.features);
        std::printf("\n");
    }
    return 0;
}
