#include "core/listening/NoteEar.h"

#include "core/listening/Median.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// A hundredth of a second a hop: what follows is counted in them.
constexpr int hopsPerSecond = 100;
constexpr std::size_t learning = 30;
constexpr std::size_t levelsKept = 6;
constexpr std::size_t afterOnset = 3;
constexpr std::size_t steady = 12;
constexpr std::size_t runKept = 20;
constexpr std::size_t silentFor = 6;
/// One pitch away from the others is a slip, so many are another note.
constexpr std::size_t another = 2;

constexpr double clearEnough = 0.85;
/// Semitones; a singer's vibrato is half a semitone either way (common practice).
constexpr double withinNote = 0.7;
constexpr double onsetRatio = 2.5;
constexpr double overRoom = 3;
constexpr double leastRoom = 0.001;
constexpr double mostRoom = 0.0316;
/// Rates above twice this are brought down; the pitch of C7 needs no more.
constexpr int enoughHertz = 44'100;

std::size_t mergedAt(SampleRate rate) {
    return static_cast<std::size_t>(std::max(1, rate.hertz / enoughHertz));
}

} // namespace

NoteEar::NoteEar(SampleRate given, double centsOfA)
    : rate{given.hertz / static_cast<int>(mergedAt(given))},
      semitonesOfA(centsOfA / 100),
      merged(mergedAt(given)),
      hopLength(static_cast<std::size_t>(rate.hertz / hopsPerSecond)),
      recent(toneWindow(rate), 0.0f) {}

std::vector<double> NoteEar::give(std::span<const float> samples) {
    std::vector<double> notes;
    for (const float sample : samples) {
        mergedSum += static_cast<double>(std::isfinite(sample) ? sample : 0.0f);
        if (++mergedCount < merged) continue;
        recent.push_back(static_cast<float>(mergedSum / static_cast<double>(merged)));
        mergedSum = 0;
        mergedCount = 0;
        if (++sinceHop < hopLength) continue;
        sinceHop = 0;
        recent.erase(recent.begin(), recent.begin() + static_cast<std::ptrdiff_t>(hopLength));
        if (const auto note = hop()) notes.push_back(*note);
    }
    return notes;
}

/// Of the last 20 ms, a period and more of E2.
double NoteEar::level() const {
    double energy = 0;
    for (std::size_t i = recent.size() - 2 * hopLength; i < recent.size(); ++i)
        energy += static_cast<double>(recent[i]) * static_cast<double>(recent[i]);
    return std::sqrt(energy / static_cast<double>(2 * hopLength));
}

bool NoteEar::isLoud(double level) {
    // The first window is not full yet.
    if (++hops > levelsKept) quietest = std::min(quietest, level);
    return hops > learning && level > std::clamp(overRoom * quietest, leastRoom, mostRoom);
}

std::optional<double> NoteEar::hop() {
    const double loudness = level();
    const bool isHeard = isLoud(loudness);
    noticeOnset(loudness);
    now = isHeard ? tonePitch(recent, rate) : std::nullopt;
    if (now && now->clarity < clearEnough) now.reset();
    if (!now) {
        silent = isHeard ? 0 : silent + 1;
        if (++unclear >= silentFor) startAgain();
        // What is loud and unclear for a moment, under a bow or a breath, is still the same note.
        if (silent >= silentFor) last.reset();
        return std::nullopt;
    }
    now->midi -= semitonesOfA;
    unclear = silent = 0;
    return sinceOnset > afterOnset ? noteOf(*now) : std::nullopt;
}

void NoteEar::noticeOnset(double level) {
    ++sinceOnset;
    const bool isOnset = !levels.empty() && level > leastRoom &&
                         level > onsetRatio * *std::min_element(levels.begin(), levels.end());
    levels.push_back(level);
    if (levels.size() > levelsKept) levels.pop_front();
    if (!isOnset) return;
    startAgain();
    last.reset();
    sinceOnset = 0;
}

std::optional<double> NoteEar::noteOf(const TonePitch& tone) {
    if (!run.empty() && std::abs(tone.midi - middle()) > withinNote) {
        aside.push_back(tone.midi);
        if (aside.size() < another) return std::nullopt;
        run.assign(aside.begin(), aside.end());
        aside.clear();
        return std::nullopt;
    }
    aside.clear();
    run.push_back(tone.midi);
    if (run.size() > runKept) run.pop_front();
    if (run.size() < steady) return std::nullopt;
    const double pitch = middle();
    // One between two semitones is not heard as either in turn.
    if (last && std::abs(pitch - *last) < withinNote) return std::nullopt;
    last = std::round(pitch);
    return pitch;
}

double NoteEar::middle() const {
    return medianOf({run.begin(), run.end()});
}

void NoteEar::startAgain() {
    run.clear();
    aside.clear();
}

} // namespace earwright
