#include "core/check/ThreeInABeat.h"

#include "core/check/LineOnsets.h"
#include "core/check/OffBeat.h"
#include "core/check/OrnamentSounds.h"
#include "core/study/PlayedTime.h"
#include "core/time/BeatRatio.h"

#include <algorithm>

namespace earwright {

namespace {

struct Spacing {
    ThreeInABeat kind;
    std::array<Beats, 3> shares;
};

const std::array<Spacing, 4>& spacings() {
    static const std::array<Spacing, 4> all{{{ThreeInABeat::Triplet, {Beats(0), Beats(1, 3), Beats(2, 3)}},
                                             {ThreeInABeat::LongFirst, {Beats(0), Beats(1, 2), Beats(3, 4)}},
                                             {ThreeInABeat::LongMiddle, {Beats(0), Beats(1, 4), Beats(3, 4)}},
                                             {ThreeInABeat::LongLast, {Beats(0), Beats(1, 4), Beats(1, 2)}}}};
    return all;
}

std::vector<const Note*> notesIn(const Range<Beats>& beat, const std::vector<Note>& notes) {
    std::vector<const Note*> found;
    for (const Note& note : notes)
        if (beat.contains(note.onset)) found.push_back(&note);
    return found;
}

/// Places within a beat at which notes begin, if there are three.
std::optional<std::array<Beats, 3>> threePlaces(const std::vector<const Note*>& notes) {
    std::vector<Beats> places;
    for (const Note* note : notes)
        if (places.empty() || places.back() != note->onset) places.push_back(note->onset);
    if (places.size() != 3) return std::nullopt;
    return std::array<Beats, 3>{places[0], places[1], places[2]};
}

bool isListenedFor(int midi) {
    return midi >= lowestHeardMidi && midi <= highestHeardMidi;
}

/// The notes that tell in which view the line is heard, and its lag: none that may swing.
std::vector<Claim> steadyClaims(const Study& study, const std::vector<Note>& notes) {
    const std::vector<OffBeat> swinging = offBeats(study, notes);
    std::vector<Claim> claims;
    for (const Note& note : notes)
        if (isListenedFor(struckMidi(note)) &&
            std::ranges::find(swinging, note.onset, &OffBeat::place) == swinging.end())
            claims.push_back({playedTime(study, note.range()), struckMidi(note)});
    return claims;
}

/// A beat of three places, and how it is written.
struct WrittenThree {
    Range<Seconds> beat;
    std::array<Beats, 3> places;
    const Spacing* spacing;
    std::vector<const Note*> notes;
};

std::optional<WrittenThree> writtenThree(const Range<Beats>& beat, const Study& study,
                                         const std::vector<Note>& notes) {
    const std::vector<const Note*> inside = notesIn(beat, notes);
    const auto places = threePlaces(inside);
    if (!places) return std::nullopt;
    std::array<Beats, 3> shares;
    for (std::size_t i = 0; i < 3; ++i)
        shares[i] = ratio((*places)[i] - beat.begin, beat.length());
    const auto spacing = std::ranges::find(spacings(), shares, &Spacing::shares);
    const bool areHeard =
        std::ranges::all_of(inside, [](const Note* note) { return isListenedFor(struckMidi(*note)); });
    if (spacing == spacings().end() || !areHeard) return std::nullopt;
    return WrittenThree{study.beatMap.seconds(beat), *places, &*spacing, inside};
}

std::vector<WrittenThree> writtenThrees(const Study& study, const std::vector<Note>& notes) {
    std::vector<WrittenThree> threes;
    const MeterMap meters = study.meters();
    std::optional<Range<Beats>> last;
    for (const Note& note : notes) {
        const auto beat = quarterAround(note.onset, study, meters);
        if (!beat || beat == last) continue;
        last = beat;
        if (auto three = writtenThree(*beat, study, notes)) threes.push_back(std::move(*three));
    }
    return threes;
}

/// The sum of the log probabilities with which a beat's three places begin where a spacing puts them.
double support(const WrittenThree& three, const Spacing& spacing, const OnsetTrack& onsets, Seconds lag) {
    constexpr Seconds reach{0.020};
    double sum = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        const Seconds there = three.beat.begin + three.beat.length() * spacing.shares[i].toDouble() + lag;
        double strongest = -9;
        for (const Note* note : three.notes)
            if (note->onset == three.places[i])
                strongest =
                    std::max<double>(strongest, strongestAbout(onsets, struckMidi(*note), there, reach).log);
        sum += strongest;
    }
    return sum;
}

std::optional<ThreeInABeat> heardIn(const WrittenThree& three, const OnsetTrack& onsets, Seconds lag) {
    constexpr double clearly = 2;
    constexpr double least = -2;
    const auto supportOf = [&](const Spacing& spacing) { return support(three, spacing, onsets, lag); };
    const Spacing& best = *std::ranges::max_element(spacings(), {}, supportOf);
    const double there = supportOf(best);
    const bool isClear = there > least && there > supportOf(*three.spacing) + clearly;
    return isClear ? std::optional(best.kind) : std::nullopt;
}

} // namespace

bool anyThreeInABeat(const Study& study, const std::vector<Note>& notes) {
    return !writtenThrees(study, notes).empty();
}

bool isWrittenSo(const HeardThree& three, const Study& study, const std::vector<Note>& notes,
                 const Note& note) {
    const auto beat = quarterAround(note.onset, study, study.meters());
    return beat && threePlaces(notesIn(*beat, notes)) == three.places;
}

std::map<NoteId, HeardThree> threesHeardOtherwise(const Study& study, const std::vector<Note>& notes,
                                                  const PassageEvidence& evidence) {
    const std::vector<WrittenThree> threes = writtenThrees(study, notes);
    std::map<NoteId, HeardThree> heard;
    if (threes.empty()) return heard;
    const std::vector<Claim> claims = steadyClaims(study, notes);
    const OnsetTrack onsets = lineOnsets(evidence, claims);
    const Seconds lag = usualLagOf(onsets, claims);
    for (const WrittenThree& three : threes)
        if (const auto kind = heardIn(three, onsets, lag))
            for (const Note* note : three.notes)
                heard[note->id] = {three.places, *kind};
    return heard;
}

} // namespace earwright
