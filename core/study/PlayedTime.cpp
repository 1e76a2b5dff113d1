#include "core/study/PlayedTime.h"

#include <algorithm>
#include <bit>
#include <iterator>

namespace earwright {

namespace {

constexpr double staccatoShare = 0.5;
constexpr Seconds ringing{3};

bool isPowerOfTwo(std::int64_t number) {
    return std::has_single_bit(static_cast<std::uint64_t>(number));
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
    const Beats inPairs(since.numerator() * pair.denominator(), since.denominator() * pair.numerator());
    const double start = written.toDouble() - inPairs.fraction().toDouble() * pair.toDouble();
    return start + swing.played(inPairs.fraction().toDouble()) * pair.toDouble();
}

Seconds playedTime(const Study& study, const Beats& written) {
    return study.beatMap.secondsAt(playedBeat(study, written));
}

Range<Seconds> playedTime(const Study& study, const Range<Beats>& written) {
    return {playedTime(study, written.begin), playedTime(study, written.end)};
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
