#include "core/playback/TimedNotes.h"

#include "core/engine/StringGesture.h"
#include "core/music/WrittenDynamics.h"
#include "core/study/NoteVoices.h"
#include "core/study/PlayedTime.h"

#include <algorithm>

namespace earwright {

namespace {

// A slide that comes from no written note starts or ends about a whole tone away.
constexpr double slideSemitones = 2;
constexpr double scoopSemitones = 1;
constexpr double fallSemitones = 7;

Stroke strokeOf(const Note& note, std::size_t voice, const Study& study) {
    if (!note.phrasing.slurred) return Stroke::Picked;
    const Note* before = noteBefore(study, note);
    if (!before || voiceOf(study, *before) != voice) return Stroke::Soft;
    return note.phrasing.slurBy ? Stroke::Hammered : Stroke::Slurred;
}

/// `next` is none where there is a rest: nothing to slide to.
void slide(const Phrasing& phrasing, const Note* next, TimedNote& result) {
    if (phrasing.slideIn)
        result.slideInSemitones = *phrasing.slideIn == SlideFrom::Below ? -slideSemitones : slideSemitones;
    else if (phrasing.scoop)
        result.slideInSemitones = -scoopSemitones;
    result.scoop = phrasing.scoop && !phrasing.slideIn;
    result.fall = phrasing.fall;
    if (phrasing.fall)
        result.slideOutSemitones = -fallSemitones;
    else if (phrasing.slidesToNext && next)
        result.slideOutSemitones = next->pitch.midi - result.midi;
    else if (phrasing.slideOut)
        result.slideOutSemitones = *phrasing.slideOut == SlideTo::Up ? slideSemitones : -slideSemitones;
}

/// Semitones up from the written pitch at the onset, in the middle and at the end.
std::array<double, 3> bendOf(const Phrasing& phrasing) {
    if (!phrasing.bend) return {};
    const double up = phrasing.bend->semitones();
    switch (phrasing.bend->shape) {
    case BendShape::Up:
        return {0, up, up};
    case BendShape::UpAndDown:
        return {0, up, 0};
    case BendShape::PrebentHeld:
        return {up, up, up};
    case BendShape::PrebentDown:
        return {up, up, 0};
    }
    return {};
}

/// A turn and a mordent as they are played: their notes before the one that stays (common practice).
std::vector<int> figureOf(const Phrasing& phrasing, int midi, const KeySignature& key) {
    const int up = key.upperNeighbour(midi) - midi;
    const int down = key.lowerNeighbour(midi) - midi;
    if (phrasing.turn)
        return *phrasing.turn == Turn::FromAbove ? std::vector{up, 0, down} : std::vector{down, 0, up};
    if (phrasing.mordent) return {0, *phrasing.mordent == Mordent::Upper ? up : down};
    return {};
}

/// What sounds before a note's own pitch is reached, as the string voice takes it at full speed.
Seconds leadIn(const Phrasing& phrasing) {
    Seconds lead = Seconds(StringGesture::graceSeconds) * static_cast<double>(phrasing.graceNotes.size());
    if (phrasing.scoop && !phrasing.slideIn) lead += Seconds(StringGesture::scoopSeconds);
    if (phrasing.slideIn) lead += Seconds(StringGesture::slideInSeconds);
    return lead;
}

Range<Seconds> asPlayed(const Note& note, const PlayedNote& playing) {
    Range<Seconds> time = soundingAsPlayed(note, playing);
    time.begin = std::max(Seconds(0), time.begin - leadIn(note.phrasing));
    return time;
}

Range<Seconds> asWritten(const Note& note, const Study& study) {
    Range<Seconds> time = playedTime(study, note.range());
    time.end = time.begin + soundingLength(note.phrasing, time.length());
    return time;
}

TimedNote timed(const Note& note, const Study& study, const MeterMap& meters, const PlayedNote* playing) {
    const Range<Seconds> time = playing ? asPlayed(note, *playing) : asWritten(note, study);
    const Phrasing& phrasing = note.phrasing;
    TimedNote result;
    result.onset = study.recording.rate.frames(time.begin);
    result.end = study.recording.rate.frames(time.end);
    result.midi = note.pitch.midi;
    result.loudness = playing ? playing->loudness : writtenLoudness(study.page, note);
    result.voice = voiceOf(study, note);
    result.stroke = strokeOf(note, result.voice, study);
    const Note* next = noteAfter(study, note);
    slide(phrasing, next && next->onset <= note.end() ? next : nullptr, result);
    result.graceMidi = phrasing.graceNotes;
    result.trillSemitones = phrasing.trill;
    result.figureSemitones = figureOf(phrasing, note.pitch.midi, study.page.keyAt(meters.barOf(note.onset)));
    result.bend = bendOf(phrasing);
    result.vibrato = phrasing.vibrato;
    return result;
}

} // namespace

std::vector<TimedNote> timedNotes(const Study& study, const PlayedNotes& played) {
    std::vector<TimedNote> notes;
    if (!study.beatMap.hasTempo() || study.recording.rate.hertz <= 0) return notes;
    notes.reserve(study.notes.size());
    const MeterMap meters = study.meters();
    for (const Note& note : study.notes)
        notes.push_back(timed(note, study, meters, playingOf(played, study, note)));
    // What was played early may come before a note that is as written.
    std::stable_sort(notes.begin(), notes.end(),
                     [](const TimedNote& a, const TimedNote& b) { return a.onset < b.onset; });
    return notes;
}

} // namespace earwright
