#!/usr/bin/env python3
"""Renders invented jazz and other rhythm sections whose beats are known, with fluidsynth and a General MIDI font.

    render.py OUT_FOLDER --seed N [--font FILE.sf2] [--styles swing,...] [--tempos 100,140,...]

Writes NAME.wav and NAME.beats.tsv (time_s, bar_position) for each style and tempo. Tempo wanders by up to 3 per cent
(a slow sine and a slow walk), players are some milliseconds early or late. Nothing here is taken from a record.
"""
import argparse
import math
import os
import random
import subprocess
import sys

import mido

RIDE, HAT_FOOT, HAT, KICK, SNARE, STICK = 51, 44, 42, 36, 38, 37
TICKS = 480
SECONDS = 24
BLUES = [(10, 0), (3, 0), (10, 0), (10, 0), (3, 0), (3, 0), (10, 0), (7, 1), (0, 1), (5, 0), (10, 0), (5, 0)]


def beat_times(bpm, rng):
    """Beats over SECONDS, the tempo drifting by at most 3 per cent."""
    times, t, walk = [], 0.6, 0.0
    phase, period = rng.uniform(0, 6.28), rng.uniform(12, 30)
    while t < SECONDS:
        times.append(t)
        walk = max(-0.012, min(0.012, walk + rng.gauss(0, 0.002)))
        drift = 0.018 * math.sin(phase + 6.28 * t / period) + walk
        t += 60.0 / (bpm * (1 + drift))
    return times


def swing_ratio(bpm, rng):
    """After Friberg and Sundstroem (2002): about 3.5:1 slow to 1:1 fast, the short eighth near 100 ms."""
    beat = 60.0 / bpm
    short = min(0.5 * beat, max(0.1, 0.22 * beat)) + rng.gauss(0, 0.006)
    return 1 - short / beat  # place of the second eighth in the beat


class Song:
    def __init__(self, beats, rng):
        self.beats, self.rng, self.events = beats, rng, []

    def at(self, place):
        index = int(math.floor(place))
        if index + 1 >= len(self.beats):
            return None
        return self.beats[index] + (place - index) * (self.beats[index + 1] - self.beats[index])

    def note(self, channel, key, place, length, velocity, late=0.0, spread=0.006):
        start = self.at(place)
        if start is None:
            return
        start = max(0, start + late + self.rng.gauss(0, spread))
        velocity = max(1, min(127, int(self.rng.gauss(velocity, 6))))
        self.events.append((start, start + length, channel, key, velocity))


def chord_of(bar):
    return BLUES[bar % 12]


def bass_line(song, beats_per_bar, walking):
    key = 36 + 10
    for beat in range(len(song.beats) - 1):
        root, minor = chord_of(beat // beats_per_bar)
        within = beat % beats_per_bar
        if walking:
            tones = [0, 3 if minor else 4, 7, 9, 10]
            wanted = 34 + root if within == 0 else key + song.rng.choice([-2, -1, 1, 2, 3, -3])
            if within == 2:
                wanted = 34 + root + song.rng.choice(tones)
            key = max(30, min(50, wanted))
            song.note(1, key, beat, 0.8 * (song.beats[beat + 1] - song.beats[beat]), 88, -0.004, 0.008)
        elif within in (0, 2):
            song.note(1, 34 + root + (7 if within == 2 else 0), beat, 0.5, 88)
            if song.rng.random() < 0.4:
                song.note(1, 34 + root + 7, beat + 0.5 + 0.5 * (within == 0), 0.2, 76)


def comping(song, second, beats_per_bar):
    for bar in range(len(song.beats) // beats_per_bar):
        root, minor = chord_of(bar)
        keys = [58 + root % 12 - 12 * (root > 6) + step for step in ((3 if minor else 4), 10, 14)]
        for place in song.rng.choice([(0, 1 + second), (second, 2 + second), (1 + second,), (0, 2), (3 + second,)]):
            for key in keys:
                song.note(2, key, bar * beats_per_bar + place, 0.18, 62, 0.004, 0.01)


def solo(song, second):
    """Eighths and rests, late by some 30 ms as soloists are (Weimar Jazz Database studies)."""
    key, place = 67, 0.0
    while place < len(song.beats) - 2:
        run = song.rng.randint(4, 14)
        for _ in range(run):
            key = max(55, min(82, key + song.rng.choice([-3, -2, -1, 1, 2, 3, 4])))
            frac = place - math.floor(place)
            played = math.floor(place) + (second if frac else 0)
            song.note(3, key, played, 0.2, 92 + 10 * (frac > 0), 0.03, 0.014)
            place += 0.5 if song.rng.random() < 0.85 else 1.0
        place = math.floor(place) + song.rng.choice([1, 2, 3])


def swing_drums(song, second, feathered):
    for beat in range(len(song.beats) - 1):
        song.note(9, RIDE, beat, 0.2, 84 + 12 * (beat % 2))
        if beat % 2 and song.rng.random() < 0.85:
            song.note(9, RIDE, beat + second, 0.2, 66)
            song.note(9, HAT_FOOT, beat, 0.1, 70)
        elif beat % 2:
            song.note(9, HAT_FOOT, beat, 0.1, 70)
        if feathered:
            song.note(9, KICK, beat, 0.1, 34)
        if song.rng.random() < 0.22:
            song.note(9, SNARE, beat + second, 0.1, 60)


def straight_drums(song):
    for beat in range(len(song.beats) - 1):
        song.note(9, HAT, beat, 0.1, 78)
        song.note(9, HAT, beat + 0.5, 0.1, 60)
        song.note(9, KICK if beat % 2 == 0 else SNARE, beat, 0.1, 92)


def bossa_drums(song):
    clave = [0, 1.5, 3, 5, 6.5]
    for beat in range(len(song.beats) - 1):
        for half in (0, 0.5):
            song.note(9, HAT, beat + half, 0.1, 58)
        if beat % 2 == 0:
            song.note(9, KICK, beat, 0.1, 70)
        song.note(9, KICK, beat + 0.5 + 0.5 * (beat % 2 == 0), 0.1, 50)
        for stick in clave:
            if int(stick) == beat % 8:
                song.note(9, STICK, beat + stick % 1, 0.1, 84)


def song_of(style, bpm, rng):
    beats = beat_times(bpm, rng)
    song = Song(beats, rng)
    per_bar = 3 if style == "waltz" else 4
    second = swing_ratio(bpm, rng) if style in ("swing", "trio", "shuffle", "waltz", "ballad") else 0.5
    if style in ("swing", "trio"):
        swing_drums(song, second, rng.random() < 0.5)
        bass_line(song, per_bar, True)
    elif style == "shuffle":
        for beat in range(len(beats) - 1):
            song.note(9, RIDE, beat, 0.2, 80)
            song.note(9, RIDE, beat + 2 / 3, 0.2, 66)
            song.note(9, SNARE if beat % 2 else KICK, beat, 0.1, 92)
        bass_line(song, per_bar, True)
    elif style == "waltz":
        for beat in range(len(beats) - 1):
            song.note(9, RIDE, beat, 0.2, 84)
            if beat % 3 == 1:
                song.note(9, RIDE, beat + second, 0.2, 64)
            if beat % 3:
                song.note(9, HAT_FOOT, beat, 0.1, 62)
        bass_line(song, per_bar, False)
    elif style == "ballad":
        for beat in range(len(beats) - 1):
            if beat % 2:
                song.note(9, HAT_FOOT, beat, 0.1, 56)
        bass_line(song, per_bar, False)
    elif style == "bossa":
        bossa_drums(song)
        bass_line(song, per_bar, False)
    elif style == "straight":
        straight_drums(song)
        bass_line(song, per_bar, False)
    if style not in ("trio", "alone"):
        comping(song, second, per_bar)
    solo(song, second)
    return song, per_bar


def write(song, per_bar, name, folder, font, programs):
    path = os.path.join(folder, name)
    track = mido.MidiTrack()
    midi = mido.MidiFile(ticks_per_beat=TICKS)
    midi.tracks.append(track)
    track.append(mido.MetaMessage("set_tempo", tempo=500000))
    messages = []
    for channel, program in programs.items():
        track.append(mido.Message("program_change", channel=channel, program=program))
    for start, end, channel, key, velocity in song.events:
        messages.append((start, 1, mido.Message("note_on", channel=channel, note=key, velocity=velocity)))
        messages.append((end, 0, mido.Message("note_off", channel=channel, note=key)))
    at = 0
    for seconds, _, message in sorted(messages, key=lambda one: one[:2]):
        ticks = round(seconds * 2 * TICKS)
        track.append(message.copy(time=ticks - at))
        at = ticks
    midi.save(path + ".mid")
    subprocess.run(["fluidsynth", "-ni", "-g", "0.5", "-r", "44100", "-F", path + ".wav", font, path + ".mid"],
                   check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    os.remove(path + ".mid")
    with open(path + ".beats.tsv", "w", encoding="utf-8") as table:
        table.write("time_s\tbar_position\n")
        for index, time in enumerate(song.beats[:-1]):
            table.write(f"{time:.4f}\t{index % per_bar + 1}\n")


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("folder")
    options.add_argument("--seed", type=int, required=True)
    options.add_argument("--font", default="/usr/share/sounds/sf2/FluidR3_GM.sf2")
    options.add_argument("--styles", default="swing,trio,shuffle,straight,bossa,ballad,waltz,alone")
    options.add_argument("--tempos", default="100,130,160,200,230,260")
    chosen = options.parse_args()
    os.makedirs(chosen.folder, exist_ok=True)
    for style in chosen.styles.split(","):
        for tempo in map(float, chosen.tempos.split(",")):
            bpm = tempo / 1.8 if style == "ballad" else tempo
            rng = random.Random(f"{chosen.seed}/{style}/{tempo}")
            bpm *= rng.uniform(0.96, 1.04)
            song, per_bar = song_of(style, bpm, rng)
            programs = {1: 32, 2: rng.choice([0, 4, 26]), 3: rng.choice([65, 66, 56, 26])}
            write(song, per_bar, f"{style}-{tempo:g}-{chosen.seed}", chosen.folder, chosen.font, programs)
    return 0


if __name__ == "__main__":
    sys.exit(main())
