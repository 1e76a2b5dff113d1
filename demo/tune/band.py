"""The rhythm section: walking bass, ride and hi-hat, and a piano that comps sparsely under the line."""

from fractions import Fraction

from tune import score
from tune.notation import midi_number
from tune.sounding import Sounding

PIANO_CHANNEL, BASS_CHANNEL, DRUM_CHANNEL = 4, 5, 9
UPBEAT = Fraction(2, 3)
RIDE_UPBEAT = Fraction(65, 100)  # the drummer's swing, about 1.86 to 1

# General MIDI percussion keys.
KICK, CROSS_STICK, SNARE, PEDAL_HAT, RIDE, CRASH, LOW_TOM, HIGH_TOM = 36, 37, 38, 44, 51, 49, 45, 50

# Comping rhythms: (place in the bar, length), in beats.
ONE_CHORD_RHYTHMS = [
    [(Fraction(0), 0.5), (1 + UPBEAT, 0.4)],
    [(UPBEAT, 0.35), (Fraction(2), 1.3)],
    [(1 + UPBEAT, 0.9)],
    [(Fraction(1), 0.3), (3 + UPBEAT, 0.9)],
    [(UPBEAT, 0.3), (2 + UPBEAT, 0.3)],
]
TWO_CHORD_RHYTHMS = [
    [(Fraction(0), 0.6), (1 + UPBEAT, 0.7)],
    [(UPBEAT, 0.3), (2 + UPBEAT, 0.3)],
    [(Fraction(0), 1.2), (Fraction(2), 0.5)],
]


class Band:
    def __init__(self, clock, bass_rng, drum_rng, piano_rng):
        self._clock = clock
        self._bass_rng, self._drum_rng, self._piano_rng = bass_rng, drum_rng, piano_rng
        self.soundings = []

    def play(self):
        self._count_in()
        for bar in range(1, score.LAST_BAR):
            self._bass_bar(bar)
            self._drum_bar(bar)
            self._piano_bar(bar)
        self._last_chord()

    def _at(self, rng, beat, spread, lag=0.0):
        return self._clock.seconds(beat) + lag + rng.uniform(-spread, spread)

    def _hit(self, beat, key, velocity, spread=0.004):
        onset = self._at(self._drum_rng, beat, spread)
        loudness = int(velocity + self._drum_rng.uniform(-6, 6))
        self.soundings.append(Sounding(DRUM_CHANNEL, max(0.0, onset), 0.12, key, max(8, min(120, loudness))))

    def _count_in(self):
        """Two beats of drums bring the band in."""
        for beat, key, velocity in [(-2, SNARE, 84), (-2 + RIDE_UPBEAT, SNARE, 66), (-1, HIGH_TOM, 86),
                                    (-1 + RIDE_UPBEAT, LOW_TOM, 88), (-1, PEDAL_HAT, 86)]:
            self._hit(Fraction(beat), key, velocity, 0.002)

    def _bass_bar(self, bar):
        start = 4 * (bar - 1)
        for beat, name in enumerate(score.BASS[bar - 1].split()):
            onset = self._at(self._bass_rng, Fraction(start + beat), 0.005, lag=-0.002)
            length = 0.9 * (self._clock.seconds(start + beat + 1) - self._clock.seconds(start + beat))
            velocity = int(86 + (4 if beat % 2 else 0) + self._bass_rng.uniform(-7, 7))
            self.soundings.append(Sounding(BASS_CHANNEL, onset, length, midi_number(name), velocity))
            if self._bass_rng.random() < 0.07:
                skip = self._at(self._bass_rng, start + beat + RIDE_UPBEAT, 0.005)
                self.soundings.append(Sounding(BASS_CHANNEL, skip, 0.08, midi_number(name), 52))

    def _drum_bar(self, bar):
        start = Fraction(4 * (bar - 1))
        in_chorus = (bar - score.FIRST_CHORUS_BAR) % score.CHORUS_BARS
        fill = bar >= score.INTRO_BARS and in_chorus == score.CHORUS_BARS - 1
        for beat in range(4):
            self._hit(start + beat, RIDE, 98 if beat % 2 else 90)
            self._hit(start + beat, KICK, 56 if beat else 62)
            if beat % 2:
                self._hit(start + beat, PEDAL_HAT, 92)
                if not (fill and beat == 3):
                    self._hit(start + beat + RIDE_UPBEAT, RIDE, 76)
        if in_chorus == 0:
            self._hit(start, CRASH, 78)
        if fill:
            for place, key in [(2 + RIDE_UPBEAT, SNARE), (3, HIGH_TOM), (3 + Fraction(1, 3), SNARE), (3 + UPBEAT, LOW_TOM)]:
                self._hit(start + place, key, 78)
        elif self._drum_rng.random() < 0.55:
            place = self._drum_rng.choice([UPBEAT, 1 + UPBEAT, 2 + UPBEAT, Fraction(3), 3 + UPBEAT])
            self._hit(start + place, self._drum_rng.choice([CROSS_STICK, SNARE]), 58)

    def _piano_bar(self, bar):
        start = Fraction(4 * (bar - 1))
        two = len(score.chords_of_bar(bar)) == 2
        rhythm = self._piano_rng.choice(TWO_CHORD_RHYTHMS if two else ONE_CHORD_RHYTHMS)
        for place, length in rhythm:
            self._chord(start + place, length, 72)

    def _chord(self, beat, length, velocity):
        """An upbeat just before a change already sounds the chord to come."""
        heard = beat + 1 - UPBEAT if beat % 1 else beat
        bar = min(int(heard // 4) + 1, score.LAST_BAR)
        chords = score.chords_of_bar(bar)
        name = chords[int(heard % 4) * len(chords) // 4]
        onset = self._at(self._piano_rng, beat, 0.005, lag=0.004)
        seconds = length * (self._clock.seconds(beat + 1) - self._clock.seconds(beat))
        for index, pitch in enumerate(score.VOICINGS[name].split()):
            roll = index * self._piano_rng.uniform(0.0, 0.004)
            loudness = int(velocity + self._piano_rng.uniform(-5, 5))
            self.soundings.append(Sounding(PIANO_CHANNEL, onset + roll, seconds, midi_number(pitch), loudness))

    def _last_chord(self):
        start = Fraction(4 * (score.LAST_BAR - 1))
        onset = self._at(self._bass_rng, start, 0.003)
        self.soundings.append(Sounding(BASS_CHANNEL, onset, 1.9, midi_number(score.BASS[-1]), 84))
        self._chord(start, 4.2, 76)
        self._hit(start, KICK, 78)
        self._hit(start, CRASH, 80)
        self._hit(start, RIDE, 84)
