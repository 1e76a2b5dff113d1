#include "core/study/RhythmProposal.h"

#include "core/study/BeatReading.h"
#include "core/study/DivisionEdits.h"
#include "core/study/NoteEdits.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// A plucked chord is not struck at once (common practice: a strum takes up to some 30 ms).
constexpr Seconds strum{0.035};
/// Another division than the beat before had.
constexpr double costOfChange = 0.3;
/// A note let go after this share of the way to the next onset lasts to it.
constexpr double heldShare = 0.55;

/// Meter and page without notes: all that decides where a place is played.
Study frameOf(const Study& study) {
    Study frame;
    frame.meter = study.meter;
    frame.page = study.page;
    return frame;
}

/// Notes that begin together.
struct Place {
    double onset = 0;
    /// In beats as played; the longest of them.
    double end = 0;
    std::vector<int> pitches;
};

std::vector<Place> placesOf(const Study& study, std::vector<FreeNote> notes) {
    std::sort(notes.begin(), notes.end(),
              [](const FreeNote& a, const FreeNote& b) { return a.held.begin < b.held.begin; });
    std::vector<Place> places;
    Seconds begun{0};
    for (const FreeNote& note : notes) {
        const double end = study.beatMap.beatsAt(note.held.end);
        const bool joins = !places.empty() && note.held.begin - begun < strum &&
                           std::find(places.back().pitches.begin(), places.back().pitches.end(), note.midi) ==
                               places.back().pitches.end();
        if (joins) {
            places.back().pitches.push_back(note.midi);
            places.back().end = std::max(places.back().end, end);
            continue;
        }
        begun = note.held.begin;
        places.push_back({study.beatMap.beatsAt(note.held.begin), end, {note.midi}});
    }
    return places;
}

/// The readings of one counted beat, and which places they are about.
struct BeatChoice {
    Range<Beats> beat;
    std::size_t firstPlace;
    std::vector<BeatReading> readings;
};

double spreadInBeats(const Study& study, const Range<Beats>& beat, Seconds spread) {
    const Seconds lasts = study.beatMap.seconds(beat).length();
    return std::max(spread.value / std::max(lasts.value, 1e-3), 1e-3) * beat.length().toDouble();
}

/// The counted beat a place as played lies in.
Beats countOf(double played, const MeterMap& meters) {
    // Fine enough for counted beats of all meters to begin on a line of it: units are halves of halves.
    constexpr std::int64_t finest = 1024;
    return meters.countStart(
        Beats(static_cast<std::int64_t>(std::floor(played * static_cast<double>(finest))), finest));
}

std::vector<BeatChoice> choicesFor(const Study& study, const std::vector<Place>& places, Seconds spread) {
    const Study frame = frameOf(study);
    const MeterMap meters = study.meters();
    std::vector<BeatChoice> choices;
    // Silence is skipped: nothing is chosen there.
    for (std::size_t next = 0; next < places.size();) {
        const std::size_t first = next;
        const Beats begin = countOf(places[first].onset, meters);
        const Range<Beats> beat{begin, meters.nextCount(begin)};
        std::vector<double> onsets;
        for (; next < places.size() && countOf(places[next].onset, meters) == begin; ++next)
            onsets.push_back(places[next].onset);
        choices.push_back({beat, first, readBeat(frame, begin, onsets, spreadInBeats(study, beat, spread))});
    }
    return choices;
}

/// A way through the beats so far.
struct Path {
    double cost = 0;
    /// Index into the readings of each beat.
    std::vector<std::size_t> taken;
};

double costBetween(const BeatChoice& before, const BeatReading& last, const BeatChoice& now,
                   const BeatReading& next) {
    // Where another beat is counted, its division is another one anyway.
    if (now.beat.begin != before.beat.end || now.beat.length() != before.beat.length()) return 0;
    // What is undivided goes with everything.
    const bool isPlain = last.division == BeatDivision::One || next.division == BeatDivision::One;
    return last.division == next.division || isPlain ? 0 : costOfChange;
}

bool canFollow(const BeatChoice& before, const BeatReading& last, const BeatChoice& now,
               const BeatReading& next) {
    const bool meets = now.beat.begin == before.beat.end && last.reachesNextBeat();
    return !meets || !next.beginsOnBeat();
}

/// The cheapest ways through all beats. Kept for each reading of the last beat, as many as are wanted at the
/// end: more can never be needed of one reading.
std::vector<Path> cheapestPaths(const std::vector<BeatChoice>& choices, std::size_t wanted) {
    const auto byCost = [](const Path& a, const Path& b) { return a.cost < b.cost; };
    std::vector<Path> paths{{}};
    for (std::size_t beat = 0; beat < choices.size(); ++beat) {
        std::vector<Path> longer;
        for (std::size_t i = 0; i < choices[beat].readings.size(); ++i) {
            const BeatReading& reading = choices[beat].readings[i];
            std::vector<Path> here;
            for (const Path& path : paths) {
                Path next = path;
                next.cost += reading.cost;
                if (beat > 0) {
                    const BeatChoice& before = choices[beat - 1];
                    const BeatReading& last = before.readings[path.taken.back()];
                    if (!canFollow(before, last, choices[beat], reading)) continue;
                    next.cost += costBetween(before, last, choices[beat], reading);
                }
                next.taken.push_back(i);
                here.push_back(std::move(next));
            }
            std::sort(here.begin(), here.end(), byCost);
            if (here.size() > wanted) here.resize(wanted);
            longer.insert(longer.end(), here.begin(), here.end());
        }
        paths = std::move(longer);
    }
    std::sort(paths.begin(), paths.end(), byCost);
    return paths;
}

/// The end of a note that was let go before the next onset: the line after its onset that is played nearest
/// to it.
Beats letGo(const Study& divided, const Beats& onset, double end) {
    const MeterMap meters = divided.meters();
    const Beats beat = std::max(countOf(end, meters), meters.countStart(onset));
    const auto parts = static_cast<std::int64_t>(divided.divisionOf(beat));
    Beats best = meters.nextCount(beat);
    const Beats part = (best - beat) / parts;
    for (std::int64_t line = parts - 1; line >= 0; --line) {
        const Beats place = beat + part * line;
        if (place <= onset) break;
        if (std::abs(playedBeat(divided, place) - end) < std::abs(playedBeat(divided, best) - end))
            best = place;
    }
    return best;
}

void lengthen(RhythmProposal& proposal, const Study& study, const std::vector<Place>& places,
              const std::vector<Beats>& onsets) {
    Study divided = frameOf(study);
    // A note may end on the usual lines of a beat with nothing off it.
    for (const auto& [beat, division] : proposal.divisions)
        if (division != BeatDivision::One) divided = setDivision(divided, beat, division);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const bool isLast = i + 1 == places.size();
        const double sounded = places[i].end - places[i].onset;
        const bool lasts = !isLast && sounded >= heldShare * (places[i + 1].onset - places[i].onset);
        Beats end = lasts ? onsets[i + 1] : letGo(divided, onsets[i], places[i].end);
        if (!isLast) end = std::min(end, onsets[i + 1]);
        for (const int midi : places[i].pitches)
            proposal.notes.push_back({onsets[i], end - onsets[i], midi});
    }
    std::sort(proposal.notes.begin(), proposal.notes.end(), [](const ProposedNote& a, const ProposedNote& b) {
        return a.onset != b.onset ? a.onset < b.onset : a.midi < b.midi;
    });
}

RhythmProposal written(const Study& study, const std::vector<Place>& places,
                       const std::vector<BeatChoice>& choices, const Path& path) {
    RhythmProposal proposal;
    proposal.cost = path.cost;
    std::vector<Beats> onsets(places.size());
    for (std::size_t i = 0; i < choices.size(); ++i) {
        const BeatReading& reading = choices[i].readings[path.taken[i]];
        const auto parts = static_cast<std::int64_t>(reading.division);
        const Range<Beats>& beat = choices[i].beat;
        proposal.divisions[beat.begin] = reading.division;
        for (std::size_t k = 0; k < reading.lines.size(); ++k)
            onsets[choices[i].firstPlace + k] = beat.begin + beat.length() * reading.lines[k] / parts;
    }
    lengthen(proposal, study, places, onsets);
    return proposal;
}

} // namespace

std::vector<RhythmProposal> proposeRhythms(const Study& study, std::vector<FreeNote> notes,
                                           const RhythmWishes& wishes) {
    const std::vector<Place> places = placesOf(study, std::move(notes));
    if (places.empty()) return {};
    const std::vector<BeatChoice> choices = choicesFor(study, places, wishes.spread);
    std::vector<RhythmProposal> proposals;
    for (const Path& path : cheapestPaths(choices, wishes.mostProposals)) {
        if (proposals.size() == wishes.mostProposals) break;
        RhythmProposal proposal = written(study, places, choices, path);
        const bool isThere =
            std::any_of(proposals.begin(), proposals.end(),
                        [&](const RhythmProposal& other) { return other.notes == proposal.notes; });
        if (!isThere) proposals.push_back(std::move(proposal));
    }
    return proposals;
}

Study writeProposal(const Study& study, const RhythmProposal& proposal) {
    if (proposal.notes.empty()) return study;
    Study edited = study;
    const Range<Beats> span{proposal.notes.front().onset, proposal.notes.back().onset};
    std::erase_if(edited.notes,
                  [&](const Note& note) { return note.onset >= span.begin && note.onset <= span.end; });
    for (const auto& [beat, division] : proposal.divisions) {
        // A beat with nothing off it can stay divided as it was, for what is written next.
        if (division != BeatDivision::One) edited = setDivision(edited, beat, division);
    }
    for (const ProposedNote& note : proposal.notes)
        edited = addNote(edited, {{note.midi, {}}, note.onset, note.length}).study;
    return edited;
}

} // namespace earwright
