"""The tune's time: a tempo for each bar that drifts as a band does, exact between beats, seconds and MIDI ticks."""

import math
from fractions import Fraction

from tune import score

TICKS_PER_BEAT = 960
LEAD_IN_BEATS = 2  # two beats of drums before bar 1


class Clock:
    """Beats count from the start of bar 1; seconds from the start of the recording."""

    def __init__(self, rng):
        self._bar_starts = []  # (beat, seconds, microseconds per beat), in order
        beat, seconds = Fraction(-LEAD_IN_BEATS), 0.0
        drift = 0.0
        for bar in range(0, score.LAST_BAR + 2):
            if bar > 1:
                drift = 0.75 * drift + rng.uniform(-0.009, 0.009)
            bpm = round(self._plan(bar) * (1 + drift), 2)
            per_beat = round(60e6 / bpm)
            self._bar_starts.append((beat, seconds, per_beat))
            beats = LEAD_IN_BEATS if bar == 0 else 4
            beat += beats
            seconds += beats * per_beat / 1e6

    @staticmethod
    def _plan(bar):
        """The band starts at 136 beats a minute, settles, pushes in the last chorus and broadens at the end."""
        if bar >= score.LAST_BAR - 1:
            return 133 if bar == score.LAST_BAR - 1 else 122
        return 136 + 5 * bar / score.LAST_BAR + 1.2 * math.sin(bar / 4.5)

    def tempo_changes(self):
        """(tick, microseconds per beat) of each bar."""
        return [(self._tick_of_beat(beat), per_beat) for beat, _, per_beat in self._bar_starts]

    def bar_seconds(self, bar):
        return self._bar_starts[bar][1]

    def bar_bpm(self, bar):
        return 60e6 / self._bar_starts[bar][2]

    def seconds(self, beat):
        start = next(start for start in reversed(self._bar_starts) if start[0] <= beat or start is self._bar_starts[0])
        return start[1] + float(beat - start[0]) * start[2] / 1e6

    def tick(self, seconds):
        start = next(
            start for start in reversed(self._bar_starts) if start[1] <= seconds or start is self._bar_starts[0]
        )
        beats = (seconds - start[1]) * 1e6 / start[2]
        return max(0, self._tick_of_beat(start[0]) + round(beats * TICKS_PER_BEAT))

    @staticmethod
    def _tick_of_beat(beat):
        return int((beat + LEAD_IN_BEATS) * TICKS_PER_BEAT)
