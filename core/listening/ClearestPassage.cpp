#include "core/listening/ClearestPassage.h"

#include "core/listening/PitchHint.h"

#include <array>

namespace earwright {

namespace {

/// A line clearer than this (mean log confidence) needs no band.
constexpr double clearEnough = -0.1;
/// By so much it has to be clearer in a band: chosen on the renderings of training/pictures with seed 1.
constexpr double leastGain = 0.05;
/// Without the lowest octaves; without them and what lies above the first partials.
constexpr std::array bands{Band{200, 8000}, Band{150, 3000}};

double clarity(const PassageEvidence& evidence, const std::vector<Range<Seconds>>& spans) {
    return clarityOf(pitchHints(evidence, spans));
}

Result<PassageEvidence> within(Result<PassageEvidence> evidence, const LineRange& line) {
    if (evidence) return evidence->within(line);
    return evidence;
}

} // namespace

Result<PassageEvidence> clearestPassage(const RecordingEvidence& recording, Range<Seconds> passage,
                                        const std::vector<Range<Seconds>>& spans, const ListeningWish& wish,
                                        std::stop_token stop, const Progress& progress) {
    auto best = within(recording.passage(passage, wish.part, stop, progress), wish.line);
    if (!best || !wish.part.isEverything() || spans.empty()) return best;
    double clearest = clarity(*best, spans);
    if (clearest >= clearEnough) return best;
    clearest += leastGain;
    for (const Band& band : bands) {
        const auto other = within(recording.passage(passage, HeardPart{Focus::All, band}, stop), wish.line);
        if (!other) return other;
        const double there = clarity(*other, spans);
        if (there < clearest) continue;
        clearest = there;
        best = other;
    }
    return best;
}

} // namespace earwright
