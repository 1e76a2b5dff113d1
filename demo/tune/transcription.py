"""How far the demo study has got: the first chorus written by ear, with the honest mistakes that are left to find."""

from dataclasses import dataclass, replace
from fractions import Fraction

from tune import score
from tune.notation import SWUNG_UPBEAT, Note, read_note

LAST_WRITTEN_BAR = score.FIRST_CHORUS_BAR + score.CHORUS_BARS - 1


@dataclass(frozen=True)
class Mistake:
    """`heard` is the note as played (none for an extra one), `written` as the study has it (none for a missing one)."""

    kind: str
    heard: Note | None
    written: Note | None


# (kind, bar, place in the bar, what is written there instead)
PLANTED = [
    ("wrong_pitch", 8, "3", "3 A4"),
    ("octave", 11, "2", "2 G3 1"),
    ("wrong_pitch", 12, "2", "2 F5"),
    ("missing", 13, "2&", None),
    ("moved", 14, "3+2/3", "4 C5"),
    ("moved", 14, "4+1/3", "4& A4"),
    ("extra", 15, "2&", "2& F4"),  # no pitch of the voicing that the piano strikes there
]


def transcribed(line):
    """The notes of the study and the mistakes among them, from the line as it was played."""
    notes = [note for note in line if note.bar <= LAST_WRITTEN_BAR]
    mistakes = []
    for kind, bar, place, text in PLANTED:
        beat = read_note(f"{place} C4", bar).beat
        heard = next((note for note in notes if note.beat == beat), None)
        if (heard is None) != (kind == "extra"):
            raise ValueError(f"bar {bar}, {place}: nothing to plant the mistake '{kind}' on")
        written = read_note(text, bar) if text else None
        if heard and written:
            written = replace(heard, beat=written.beat, length=written.length, name=written.name)
        notes = [note for note in notes if note is not heard] + ([written] if written else [])
        mistakes.append(Mistake(kind, heard, written))
    notes.sort(key=lambda note: (note.beat, note.midi))
    return [_cut_at_next(note, after) for note, after in zip(notes, notes[1:] + [None])], mistakes


def _cut_at_next(note, after):
    """A line has one note at a time."""
    if after and note.beat + note.length > after.beat:
        return replace(note, length=after.beat - note.beat)
    return note


# (name, bar, place, bar, place): from the first note to the place where the next phrase may begin.
PHRASES = [
    ("a", 4, "4", 6, "3+1/2"),
    ("a, lifted", 6, "4", 9, "1"),
    ("b", 9, "1", 11, "3"),
    ("c", 11, "3&", 14, "2+1/2"),
    ("c, closing", 14, "3", 17, "1"),
    ("d", 17, "2", 21, "1"),
    ("e", 21, "1", 23, "1"),
    ("f, double time", 23, "1", 27, "2+1/2"),
    ("f, closing", 27, "3", 28, "3"),
    ("g", 28, "3&", 29, "4"),
    ("g, answered", 29, "4", 30, "4"),
    ("h", 30, "4", 32, "2+1/3"),
    ("i, down low", 32, "2&", 34, "1"),
    ("j, up to the top", 34, "1", 37, "1"),
    ("k", 37, "1", 39, "1"),
    ("a, again", 39, "1", 40, "3"),
    ("a, to end", 40, "4", 44, "1"),
]

# (name, first bar, bar after the last)
SECTIONS = [
    ("intro", 1, score.FIRST_CHORUS_BAR),
    ("tag", score.TAG_BAR, score.LAST_BAR + 1),
]

# (bar, place, text)
LOOSE_ENDS = [
    (9, "3", "trill: a half step or a whole one?"),
    (25, "3", "double time, start here next"),
]

# The first note of a swung pair lasts so many times the second: what the desk measures, and says, of the line.
SWING_RATIO = 1.7

LOOP_BARS = (25, 27)
LOOP_SPEED = 0.5


def choruses():
    """(name, first bar, bar after the last)"""
    for index in range(score.CHORUSES):
        first = score.FIRST_CHORUS_BAR + index * score.CHORUS_BARS
        yield f"chorus {index + 1}", first, first + score.CHORUS_BARS


def place(bar, text):
    """Beats from bar 1 of a place such as (6, "3+1/2")."""
    return read_note(f"{text} C4", bar).beat


def fourths(line):
    """Beats of double time, as whole beats."""
    return {int(note.beat // 1) for note in line if note.beat % 1 in (Fraction(1, 4), Fraction(3, 4))}


def triplets(line):
    """Beats with real triplets, as whole beats: those that a swung eighth does not explain."""
    thirds = {int(note.beat // 1) for note in line if note.beat % 1 == Fraction(1, 3)}
    plain = {int(note.beat // 1) for note in line if note.beat % 1 == SWUNG_UPBEAT and not note.swung}
    return thirds | plain


def divisions(line):
    """Swung beats are written as even eighths: {whole beat: 2, 3 or 4}, for every beat of the band."""
    beats = range(4 * (score.INTRO_BARS - 1), 4 * score.LAST_BAR)
    return {beat: 4 if beat in fourths(line) else 3 if beat in triplets(line) else 2 for beat in beats}


def swings(line):
    """[(beat, ratio)]: the line swings as it was heard to, and its double time is even."""
    changes = [(0, SWING_RATIO)]
    for beat in sorted(fourths(line)):
        if changes[-1] == (beat, SWING_RATIO):
            changes.pop()
        else:
            changes.append((beat, 1.0))
        changes.append((beat + 1, SWING_RATIO))
    return changes
