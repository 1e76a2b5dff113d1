#include "core/study/PlayedTime.h"

#include "core/time/BeatRatio.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <iterator>

namespace earwright {

namespace {

constexpr double staccatoShare = 0.5;
constexpr Seconds ringing{3};

bool isPowerOfTwo(std::int64_t number) {
    return std::has_single_bit(static_cast<std::uint64_t>(number));
}

/// Whether the halves of the counted beat a place lies in are played as its passage swings.
bool isInSwungBeat(const Study& study, const MeterMap& meters, const Beats& place) {
    if (study.page.swingAt(place).isEven()) return false;
    if (meters.at(meters.barOf(place)).unitsPerCount() != 1) return false;
    // Such a beat is divided in two where the user chose nothing else.
    const auto chosen = study.divisions.find(meters.countStart(place));
    return chosen == study.divisions.end() || isPowerOfTwo(static_cast<std::int64_t>(chosen->second));
}

} // namespace

double playedBeat(const Study& study, const Beats& written) {
    if (study.page.swings.empty()) return written.toDouble();
    return playedBeat(study, study.meters(), written);
}

double playedBeat(const Study& study, const MeterMap& meters, const Beats& written) {
    if (!isPowerOfTwo(written.denominator()) || !isInSwungBeat(study, meters, written))
        return written.toDouble();
    const Swing swing = study.page.swingAt(written);
    // Two of the notes that swing, in beats.
    const Beats pair(2 * std::int64_t{study.meter.beatUnit}, swing.noteValue);
    const Beats since = meters.withinBar(written);
    const Beats inPairs = ratio(since, pair);
    const double start = written.toDouble() - inPairs.fraction().toDouble() * pair.toDouble();
    return start + swing.played(inPairs.fraction().toDouble()) * pair.toDouble();
}

Seconds playedTime(const Study& study, const Beats& written) {
    return study.beatMap.secondsAt(playedBeat(study, written));
}

Range<Seconds> playedTime(const Study& study, const Range<Beats>& written) {
    return {playedTime(study, written.begin), playedTime(study, written.end)};
}

Beats writtenPlace(const Study& study, Seconds time, std::int64_t parts) {
    // Nearer than this a sound is the note that is written there.
    constexpr double sameOnset = 0.05;
    const Beats place = Beats::nearest(study.beatMap.beatsAt(time), parts);
    const MeterMap meters = study.meters();
    if (!isInSwungBeat(study, meters, place)) return place;
    // One of the notes that swing, in beats; they are counted from the bar line.
    const Beats each(study.meter.beatUnit, study.page.swingAt(place).noteValue);
    const Beats within = meters.withinBar(place);
    const Beats before = place - within + each * ratio(within, each).floor();
    Beats nearest = place;
    double least = sameOnset;
    for (const Beats& written : {before - each, before, before + each}) {
        const double apart = std::abs((playedTime(study, written) - time).value);
        const bool isWrittenThere =
            isInSwungBeat(study, meters, written) || meters.countStart(written) == written;
        if (!isWrittenThere || apart >= least) continue;
        nearest = written;
        least = apart;
    }
    return nearest;
}

Seconds soundingLength(const Phrasing& phrasing, Seconds written) {
    const Seconds length = phrasing.staccato ? written * staccatoShare : written;
    return phrasing.letRing ? std::max(length, ringing) : length;
}

bool isAnyPlayedIn(const Study& study, const Range<Seconds>& stretch) {
    return study.beatMap.hasTempo() &&
           std::any_of(study.notes.begin(), study.notes.end(),
                       [&](const Note& note) { return stretch.contains(playedTime(study, note.onset)); });
}

std::vector<Note> notesPlayedIn(const Study& study, const Range<Seconds>& stretch) {
    std::vector<Note> notes;
    if (!study.beatMap.hasTempo()) return notes;
    std::copy_if(study.notes.begin(), study.notes.end(), std::back_inserter(notes),
                 [&](const Note& note) { return stretch.contains(playedTime(study, note.onset)); });
    return notes;
}

} // namespace earwright
