#!/usr/bin/env python3
"""Renders invented lines over invented bands in stereo pictures and on tapes that make them hard to hear.

    render.py OUT_FOLDER --seed N [--count C] [--font FILE.sf2] [--kinds right,wide,...]

Writes KIND-SEED.wav and KIND-SEED.spans.tsv (start_s, end_s, midi). The kinds:
  right    line on the right, band on the left, a tenth of each on the other side
  left     the same the other way round
  centre   line in the centre, comping on both sides, each side another player's
  wide     line on both sides against each other, band in the centre
  dull     everything in the centre, above 2 kHz next to nothing
  boom     everything in the centre, bass 10 dB too loud
  hiss     everything in the centre, noise above 4 kHz as loud as the music
  drift    two minutes alone, pitch drifting by up to 30 cents either way within them
  wow      the same with 10 cents of wow, once in two seconds
  both     drift and wow together
"""
import argparse
import os
import sys

import numpy as np
import soundfile
from scipy import signal

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
import solos  # noqa: E402

RATE = solos.RATE
PLAIN = ["right", "left", "centre", "wide", "dull", "boom", "hiss"]
TAPES = ["drift", "wow", "both"]
LINES = [24, 26, 27, 65, 66, 56]


def parts(r, seconds, font, alone):
    """The notes and, each at level 1 in mono, the line, bass with drums, and two compers."""
    beat = 60 / r.uniform(100, 220)
    number = int(r.choice(LINES))
    low, high = solos.RANGES[number]
    chords = solos.random_chords(r, int(seconds / beat) + 3)
    notes = solos.melody(r, low, high, beat, seconds, chords)
    line = solos.sampled_line(r, notes, solos.velocities(r, notes), r.normal(0, 4, len(notes)), 0, number, font, seconds)
    line = line / solos.level(line[:, None])
    if alone:
        return notes, line, 0, 0, 0
    others = [solos.rhythm(r, chords, beat, 0, seconds, font)]
    others += [solos.comping(r, chords, beat, 0, seconds, font, 60) for _ in (0, 1)]
    return (notes, line, *[x.mean(1) / max(solos.level(x.mean(1)[:, None]), 1e-9) for x in others])


def picture(r, kind, line, rhythm, one, other):
    band = rhythm + 0.6 * one
    line = line * 10 ** (r.uniform(-6, -1) / 20)
    if kind == "right":
        return np.stack([band + .1 * line, line + .1 * band], 1)
    if kind == "left":
        return np.stack([line + .1 * band, band + .1 * line], 1)
    if kind == "centre":
        return np.stack([line + .5 * rhythm + 1.2 * one, line + .5 * rhythm + 1.2 * other], 1)
    if kind == "wide":
        return np.stack([band + line, band - line], 1)
    x = line + band
    if kind == "dull":
        x = signal.sosfilt(signal.butter(4, 2000, fs=RATE, output="sos"), x)
    if kind == "boom":
        x = x + 2.2 * signal.sosfiltfilt(signal.butter(2, 180, fs=RATE, output="sos"), x)
    if kind == "hiss":
        noise = signal.sosfilt(signal.butter(2, 4000, "high", fs=RATE, output="sos"), r.normal(0, 1, len(x)))
        x = x + noise / noise.std() * x.std()
    return x[:, None]


def cents_of(r, kind, t):
    """How far the tape lies above its pitch at each time, and the integral of its speed."""
    slow = 30 * np.sin(2 * np.pi * t / r.uniform(90, 130) + r.uniform(0, 6.28))
    wow = 10 * np.sin(2 * np.pi * .5 * t + r.uniform(0, 6.28))
    return (kind != "wow") * slow + (kind != "drift") * wow


def on_tape(r, kind, line, notes):
    """Played at a speed that wanders; the notes' times go along."""
    t = np.arange(len(line)) / RATE
    place = np.concatenate([[0], np.cumsum(2 ** (cents_of(r, kind, t) / 1200))[:-1]]) / RATE
    moved = notes.copy()
    moved[:, 0] = np.interp(notes[:, 0], place, t)
    moved[:, 1] = np.interp(notes[:, 0] + notes[:, 1], place, t) - moved[:, 0]
    return np.interp(place, t, line)[:, None], moved


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("out")
    options.add_argument("--seed", type=int, required=True)
    options.add_argument("--count", type=int, default=4)
    options.add_argument("--font", default="/usr/share/sounds/sf2/FluidR3_GM.sf2")
    options.add_argument("--kinds", default=",".join(PLAIN))
    o = options.parse_args()
    os.makedirs(o.out, exist_ok=True)
    for kind in o.kinds.split(","):
        for i in range(o.count):
            r = np.random.default_rng([o.seed, i, (PLAIN + TAPES).index(kind)])
            isTape = kind in TAPES
            notes, line, *band = parts(r, 122 if isTape else 14, o.font, isTape)
            x, notes = on_tape(r, kind, line, notes) if isTape else (picture(r, kind, line, *band), notes)
            name = "%s/%s-%02d" % (o.out, kind, i)
            soundfile.write(name + ".wav", .7 * x / np.abs(x).max(), RATE, subtype="PCM_16")
            with open(name + ".spans.tsv", "w", encoding="utf-8") as table:
                table.write("start_s\tend_s\tmidi\n")
                for onset, length, midi in notes[:, :3]:
                    table.write("%.4f\t%.4f\t%d\n" % (onset, onset + length, midi))


if __name__ == "__main__":
    main()
