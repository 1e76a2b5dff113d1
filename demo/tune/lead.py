"""Plays the line as a guitarist would: laid back, swung, picked and slurred, with slides, graces, trills and vibrato."""

import math
from dataclasses import dataclass
from fractions import Fraction

from tune.notation import Note, midi_number
from tune.sounding import Bend, Sounding

PICKED_CHANNEL = 0
BENDING_CHANNELS = (1, 2)  # in turn, so that the tail of one bent note is not bent by the next
BEND_RANGE = 4  # semitones
FURTHEST_FROM_GRID = 0.034  # seconds between a note as played and its place as written
GRACE_SECONDS = 0.050  # a grace note steals its time from the note it leads to
GRACE_AHEAD = 0.022  # and is picked a little early, so that the note itself is not late
TRILL_SECONDS = 0.071


@dataclass(frozen=True)
class Played:
    """One written note as it was played, in seconds; with a grace note the onset is where that is picked."""

    note: Note
    onset: float
    duration: float
    velocity: int


class LeadPlayer:
    def __init__(self, clock, rng):
        self._clock = clock
        self._rng = rng
        self._lean = 0.0
        self._bending = 0
        self.played, self.soundings, self.bends = [], [], []

    def play(self, notes):
        onsets = [self._onset(note) for note in notes]
        following = notes[1:] + [None]
        for index, (note, after) in enumerate(zip(notes, following)):
            next_onset = onsets[index + 1] if after else None
            duration = self._duration(note, onsets[index], after, next_onset)
            velocity = self._velocity(note)
            self.played.append(Played(note, onsets[index], duration, velocity))
            self._sound(self.played[-1])

    def _onset(self, note):
        """Downbeats are laid back most, upbeats nearly with the band; a slow lean makes it a person."""
        self._lean = 0.8 * self._lean + self._rng.uniform(-0.004, 0.004)
        beat, lag = note.beat, 0.016
        if note.swung:
            ratio = self._rng.uniform(1.62, 1.8)
            beat += Fraction(ratio / (1 + ratio)).limit_denominator(10000) - Fraction(2, 3)
            lag = 0.007
        if note.grace:
            lag -= GRACE_AHEAD
        written = self._clock.seconds(note.beat)
        late = self._clock.seconds(beat) - written + lag + self._lean + self._rng.uniform(-0.006, 0.006)
        return written + max(-FURTHEST_FROM_GRID, min(FURTHEST_FROM_GRID, late))

    def _duration(self, note, onset, after, next_onset):
        """Short notes end early, slurred ones run into the next, the others leave a breath between picks."""
        written = self._clock.seconds(note.beat + note.length) - self._clock.seconds(note.beat)
        if note.short:
            return 0.5 * written
        touches = after is not None and after.beat == note.beat + note.length
        if not touches:
            return written * self._rng.uniform(0.86, 0.95)
        gap = -0.008 if after.slurred else self._rng.uniform(0.010, 0.026)
        return next_onset - onset - gap

    def _velocity(self, note):
        level = 90 + 0.5 * (note.midi - 69) + self._rng.uniform(-6, 6)
        if note.swung:
            level += 5
        if note.slurred:
            level -= 13
        if note.accent:
            level += 17
        if note.ghost:
            level = self._rng.uniform(44, 54)
        return int(max(30, min(122, round(level))))

    def _sound(self, played):
        note = played.note
        if note.trill:
            self._trill(played)
        elif note.slide_in or note.slide_out or self._is_held(played):
            self._bend(played)
        elif note.grace:
            self._grace(played)
        else:
            self._picked(played.onset, played.duration, note.midi, played.velocity)

    def _picked(self, onset, duration, midi, velocity):
        self.soundings.append(Sounding(PICKED_CHANNEL, onset, duration, midi, velocity))

    def _grace(self, played):
        """The grace note is picked, the written note hammered on after it."""
        self._picked(played.onset, GRACE_SECONDS + 0.006, midi_number(played.note.grace), played.velocity - 8)
        self._picked(played.onset + GRACE_SECONDS, played.duration - GRACE_SECONDS, played.note.midi,
                     played.velocity - 4)

    @staticmethod
    def _is_held(played):
        return played.duration > 0.62 and not played.note.grace

    def _trill(self, played):
        """The written note is picked and stays the stronger; the upper one is hammered on again and again."""
        pairs = int((played.duration - TRILL_SECONDS) / (2 * TRILL_SECONDS))
        pair = (played.duration - TRILL_SECONDS) / pairs
        upper = midi_number(played.note.trill)
        for index in range(pairs + 1):
            start = played.onset + index * pair
            softer = 8 + index if index else 0
            last = index == pairs
            self._picked(start, TRILL_SECONDS if last else 0.58 * pair, played.note.midi, played.velocity - softer)
            if not last:
                self._picked(start + 0.58 * pair, 0.42 * pair, upper, played.velocity - 24 - index)

    def _bend(self, played):
        channel = BENDING_CHANNELS[self._bending % 2]
        self._bending += 1
        self.soundings.append(Sounding(channel, played.onset, played.duration, played.note.midi, played.velocity))
        self.bends.append(Bend(channel, played.onset - 0.012, self._bend_at(played, 0.0)))
        for step in range(int(played.duration / 0.006)):
            self.bends.append(Bend(channel, played.onset + step * 0.006, self._bend_at(played, step * 0.006)))

    @staticmethod
    def _bend_at(played, since):
        """Semitones away from the written pitch: the slide in, a narrow vibrato once it is held, the fall at the end."""
        note, semitones = played.note, 0.0
        rise = min(1.0, max(0.0, (since - 0.024) / (0.036 + 0.018 * abs(note.slide_in))))
        semitones -= note.slide_in * (1 - rise)
        if since > 0.3:
            depth = 0.13 * min(1.0, (since - 0.3) / 0.25)
            semitones += depth * math.sin(2 * math.pi * 5.3 * (since - 0.3))
        falling = since - (played.duration - 0.15)
        if note.slide_out and falling > 0:
            semitones -= note.slide_out * min(1.0, falling / 0.13)
        return semitones
