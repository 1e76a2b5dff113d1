#!/usr/bin/env python3
"""Prints what python3-mido reads of a Standard MIDI File, one line a note: begin and length in quarters, pitch,
velocity.

Usage: read_midi.py FILE
"""
import sys
from fractions import Fraction

import mido


def main(path):
    song = mido.MidiFile(path)
    at, sounding = 0, {}
    for message in mido.merge_tracks(song.tracks):
        at += message.time
        if message.type == "note_on" and message.velocity > 0:
            sounding[message.note] = (at, message.velocity)
        elif message.type in ("note_off", "note_on"):
            begin, velocity = sounding.pop(message.note)
            quarters = song.ticks_per_beat
            print(Fraction(begin, quarters), Fraction(at - begin, quarters), message.note, velocity)
        elif message.type == "set_tempo":
            print("tempo", message.tempo)
    if sounding or song.tracks[0][-1].type != "end_of_track":
        sys.exit("notes go on, or the track has no end")


if __name__ == "__main__":
    main(sys.argv[1])
