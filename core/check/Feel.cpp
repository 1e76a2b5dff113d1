#include "core/check/Feel.h"

#include "core/check/OffBeat.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace earwright {

namespace {

struct MeanAndDeviation {
    double mean = 0;
    double deviation = 0;
};

/// Requires: two values or more.
MeanAndDeviation spreadOf(const std::vector<double>& values) {
    const auto count = static_cast<double>(values.size());
    MeanAndDeviation result;
    for (const double value : values)
        result.mean += value / count;
    for (const double value : values)
        result.deviation += (value - result.mean) * (value - result.mean) / (count - 1);
    result.deviation = std::sqrt(result.deviation);
    return result;
}

double ratioAt(double share) {
    const double kept = std::clamp(share, 0.05, 0.95);
    return kept / (1 - kept);
}

/// A note that is slid into or has others before it begins in two places: where it is picked and where its
/// pitch is reached, some 50 ms apart.
bool beginsOnce(const Phrasing& phrasing) {
    return !phrasing.slideIn && !phrasing.scoop && phrasing.graceNotes.empty() && !phrasing.turn &&
           !phrasing.mordent;
}

/// The first sound of each place that was heard.
std::map<Beats, Seconds> onsetsOf(const Study& study, const std::vector<Note>& notes,
                                  const PlayedNotes& played) {
    std::map<Beats, Seconds> onsets;
    for (const Note& note : notes)
        if (const PlayedNote* playing =
                beginsOnce(note.phrasing) ? playingOf(played, study, note) : nullptr) {
            const auto [place, isNew] = onsets.emplace(note.onset, playing->heard.begin);
            if (!isNew) place->second = std::min(place->second, playing->heard.begin);
        }
    return onsets;
}

/// Adds the swing of what pairs were heard in full.
void tellSwing(const Study& study, const std::vector<Note>& notes, const std::map<Beats, Seconds>& onsets,
               Feel& feel) {
    std::vector<double> shares;
    Seconds shortOnes;
    for (const OffBeat& offBeat : offBeats(study, notes)) {
        const auto first = onsets.find(offBeat.pair.begin);
        const auto second = onsets.find(offBeat.place);
        const auto next = onsets.find(offBeat.pair.end);
        if (first == onsets.end() || second == onsets.end() || next == onsets.end()) continue;
        shares.push_back(ratio(second->second - first->second, next->second - first->second));
        shortOnes += next->second - second->second;
    }
    feel.pairsHeard = static_cast<int>(shares.size());
    if (feel.pairsHeard < Feel::leastPairs) return;
    feel.swing = swingOf(shares, shortOnes);
}

void tellPlacement(const Study& study, const std::map<Beats, Seconds>& onsets, Feel& feel) {
    const MeterMap meters = study.meters();
    std::vector<double> behind;
    for (const auto& [place, onset] : onsets)
        if (meters.countStart(place) == place) behind.push_back((onset - study.beatMap.seconds(place)).value);
    feel.notesHeard = static_cast<int>(behind.size());
    if (feel.notesHeard < Feel::leastNotes) return;
    const auto [mean, deviation] = spreadOf(behind);
    feel.placement = BeatPlacement{Seconds(mean), Seconds(deviation), feel.notesHeard};
}

} // namespace

SwingFeel swingOf(const std::vector<double>& shares, Seconds shortOnes) {
    const auto pairs = static_cast<int>(shares.size());
    const auto [share, deviation] = spreadOf(shares);
    return {ratioAt(share), ratioAt(share - deviation), ratioAt(share + deviation), shortOnes * (1.0 / pairs),
            pairs};
}

Feel feelOf(const Study& study, const std::vector<Note>& notes, const PlayedNotes& played) {
    Feel feel;
    const std::map<Beats, Seconds> onsets = onsetsOf(study, notes, played);
    tellSwing(study, notes, onsets, feel);
    tellPlacement(study, onsets, feel);
    return feel;
}

} // namespace earwright
