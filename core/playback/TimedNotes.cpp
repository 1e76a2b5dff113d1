#include "core/playback/TimedNotes.h"

namespace earwright {

namespace {

// A slide that comes from no written note starts or ends about a whole tone away.
constexpr double slideSemitones = 2;

TimedNote timed(const Note& note, const Study& study) {
    const Range<Seconds> time = study.beatMap.seconds(note.range());
    const Phrasing& phrasing = note.phrasing;
    TimedNote result;
    result.onset = study.recording.rate.frames(time.begin);
    result.end = study.recording.rate.frames(time.end);
    result.midi = note.pitch.midi;
    result.loudness = note.soundingLoudness();
    result.slurred = phrasing.slurred;
    if (phrasing.slideIn)
        result.slideInSemitones = *phrasing.slideIn == SlideFrom::Below ? -slideSemitones : slideSemitones;
    if (phrasing.slideOut)
        result.slideOutSemitones = *phrasing.slideOut == SlideTo::Up ? slideSemitones : -slideSemitones;
    result.graceMidi = phrasing.graceNotes;
    result.trillSemitones = phrasing.trill;
    return result;
}

} // namespace

std::vector<TimedNote> timedNotes(const Study& study) {
    std::vector<TimedNote> notes;
    if (!study.beatMap.hasTempo() || study.recording.rate.hertz <= 0) return notes;
    notes.reserve(study.notes.size());
    for (const Note& note : study.notes)
        notes.push_back(timed(note, study));
    return notes;
}

} // namespace earwright
