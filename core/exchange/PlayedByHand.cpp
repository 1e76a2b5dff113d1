#include "core/exchange/PlayedByHand.h"

#include "core/study/RhythmReader.h"

#include <algorithm>
#include <cmath>
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

/// Where the run ends that begins with a note: before the note that the longest rest stands before.
std::size_t endOfRun(const Notes& notes, std::size_t first) {
    const Beats begin = notes[first].begin;
    std::size_t best = first + 1;
    Beats longest(-1);
    for (std::size_t i = first + 1; i < notes.size(); ++i) {
        const Beats since = notes[i].begin - begin;
        if (since < Beats(longestRun / 2)) continue;
        const Beats rest = notes[i].begin - notes[i - 1].begin;
        if (rest >= longest) {
            longest = rest;
            best = i;
        }
        if (since > Beats(longestRun)) return best;
    }
    return notes.size();
}

std::vector<Notes> runsOf(const Notes& notes) {
    std::vector<Notes> runs;
    for (std::size_t first = 0; first < notes.size();) {
        const std::size_t end = endOfRun(notes, first);
        runs.emplace_back(notes.begin() + static_cast<std::ptrdiff_t>(first),
                          notes.begin() + static_cast<std::ptrdiff_t>(end));
        first = end;
    }
    return runs;
}

Study swung(const Study& frame, const std::optional<Swing>& swing) {
    Study study;
    study.meter = frame.meter;
    study.beatMap = frame.beatMap;
    study.page.meters = frame.page.meters;
    if (swing) study.page.swings.push_back({Beats(0), *swing});
    return study;
}

/// The logarithm of how likely the runs are under a swing, up to a constant.
double likelihood(const Study& frame, const std::vector<Notes>& runs, const std::optional<Swing>& swing) {
    const Study study = swung(frame, swing);
    RhythmWishes wishes;
    wishes.mostProposals = 1;
    double sum = 0;
    std::size_t read = 0;
    for (const Notes& run : runs) {
        if (read >= notesForSwing) break;
        read += run.size();
        sum += RhythmReader(study, asPlayed(frame, run), wishes).likelihood();
    }
    return sum;
}

std::optional<Swing> swingOf(const Study& frame, const std::vector<Notes>& runs) {
    double best = likelihood(frame, runs, std::nullopt) + surelySwung;
    std::optional<Swing> found;
    for (const double ratio : ratiosTried) {
        const Swing swing{ratio, 8};
        const double here = likelihood(frame, runs, swing);
        if (!(here > best)) continue;
        best = here;
        found = swing;
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

} // namespace

CountedNotes countedByHand(const Study& frame, std::vector<ForeignNote> notes) {
    std::stable_sort(notes.begin(), notes.end(),
                     [](const ForeignNote& a, const ForeignNote& b) { return a.begin < b.begin; });
    const std::vector<Notes> runs = runsOf(notes);
    CountedNotes counted;
    counted.swing = swingOf(frame, runs);
    const Study study = swung(frame, counted.swing);
    RhythmWishes wishes;
    wishes.mostProposals = 1;
    for (const Notes& run : runs) {
        const auto proposals = proposeRhythms(study, asPlayed(frame, run), wishes);
        if (proposals.empty()) counted.uncounted += run.size();
        const Notes here = proposals.empty() ? run : placed(run, proposals.front());
        counted.notes.insert(counted.notes.end(), here.begin(), here.end());
    }
    return counted;
}

} // namespace earwright
