#include "core/listening/ChordSound.h"

#include "core/listening/LogSpectrum.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// 372 ms, which tell neighbouring semitones of the bass and of close voicings apart.
constexpr std::size_t window = 8192;
constexpr std::size_t hop = 2048;
/// The bass as a chord begins is told from its first quarter, about a beat of four.
constexpr double firstPart = 0.25;

constexpr int lowestNote = 28;
constexpr int highestNote = 84;
constexpr int highestBass = 50;
/// Where a register begins, and the next ends.
constexpr std::array<int, ChordSound::registerCount + 1> registerEdges{46, 55, 67, 79};
constexpr std::size_t noteCount = highestNote - lowestNote + 1;
/// A partial's loudness beside the one below it, as keys and guitars have it: of 0.3 to 0.9 the one by which
/// comped notes are best told from others on training sounds.
constexpr double fall = 0.6;
constexpr int partials = 10;
constexpr int rounds = 60;

using Bins = std::array<double, axisBins>;
using NoteLevels = std::array<double, noteCount>;

double binOf(double midi) {
    return (midi - axisLowestMidi) * binsPerSemitone;
}

/// Levels, and how much of the time each bin was heard without the line.
struct MeanSpectrum {
    Bins level{};
    Bins heard{};
};

/// What stands out of its surroundings of six semitones each way, as loudness.
Bins standingOut(const LogBins& magnitude) {
    constexpr std::ptrdiff_t around = 6 * binsPerSemitone;
    Bins result{};
    const auto count = static_cast<std::ptrdiff_t>(axisBins);
    double sum = 0;
    std::ptrdiff_t from = 0, to = 0;
    for (std::ptrdiff_t i = 0; i < count; ++i) {
        for (; to < std::min(count, i + around + 1); ++to)
            sum += static_cast<double>(magnitude[static_cast<std::size_t>(to)]);
        for (; from < i - around; ++from)
            sum -= static_cast<double>(magnitude[static_cast<std::size_t>(from)]);
        const double mean = sum / static_cast<double>(to - from);
        const auto index = static_cast<std::size_t>(i);
        result[index] = std::sqrt(std::max(0.0, static_cast<double>(magnitude[index]) - mean));
    }
    return result;
}

/// The bins of a tone's partials.
void mask(int midi, std::array<bool, axisBins>& masked) {
    for (int partial = 1; partial <= partials; ++partial) {
        const double centre = binOf(midi + 12 * std::log2(partial));
        for (auto bin = std::llround(centre) - 1; bin <= std::llround(centre) + 1; ++bin)
            if (bin >= 0 && bin < static_cast<long long>(axisBins))
                masked[static_cast<std::size_t>(bin)] = true;
    }
}

std::array<bool, axisBins> maskedDuring(Range<Seconds> time, const std::vector<LineTone>& line) {
    std::array<bool, axisBins> masked{};
    for (const LineTone& tone : line)
        if (tone.range.overlaps(time)) mask(tone.midi, masked);
    return masked;
}

MeanSpectrum meanSpectrum(const StereoViews& views, std::size_t view, double cents, Range<Seconds> span,
                          const std::vector<LineTone>& line) {
    LogSpectrum spectrum(window, cents);
    MeanSpectrum mean;
    const std::ptrdiff_t first = views.sampleAt(span.begin);
    const std::ptrdiff_t last = views.sampleAt(span.end) - static_cast<std::ptrdiff_t>(window);
    int frames = 0;
    for (std::ptrdiff_t at = first; at == first || at <= last; at += hop, ++frames) {
        LogBins magnitude{};
        spectrum.of(views.sound(view), at, window, magnitude);
        const Bins level = standingOut(magnitude);
        const Seconds begin = span.begin + Seconds(static_cast<double>(at - first) / analysisRate.hertz);
        const Seconds end = begin + Seconds(static_cast<double>(window) / analysisRate.hertz);
        const auto masked = maskedDuring({begin, end}, line);
        for (std::size_t bin = 0; bin < axisBins; ++bin) {
            if (masked[bin]) continue;
            mean.level[bin] += level[bin];
            mean.heard[bin] += 1;
        }
    }
    for (std::size_t bin = 0; bin < axisBins; ++bin) {
        if (mean.heard[bin] > 0) mean.level[bin] /= mean.heard[bin];
        mean.heard[bin] /= frames;
    }
    return mean;
}

/// How a note looks: partials that fall off, as loudness, each as wide as the window smears it.
std::array<Bins, noteCount> makeTemplates() {
    std::array<Bins, noteCount> all{};
    for (std::size_t note = 0; note < noteCount; ++note)
        for (int partial = 1; partial <= partials; ++partial) {
            const double centre = binOf(lowestNote + static_cast<double>(note) + 12 * std::log2(partial));
            const double level = std::pow(fall, partial - 1);
            for (auto bin = std::llround(centre) - 2; bin <= std::llround(centre) + 2; ++bin)
                if (bin >= 0 && bin < static_cast<long long>(axisBins))
                    all[note][static_cast<std::size_t>(bin)] +=
                        level * std::max(0.0, 1 - std::abs(static_cast<double>(bin) - centre) / 2.2);
        }
    return all;
}

/// Multiplicative updates (D. Lee and H. Seung, Nature 401, 1999) of the weighted squared error.
NoteLevels notesIn(const MeanSpectrum& mean) {
    static const std::array<Bins, noteCount> templates = makeTemplates();
    constexpr double little = 1e-9;
    NoteLevels level{}, wanted{};
    level.fill(0.05);
    for (std::size_t note = 0; note < noteCount; ++note)
        for (std::size_t bin = 0; bin < axisBins; ++bin)
            wanted[note] += mean.heard[bin] * templates[note][bin] * mean.level[bin];
    for (int round = 0; round < rounds; ++round) {
        Bins model{};
        for (std::size_t note = 0; note < noteCount; ++note)
            for (std::size_t bin = 0; bin < axisBins; ++bin)
                model[bin] += level[note] * templates[note][bin];
        for (std::size_t note = 0; note < noteCount; ++note) {
            double explained = little;
            for (std::size_t bin = 0; bin < axisBins; ++bin)
                explained += mean.heard[bin] * templates[note][bin] * model[bin];
            level[note] *= wanted[note] / explained;
        }
    }
    return level;
}

/// Notes of a range by their names.
NoteNames namesOf(const NoteLevels& level, int lowest, int highest) {
    NoteNames names{};
    for (int midi = lowest; midi <= highest; ++midi)
        names[static_cast<std::size_t>(midi % 12)] += level[static_cast<std::size_t>(midi - lowestNote)];
    return names;
}

double strongest(const NoteNames& names) {
    return *std::max_element(names.begin(), names.end());
}

/// The strongest as 1.
void scale(NoteNames& names, double most) {
    constexpr double silence = 1e-6;
    if (most <= silence) return names.fill(0);
    for (double& name : names)
        name /= most;
}

NoteNames bassOf(const NoteLevels& level) {
    NoteNames names = namesOf(level, lowestNote, highestBass);
    scale(names, strongest(names));
    return names;
}

void layOutComping(const NoteLevels& level, ChordSound& sound) {
    sound.comping = namesOf(level, registerEdges.front(), registerEdges.back() - 1);
    const double most = strongest(sound.comping);
    scale(sound.comping, most);
    for (std::size_t i = 0; i < sound.registers.size(); ++i) {
        sound.registers[i] = namesOf(level, registerEdges[i], registerEdges[i + 1] - 1);
        scale(sound.registers[i], most);
    }
}

/// Of the bass as the span begins beside the comping throughout.
double loudnessOf(const NoteLevels& first, const NoteLevels& span) {
    constexpr double little = 1e-6;
    const double comping = strongest(namesOf(span, registerEdges.front(), registerEdges.back() - 1));
    const double bass = strongest(namesOf(first, lowestNote, highestBass));
    return bass <= little ? 0 : bass / std::max(comping, little);
}

/// Both sides together where the recording has no such view.
std::size_t indexOf(const StereoViews& views, View wanted) {
    for (std::size_t index = 0; index < views.count(); ++index)
        if (views.view(index) == wanted) return index;
    return 0;
}

} // namespace

ChordSound chordSound(const StereoViews& views, double tuningCents, Range<Seconds> span,
                      const std::vector<LineTone>& line, View bass) {
    constexpr std::size_t both = 0;
    const std::size_t low = indexOf(views, bass);
    const auto notes = [&](std::size_t view, Range<Seconds> time) {
        return notesIn(meanSpectrum(views, view, tuningCents, time, line));
    };
    ChordSound sound;
    const NoteLevels all = notes(both, span);
    const NoteLevels first = notes(low, {span.begin, span.begin + span.length() * firstPart});
    layOutComping(all, sound);
    sound.bass = bassOf(low == both ? all : notes(low, span));
    sound.firstBass = bassOf(first);
    sound.bassLoudness = loudnessOf(first, all);
    return sound;
}

} // namespace earwright
