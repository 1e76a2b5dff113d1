#include "core/check/BassCheck.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

namespace earwright {

namespace {

/// Of rendered choruses without a bass 95 % stay below, of those with one 1 % of the chords.
constexpr double heardFrom = 0.7;
/// Fitted by maximum likelihood to the expected and another note in rendered choruses (weights.py).
constexpr double usual = -3.65;
constexpr double perLevel = 6.4;
/// Set so that of the basses that are right about 1 % are contradicted, among them those that begin
/// elsewhere.
constexpr double contradicted = 0.06;
constexpr double supported = 0.5;

int expectedBass(const Chord& chord) {
    return chord.bass ? chord.bass->pitchClass() : chord.root.pitchClass();
}

/// A triad leaves open which sixth or seventh is added to it.
bool isChordTone(const Chord& chord, int name) {
    const int above = (name - chord.root.pitchClass() + 12) % 12;
    const std::vector<int> tones = chord.intervals();
    const bool isWritten =
        std::any_of(tones.begin(), tones.end(), [&](int interval) { return interval % 12 == above; });
    return isWritten || (chord.extension <= 5 && above >= 9);
}

/// By how far the strongest stands out of the next.
double clearnessOf(NoteNames levels) {
    std::nth_element(levels.begin(), levels.begin() + 1, levels.end(), std::greater<>());
    return levels[0] - levels[1];
}

Verdict verdictFor(const BassAnswer& answer, const Chord& chord) {
    if (answer.score >= supported) return Verdict::Supported;
    const bool isOpen = expectedBass(chord) == chord.root.pitchClass() && isChordTone(chord, *answer.played);
    return answer.score < contradicted && !isOpen ? Verdict::Contradicted : Verdict::Unclear;
}

} // namespace

BassAnswer judgeBass(const Chord& chord, const ChordSound& sound) {
    BassAnswer answer;
    answer.expected = expectedBass(chord);
    if (sound.bassLoudness < heardFrom) return answer;
    const NoteNames& levels = sound.firstBass;
    answer.played = static_cast<int>(std::max_element(levels.begin(), levels.end()) - levels.begin());
    answer.clearness = clearnessOf(levels);
    const double level = levels[static_cast<std::size_t>(answer.expected)];
    answer.score = 1 / (1 + std::exp(-usual - perLevel * level));
    answer.verdict = verdictFor(answer, chord);
    return answer;
}

} // namespace earwright
