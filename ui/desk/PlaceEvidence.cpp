#include "ui/desk/PlaceEvidence.h"

#include "core/listening/PitchHint.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

/// What sounds around a place helps to tell the line from the band.
constexpr Seconds surroundings{2.0};
/// Weaker pitches would be specks, and were all 69 alike, one in 69 each, they would fill the column.
constexpr double weakest = 0.15;
/// Probabilities fall off so steeply that all but the best would vanish; their root keeps the order and shows
/// the runners-up.
constexpr double flattening = 0.5;

} // namespace

std::vector<PitchStrength> strengthsOf(const PitchRow& row) {
    std::vector<PitchStrength> pitches;
    for (std::size_t i = 0; i < pitchCount; ++i) {
        const double strength = std::exp(flattening * static_cast<double>(row[i]));
        if (strength >= weakest) pitches.push_back({lowestHeardMidi + static_cast<int>(i), strength});
    }
    return pitches;
}

Result<std::vector<PitchStrength>> pitchStrengths(const RecordingEvidence& recording,
                                                  const Range<Seconds>& place, const HeardPart& part,
                                                  const std::stop_token& stop) {
    const Range<Seconds> passage{std::max(place.begin - surroundings, Seconds(0)),
                                 std::min(place.end + surroundings, recording.duration())};
    const auto evidence = recording.passage(passage, part, stop);
    if (!evidence) return evidence.error();
    return strengthsOf(pitchHints(*evidence, {place}).front().evidence);
}

} // namespace earwright::ui
