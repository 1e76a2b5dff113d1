#!/usr/bin/env python3
"""Prints the notes of a MusicXML file as Python's own XML reader finds them, ties joined, one line a note: begin and
length in quarters, pitch (MIDI number), marks. A grace note has the length 0.

Usage: read_musicxml.py FILE
"""
import sys
import xml.etree.ElementTree as xml
from fractions import Fraction

STEPS = dict(C=0, D=2, E=4, F=5, G=7, A=9, B=11)
MARKS = ("trill-mark", "accent", "scoop", "plop", "doit", "falloff", "notehead", "staccato", "tenuto", "turn", "inverted-turn",
         "mordent", "inverted-mordent", "pre-bend", "release")
JOINS = ("slur", "slide", "hammer-on", "pull-off")


def midi(pitch):
    octave, alter = int(pitch.findtext("octave")), int(pitch.findtext("alter", "0"))
    return 12 * (octave + 1) + STEPS[pitch.findtext("step")] + alter


def marks(note):
    found = [element.tag + (":" + element.get("type") if element.tag in JOINS else "") for element in note.iter()
             if element.tag in MARKS + JOINS]
    return " ".join(sorted(found))


def main(path):
    at, last, open_notes, done, divisions = Fraction(0), Fraction(0), {}, [], 1
    for measure in xml.parse(path).getroot().iter("measure"):
        divisions = int(measure.findtext("attributes/divisions", str(divisions)))
        for note in measure.iter("note"):
            length = Fraction(int(note.findtext("duration", "0")), divisions)
            begin = last if note.find("chord") is not None else at
            last, at = begin, begin + length
            if note.find("rest") is not None:
                continue
            pitch = midi(note.find("pitch"))
            ties = {tie.get("type") for tie in note.findall("tie")}
            entry = open_notes.pop(pitch) if "stop" in ties else [begin, Fraction(0), pitch, ""]
            entry[1] += length
            entry[3] = " ".join(filter(None, [entry[3], marks(note)]))
            (open_notes.__setitem__(pitch, entry) if "start" in ties else done.append(entry))
    if open_notes:
        sys.exit("ties lead nowhere")
    for entry in sorted(done, key=lambda entry: entry[:3]):
        print(*entry)


if __name__ == "__main__":
    main(sys.argv[1])
