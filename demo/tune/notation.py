"""Reads the shorthand in which the score is written: pitches, places in the bar, notes with their phrasing."""

from dataclasses import dataclass, replace
from fractions import Fraction

STEPS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
SWUNG_UPBEAT = Fraction(2, 3)


@dataclass(frozen=True)
class Note:
    """A note as written: `beat` counts quarter notes from the start of bar 1, `length` in quarter notes."""

    beat: Fraction
    length: Fraction
    name: str
    swung: bool = False
    slurred: bool = False  # reached from the note before it without picking
    ghost: bool = False
    accent: bool = False
    short: bool = False
    slide_in: int = 0  # semitones from below (positive) or above (negative)
    slide_out: int = 0
    grace: str = ""
    trill: str = ""

    @property
    def midi(self):
        return midi_number(self.name)

    @property
    def bar(self):
        return int(self.beat // 4) + 1

    @property
    def beat_in_bar(self):
        """Beats count from 1, as a musician says them."""
        return self.beat % 4 + 1

    def articulation(self):
        """The phrasing as words for the tables: `slide_in:2,accent`, or `-` for a plainly picked note."""
        words = [word for word in ("ghost", "accent", "short") if getattr(self, word)]
        words += ["slur"] if self.slurred else []
        for word in ("slide_in", "slide_out", "grace", "trill"):
            value = getattr(self, word)
            if value:
                words.append(f"{word}:{value}")
        return ",".join(words) or "-"


def midi_number(name):
    """MIDI number of a name such as `Bb4`; C4 is 60."""
    alter = name.count("b", 1) * -1 + name.count("#")
    return 12 * (int(name[-1]) + 1) + STEPS[name[0]] + alter


def read_place(text):
    """Place in the bar: `3` is the third beat, `3&` its swung upbeat, `3+1/4` an exact division."""
    if text.endswith("&"):
        return int(text[:-1]) - 1 + SWUNG_UPBEAT, True
    beat, _, division = text.partition("+")
    return int(beat) - 1 + Fraction(division or 0), False


def default_length(place, swung):
    """A swung beat is written as two thirds and one third; other divisions say their length."""
    if swung:
        return Fraction(1, 3)
    if place.denominator != 1:
        return Fraction(1, place.denominator)
    return SWUNG_UPBEAT


def read_note(text, bar):
    """One note: place, pitch, then a length and words of phrasing in any order."""
    place_text, name, *words = text.split()
    place, swung = read_place(place_text)
    note = Note(4 * (bar - 1) + place, default_length(place, swung), name, swung)
    for word in words:
        if word[0].isdigit():
            note = replace(note, length=Fraction(word))
        elif word == "slur":
            note = replace(note, slurred=True)
        elif ":" in word:
            key, value = word.split(":")
            note = replace(note, **{key: int(value) if key.startswith("slide") else value})
        else:
            note = replace(note, **{word: True})
    return note


def read_line(bars, first_bar):
    """Notes of consecutive bars, each a text of notes parted by `;`."""
    notes = []
    for index, text in enumerate(bars):
        notes += [read_note(part, first_bar + index) for part in text.split(";") if part.strip()]
    for left, right in zip(notes, notes[1:]):
        if left.beat + left.length > right.beat:
            raise ValueError(f"bar {left.bar}: {left.name} runs into {right.name}")
    return notes
