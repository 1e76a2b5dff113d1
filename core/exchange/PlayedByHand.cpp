#include "core/exchange/PlayedByHand.h"

#include "core/study/RhythmReader.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <map>

namespace earwright {

namespace {

/// A run goes on for at most so many beats, and at least for half of them.
constexpr std::int64_t longestRun = 64;
/// Swing is heard in the first runs of so many notes altogether.
constexpr std::size_t notesForSwing = 400;
constexpr double ratiosTried[] = {1.25, 1.5, 1.75, 2, 2.33, 2.67, 3};
/// A line swings where that is so much likelier than even eighths: e to this many times.
constexpr double surelySwung = 6;

using Notes = std::vector<ForeignNote>;

std::vector<FreeNote> asPlayed(const Study& frame, const Notes& notes) {
    std::vector<FreeNote> played;
    for (const ForeignNote& note : notes)
        played.push_back({frame.beatMap.seconds(Range<Beats>{note.begin, note.end}), note.pitch.midi});
    return played;
}

/// Whether a note is the first of its counted beat (of three eighths in 6/8), which is read as a whole.
bool isFirstOfBeat(const MeterMap& meters, const Notes& notes, std::size_t i) {
    return meters.countStart(notes[i].begin) != meters.countStart(notes[i - 1].begin);
}

/// Where the run ends that begins with a note: before the first note of a beat, the one that the line waits
/// longest for.
std::size_t endOfRun(const MeterMap& meters, const Notes& notes, std::size_t first) {
    const Beats begin = notes[first].begin;
    std::size_t best = first + 1;
    Beats longest(-1);
    for (std::size_t i = first + 1; i < notes.size(); ++i) {
        const Beats since = notes[i].begin - begin;
        if (since < Beats(longestRun / 2)) continue;
        const Beats wait = notes[i].begin - notes[i - 1].begin;
        if (wait >= longest && isFirstOfBeat(meters, notes, i)) {
            longest = wait;
            best = i;
        }
        if (since > Beats(longestRun) && longest >= Beats(0)) return best;
    }
    return notes.size();
}

std::vector<Notes> runsOf(const MeterMap& meters, const Notes& notes) {
    std::vector<Notes> runs;
    for (std::size_t first = 0; first < notes.size();) {
        const std::size_t end = endOfRun(meters, notes, first);
        runs.emplace_back(notes.begin() + static_cast<std::ptrdiff_t>(first),
                          notes.begin() + static_cast<std::ptrdiff_t>(end));
        first = end;
    }
    return runs;
}

/// Of the piece, its pickup included.
Beats beginOf(const Study& frame) {
    return -frame.page.pickup.value_or(Beats(0));
}

Study swung(const Study& frame, const std::optional<Swing>& swing) {
    Study study;
    study.meter = frame.meter;
    study.beatMap = frame.beatMap;
    study.page.meters = frame.page.meters;
    if (swing) study.page.swings.push_back({beginOf(frame), *swing});
    return study;
}

/// The logarithm of how likely the runs are under a swing, up to a constant.
double likelihood(const Study& frame, const std::vector<Notes>& runs, const std::optional<Swing>& swing) {
    const Study study = swung(frame, swing);
    RhythmWishes wishes;
    wishes.mostProposals = 1;
    double sum = 0;
    for (const Notes& run : runs)
        sum += RhythmReader(study, asPlayed(frame, run), wishes).likelihood();
    return sum;
}

/// The note nearest to the middle of a run that is the first of a beat; nothing where all are in one.
std::optional<std::size_t> middleOf(const MeterMap& meters, const Notes& run) {
    const auto isFirst = [&](std::size_t i) {
        return i > 0 && i < run.size() && isFirstOfBeat(meters, run, i);
    };
    const std::size_t middle = run.size() / 2;
    for (std::size_t off = 0; off <= middle; ++off) {
        if (isFirst(middle + off)) return middle + off;
        if (isFirst(middle - off)) return middle - off;
    }
    return std::nullopt;
}

/// Whether a beat of the run cannot be counted, at any swing.
bool isCrowded(const Study& frame, const Notes& run) {
    return !std::isfinite(likelihood(frame, {run}, std::nullopt));
}

/// The run in two.
std::array<Notes, 2> halvesOf(const Notes& run, std::size_t middle) {
    const auto cut = run.begin() + static_cast<std::ptrdiff_t>(middle);
    return {Notes(run.begin(), cut), Notes(cut, run.end())};
}

/// Adds a run, one with a crowded beat in halves and without that beat; how many notes that are.
std::size_t addCountable(const Study& frame, const Notes& run, std::vector<Notes>& pieces) {
    if (!isCrowded(frame, run)) {
        pieces.push_back(run);
        return run.size();
    }
    std::size_t added = 0;
    if (const auto middle = middleOf(frame.meters(), run))
        for (const Notes& half : halvesOf(run, *middle))
            added += addCountable(frame, half, pieces);
    return added;
}

/// The first runs that can be counted at all: what cannot says nothing of swing.
std::vector<Notes> sampleOf(const Study& frame, const std::vector<Notes>& runs) {
    std::vector<Notes> sample;
    std::size_t taken = 0;
    for (const Notes& run : runs) {
        if (taken >= notesForSwing) break;
        taken += addCountable(frame, run, sample);
    }
    return sample;
}

std::optional<SwingChange> swingOf(const Study& frame, const std::vector<Notes>& all) {
    const std::vector<Notes> runs = sampleOf(frame, all);
    double best = likelihood(frame, runs, std::nullopt) + surelySwung;
    std::optional<SwingChange> found;
    for (const double ratio : ratiosTried) {
        const Swing swing{ratio, 8};
        const double here = likelihood(frame, runs, swing);
        if (!(here > best)) continue;
        best = here;
        found = SwingChange{beginOf(frame), swing};
    }
    return found;
}

/// Of each pitch, its first note in the run is its first in the proposal, and so on: the reader keeps all of
/// them and their order.
Notes placed(const Notes& run, const RhythmProposal& proposal) {
    std::map<int, std::vector<const ProposedNote*>> byPitch;
    for (const ProposedNote& note : proposal.notes)
        byPitch[note.midi].push_back(&note);
    std::map<int, std::size_t> next;
    Notes notes;
    for (ForeignNote note : run) {
        const int midi = note.pitch.midi;
        const ProposedNote& meant = *byPitch[midi].at(next[midi]++);
        note.begin = meant.onset;
        note.end = meant.onset + meant.length;
        notes.push_back(note);
    }
    return notes;
}

/// Adds the notes of a run on their lines. One with a crowded beat is counted in halves, down to that beat,
/// so that it costs no other its count; the notes of that beat are added as they are.
void countRun(const Study& study, const Notes& run, CountedNotes& counted) {
    RhythmWishes wishes;
    wishes.mostProposals = 1;
    const auto proposals = proposeRhythms(study, asPlayed(study, run), wishes);
    if (const auto middle = proposals.empty() ? middleOf(study.meters(), run) : std::nullopt) {
        for (const Notes& half : halvesOf(run, *middle))
            countRun(study, half, counted);
        return;
    }
    if (proposals.empty()) counted.uncounted += run.size();
    const Notes here = proposals.empty() ? run : placed(run, proposals.front());
    counted.notes.insert(counted.notes.end(), here.begin(), here.end());
}

} // namespace

CountedNotes countedByHand(const Study& frame, std::vector<ForeignNote> notes) {
    std::stable_sort(notes.begin(), notes.end(),
                     [](const ForeignNote& a, const ForeignNote& b) { return a.begin < b.begin; });
    const std::vector<Notes> runs = runsOf(frame.meters(), notes);
    CountedNotes counted;
    counted.swing = swingOf(frame, runs);
    const Study study = swung(frame, counted.swing ? std::optional(counted.swing->swing) : std::nullopt);
    for (const Notes& run : runs)
        countRun(study, run, counted);
    return counted;
}

} // namespace earwright
