#include "core/study/PlayedTime.h"

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

/// How often one length goes into another.
Beats quotient(const Beats& length, const Beats& into) {
    return Beats(length.numerator() * into.denominator(), length.denominator() * into.numerator());
}

} // namespace

double playedBeat(const Study& study, const Beats& written) {
    const Swing swing = study.page.swingAt(written);
    if (swing.isEven() || !isPowerOfTwo(written.denominator())) return written.toDouble();
    const MeterMap meters = study.meters();
    if (meters.at(meters.barOf(written)).unitsPerCount() != 1) return written.toDouble();
    const auto parts = static_cast<std::int64_t>(study.divisionOf(meters.countStart(written)));
    if (!isPowerOfTwo(parts)) return written.toDouble();
    // Two of the notes that swing, in beats.
    const Beats pair(2 * std::int64_t{study.meter.beatUnit}, swing.noteValue);
    const Beats since = meters.withinBar(written);
    const Beats inPairs = quotient(since, pair);
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
    const Swing swing = study.page.swingAt(place);
    if (swing.isEven()) return place;
    // One of the notes that swing, in beats; they are counted from the bar line.
    const Beats each(study.meter.beatUnit, swing.noteValue);
    const Beats within = study.meters().withinBar(place);
    const Beats before = place - within + each * quotient(within, each).floor();
    for (const Beats& written : {before - each, before, before + each})
        if (std::abs((playedTime(study, written) - time).value) < sameOnset) return written;
    return place;
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
