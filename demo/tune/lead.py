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
GRACE_SECONDS = 0.062
TRILL_SECONDS = 0.071


@dataclass(frozen=True)
class Played:
    """One written note as it was played; onset is the main note's, duration its sounding length, in seconds."""

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
        if after.grace:
            gap = GRACE_SECONDS + 0.008
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
        else:
            onset = played.onset
            if note.grace:
                grace = Sounding(PICKED_CHANNEL, onset - GRACE_SECONDS, GRACE_SECONDS, midi_number(note.grace),
                                 played.velocity - 10)
                self.soundings.append(grace)
            self.soundings.append(Sounding(PICKED_CHANNEL, onset, played.duration, note.midi, played.velocity))

    @staticmethod
    def _is_held(played):
        return played.duration > 0.62 and not played.note.grace

    def _trill(self, played):
        """The written note first, then the upper one, each hammered more softly than the pick before it."""
        count = 2 * int(played.duration / TRILL_SECONDS / 2) + 1
        step = played.duration / count
        for index in range(count):
            pitch = played.note.midi if index % 2 == 0 else midi_number(played.note.trill)
            velocity = played.velocity if index == 0 else played.velocity - 16 - index
            length = step if index < count - 1 else step * 0.9
            self.soundings.append(
                Sounding(PICKED_CHANNEL, played.onset + index * step, length, pitch, max(40, velocity)))

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
        rise = min(1.0, max(0.0, (since - 0.028) / (0.045 + 0.022 * abs(note.slide_in))))
        semitones -= note.slide_in * (1 - rise)
        if since > 0.3:
            depth = 0.13 * min(1.0, (since - 0.3) / 0.25)
            semitones += depth * math.sin(2 * math.pi * 5.3 * (since - 0.3))
        falling = since - (played.duration - 0.15)
        if note.slide_out and falling > 0:
            semitones -= note.slide_out * min(1.0, falling / 0.13)
        return semitones
