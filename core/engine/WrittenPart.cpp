#include "core/engine/WrittenPart.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace earwright {

namespace {

/// Notes that are over, begun longer ago than this (listener's seconds), are silent.
constexpr double longestBefore = 5.0;
/// Held ones have died away (a low E, which rings longest, by some 50 dB).
constexpr double longestHeld = 12.0;
/// A note that is over is not silent at once (listener's seconds).
constexpr double dampedSeconds = 0.1;
constexpr double never = std::numeric_limits<double>::infinity();

/// Whether a note that has begun is held at a place, or was let go less than so many frames before it.
bool isHeldAt(double place, const TimedNote& note, double letGo = 0) {
    return place < static_cast<double>(note.end.value) + letGo;
}

bool earlier(const TimedNote& a, const TimedNote& b) {
    return a.onset != b.onset ? a.onset < b.onset : a.midi < b.midi;
}

} // namespace

NoteList noteListOf(std::vector<TimedNote> notes) {
    std::stable_sort(notes.begin(), notes.end(), earlier);
    return std::make_shared<const std::vector<TimedNote>>(std::move(notes));
}

bool differWithin(const NoteList& one, const NoteList& other, const Range<Frames>& places) {
    const auto reaches = [&](const TimedNote& note) {
        return note.onset < places.end && note.end > places.begin;
    };
    std::size_t i = 0;
    std::size_t j = 0;
    while (true) {
        while (i < one->size() && !reaches((*one)[i]))
            ++i;
        while (j < other->size() && !reaches((*other)[j]))
            ++j;
        if (i == one->size() || j == other->size()) return i != one->size() || j != other->size();
        if ((*one)[i++] != (*other)[j++]) return true;
    }
}

void WrittenPart::start(const Start& start, NoteList notes) {
    now = start;
    list = std::move(notes);
    at = now.tags.lead();
    bank.setRate(now.outputRate);
    soundBefore();
    findNext(0);
}

void WrittenPart::setNotes(NoteList notes) {
    list = std::move(notes);
    findNext(now.tags.unrolledAt(at));
}

double WrittenPart::onsetDistance(const TimedNote& note) const {
    const auto onset = static_cast<double>(note.onset.value);
    if (passesOn == 0) return onset - now.tags.start();
    return now.tags.passEnd(passesOn - 1) + onset - now.tags.loopBegin();
}

void WrittenPart::findNext(double unrolled) {
    passesOn = 0;
    if (now.tags.isLooped())
        while (now.tags.passEnd(passesOn) <= unrolled)
            ++passesOn;
    next = 0;
    while (next < list->size() && onsetDistance((*list)[next]) < unrolled)
        ++next;
}

WrittenPart::Event WrittenPart::nextEvent() const {
    const double passEnd = now.tags.isLooped() ? now.tags.passEnd(passesOn) : never;
    const double onset = next < list->size() ? onsetDistance((*list)[next]) : never;
    return onset < passEnd ? Event{onset, false} : Event{passEnd, true};
}

void WrittenPart::happen(const Event& event) {
    if (!event.isPassEnd) {
        bank.play(gestureOf((*list)[next]));
        ++next;
        return;
    }
    bank.releaseAll();
    ++passesOn;
    next = 0;
    while (next < list->size() && onsetDistance((*list)[next]) < event.at)
        ++next;
}

void WrittenPart::produce(std::span<float> out) {
    while (!out.empty()) {
        Event event = nextEvent();
        while (event.at < never && now.tags.laneFrameOf(event.at) <= at) {
            happen(event);
            event = nextEvent();
        }
        std::size_t count = out.size();
        if (event.at < never) {
            const std::int64_t until = now.tags.laneFrameOf(event.at) - at;
            count = static_cast<std::size_t>(std::min<std::int64_t>(until, static_cast<std::int64_t>(count)));
        }
        bank.render(out.first(count));
        out = out.subspan(count);
        at += static_cast<std::int64_t>(count);
    }
}

void WrittenPart::soundBefore() {
    const double place = now.tags.start();
    const double perSecond = static_cast<double>(now.recordingRate.hertz) * now.speed;
    const double least = now.tags.isLooped() && place >= now.tags.loopBegin() ? now.tags.loopBegin() : 0.0;
    const double from = std::max(least, place - longestBefore * perSecond);
    const double heldFrom = std::max(least, place - longestHeld * perSecond);
    std::vector<float> unheard;
    std::int64_t sounding = 0;
    const double dying = dampedSeconds * perSecond;
    bool any = false;
    inANote = false;
    for (const TimedNote& note : *list) {
        const auto onset = static_cast<double>(note.onset.value);
        if (onset >= place) break;
        if (onset < (isHeldAt(place, note) ? heldFrom : from)) continue;
        const auto frame = static_cast<std::int64_t>((onset - place) / now.tags.framesPerOutput());
        if (any) {
            unheard.assign(static_cast<std::size_t>(frame - sounding), 0.0f);
            bank.render(unheard);
        }
        any = true;
        inANote = inANote || (frame < 0 && isHeldAt(place, note, dying));
        sounding = frame;
        bank.play(gestureOf(note));
    }
    if (!any) return;
    unheard.assign(static_cast<std::size_t>(-sounding), 0.0f);
    bank.render(unheard);
}

StringGesture WrittenPart::gestureOf(const TimedNote& note) const {
    StringGesture gesture;
    gesture.stroke = note.stroke;
    gesture.voice = note.voice;
    gesture.pitch = note.midi + now.semitones;
    gesture.loudness = std::clamp(note.loudness, 0.0, 1.0);
    gesture.stretch = 1.0 / now.speed;
    gesture.seconds =
        std::max(0.02, now.recordingRate.seconds(note.end - note.onset).value * gesture.stretch);
    gesture.slideIn = note.slideInSemitones;
    gesture.slideOut = note.slideOutSemitones;
    gesture.scoop = note.scoop;
    gesture.fall = note.fall;
    gesture.vibrato = note.vibrato;
    gesture.bend = note.bend;
    for (const int semitones : note.figureSemitones)
        if (gesture.figureCount < gesture.figure.size()) gesture.figure[gesture.figureCount++] = semitones;
    gesture.trill = note.trillSemitones.value_or(0);
    for (const int midi : note.graceMidi)
        if (gesture.graceCount < gesture.grace.size())
            gesture.grace[gesture.graceCount++] = midi + now.semitones;
    return gesture;
}

} // namespace earwright
