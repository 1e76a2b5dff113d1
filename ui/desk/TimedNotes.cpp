#include "ui/desk/TimedNotes.h"

#include <algorithm>

namespace earwright::ui {

namespace {

// How players shade a line (common practice): a ghosted note is less than half as loud as its neighbours,
// an accented one about a third louder.
constexpr double ghostShare = 0.45;
constexpr double accentShare = 1.35;
// A slide that comes from no written note starts or ends about a whole tone away.
constexpr double slideSemitones = 2;

double loudnessOf(const Note& note) {
    double loudness = note.loudness;
    if (note.phrasing.ghosted) loudness *= ghostShare;
    if (note.phrasing.accented) loudness *= accentShare;
    return std::clamp(loudness, 0.0, 1.0);
}

TimedNote timed(const Note& note, const Study& study) {
    const Range<Seconds> time = study.beatMap.seconds(note.range());
    const Phrasing& phrasing = note.phrasing;
    TimedNote result;
    result.onset = study.recording.rate.frames(time.begin);
    result.end = study.recording.rate.frames(time.end);
    result.midi = note.pitch.midi;
    result.loudness = loudnessOf(note);
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

} // namespace earwright::ui
