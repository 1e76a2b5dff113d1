"""What the players hand to the MIDI file: sounding notes and bends of pitch, in seconds."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Sounding:
    channel: int
    onset: float
    duration: float
    midi: int
    velocity: int


@dataclass(frozen=True)
class Bend:
    channel: int
    at: float
    semitones: float
