// Notation for notes that were placed freely, tapped in or played: the simplest first, others to choose from.
#pragma once

#include "core/study/FreePlaces.h"
#include "core/study/RhythmPaths.h"
#include "core/study/RhythmProposal.h"
#include "core/study/Study.h"

#include <map>
#include <optional>
#include <vector>

namespace earwright {

/// In seconds of the recording: who plays to it at half speed is half as far off there.
struct RhythmWishes {
    /// Standard deviation of onsets around their places, as it is before any were played. Players tap along
    /// to a record within 20 to 40 ms (Repp, Sensorimotor synchronization: a review of the tapping
    /// literature, Psychonomic Bulletin & Review 12, 2005).
    Seconds spread{0.03};
    /// Standard deviation of how far one player is late or early throughout. Taps come some tens of
    /// milliseconds early as a rule (same source), devices make them late.
    Seconds lag{0.025};
    std::size_t mostProposals = 6;
};

/// Reads the places of the notes as notation, each counted beat in one of 1 to 8 parts so that every onset
/// falls on a line.
///
/// A division costs the more the rarer it is, and more where its neighbour is divided otherwise; so does a
/// note off the beat behind a silent line, and a figure that is not finished. Three and five notes over two
/// beats, and three over four, are one figure where a page may write them so (mayTupletSpan). In a swung
/// passage the lines of halves are where they are played (PlayedTime.h), so swung eighths are written even.
/// How late the player is throughout, and how far the hand scatters, is what makes all readings of all beats
/// together likeliest.
///
/// Threads: a value; making one takes some milliseconds.
class RhythmReader {
public:
    /// Requires: study.beatMap.hasTempo(). Only what decides where a place is played is kept of the study.
    RhythmReader(const Study& study, std::vector<FreeNote> notes, const RhythmWishes& wishes = {});

    /// The readings that are worth a look for each counted beat with onsets, the likeliest of all ways first.
    /// Empty where there are no notes, or more in a beat than can be written.
    const std::vector<BeatChoice>& beats() const { return choices; }
    /// Of the readings of each beat, what share of all ways goes through them, 0 to 1.
    const std::vector<std::vector<double>>& shares() const { return likely; }
    /// How late the player is held to be, and how far from that single onsets scatter.
    Seconds lag() const { return heard.lag; }
    Seconds spread() const { return heard.spread; }
    /// The natural logarithm of how likely the onsets are, whatever was meant by them, up to a constant that
    /// is the same for all readers of the same notes. Where two studies differ in their swing, the likelier
    /// one is the better guess. 0 without notes; minus infinity where they cannot be written.
    double likelihood() const;

    /// The best ways to write the notes, cheapest first and none twice.
    std::vector<RhythmProposal> proposals() const;
    /// The best one in which some beats, by number, have a certain reading; nothing where they can't follow
    /// each other.
    std::optional<RhythmProposal> with(const std::map<std::size_t, std::size_t>& chosen) const;

private:
    struct Hand {
        Seconds lag;
        Seconds spread;
    };

    std::vector<BeatChoice> readBy(const Hand& hand);
    double weigh(const Hand& hand);
    Hand bettered(const Hand& hand);
    void listen();
    void sortByShare();
    RhythmProposal written(const RhythmPath& path) const;
    void lengthen(RhythmProposal& proposal, const std::vector<Beats>& onsets) const;

    /// Marks, meter and page.
    Study frame;
    RhythmWishes wishes;
    std::vector<FreePlace> places;
    std::map<Beats, BeatLines> lines;
    Hand heard;
    std::vector<BeatChoice> choices;
    std::vector<std::vector<double>> likely;
};

/// The best ways to write these notes (RhythmReader). Empty where there are no notes.
/// Requires: study.beatMap.hasTempo(). Threads: any.
std::vector<RhythmProposal> proposeRhythms(const Study& study, std::vector<FreeNote> notes,
                                           const RhythmWishes& wishes = {});

} // namespace earwright
