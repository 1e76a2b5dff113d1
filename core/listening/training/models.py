"""Lines on physical models (models.cpp), each in tune by a table measured here on single notes: the models do not speak
at the pitch they are asked for, and some not at all at some pitches.
"""
import functools
import os
import subprocess

import numpy as np

RATE = 44100
PLAYER = os.environ.get("MODELS", "./models")           # models.cpp, compiled
NAMES = {1003: "string", 1004: "sitar", 1005: "metal", 1006: "saxofony", 1007: "blowhole", 1008: "brass", 1009: "bowed",
         1010: "sung"}
RANGES = {1003: (40, 86), 1004: (45, 82), 1005: (40, 84), 1006: (45, 82), 1007: (46, 83), 1008: (68, 90), 1009: (42, 76),
          1010: (43, 82)}
STRUCK = {1003, 1004, 1005}


def played(name, notes, seconds):
    rows = "".join(" ".join("%.6g" % v for v in n) + "\n" for n in notes)
    out = subprocess.run([PLAYER], input=("%s %.9g\n%s" % (name, seconds, rows)).encode(), stdout=subprocess.PIPE, check=True)
    line = np.zeros(int(seconds * RATE))
    heard = np.frombuffer(out.stdout, np.float32)[:len(line)]
    line[:len(heard)] = heard
    return line


def sounding(x, hertz):
    """The frequency near `hertz` at which a tone repeats, and how clearly it does and twice as often does not."""
    x = x - x.mean()
    r = np.fft.irfft(np.abs(np.fft.rfft(x, 2 * len(x))) ** 2)[:len(x) // 2]
    r = r / (r[0] + 1e-12) / (1 - np.arange(len(r)) / len(x))
    a, b = int(RATE / hertz / 1.4), min(int(RATE / hertz * 1.4) + 2, len(r) - 1)
    k = a + int(r[a:b].argmax())
    if k <= 1 or k >= len(r) - 1:
        return hertz, 0
    between = .5 * (r[k - 1] - r[k + 1]) / (r[k - 1] - 2 * r[k] + r[k + 1] + 1e-12)
    return RATE / (k + between), r[k] - max(0, r[round(k / 2)] - .1)


@functools.cache
def factors(number):
    """By MIDI number what to multiply a frequency with; only pitches at which the model speaks."""
    pitches = np.arange(*RANGES[number])
    hertz, factor, clear = 440 * 2 ** ((pitches - 69) / 12), np.ones(len(pitches)), np.zeros(len(pitches))
    for _ in range(5):
        x = played(NAMES[number], [(.1 + .6 * i, .45, f * k, .8, 1, 0, .09, 5, 0, 0, 0, .4, .02)
                                   for i, (f, k) in enumerate(zip(hertz, factor))], .6 * len(pitches) + .5)
        for i, f in enumerate(hertz):
            heard, clear[i] = sounding(x[int((.14 + .6 * i) * RATE):int((.4 + .6 * i) * RATE)], f)
            factor[i] *= np.clip(f / heard, .9, 1.1) if clear[i] > .25 else 1
            clear[i] *= abs(np.log2(max(heard, 1) / f)) < .005
    return {int(m): k for m, k, c in zip(pitches, factor, clear) if c > .25}


def nearest_speaking(number, pitches):
    able = np.array(list(factors(number)))
    return able[np.abs(able[None] - np.asarray(pitches)[:, None]).argmin(1)]


def line(r, number, notes, velocity, off, cents, seconds):
    struck, colour, noise = number in STRUCK, r.uniform(0, 1), r.uniform(0, 1) ** 2
    ringing = r.choice([0, 0, .3, .8]) if struck else 0     # the share of the notes that sound on under what follows
    swaying, growling, sliding = r.uniform(10, 50 if number == 1010 else 30), r.random() < .3, r.uniform(.05, .4)
    damped, rows = r.uniform(.015, .12), []
    for (on, d, m), v, o in zip(notes, velocity, off):
        slides = d > .12 and r.random() < sliding * (.4 if struck else 1)
        sways = d > .25 and r.random() < (.15 if struck else .8)
        rows.append((on, d, 440 * 2 ** ((m - 69 + (cents + o) / 100) / 12) * factors(number)[int(m)],
                     np.clip(.3 + .6 * v / 110, .3, .95), (v / 100) ** 1.5,
                     r.uniform(40, 200 if r.random() < .3 else 110) * slides, r.uniform(.05, .12),
                     r.uniform(4.3, 6.5), swaying * sways, r.uniform(.3, 1) * (growling and not struck and r.random() < .3),
                     np.clip(noise + r.normal(0, .1), 0, 1), np.clip(colour + r.normal(0, .1), 0, 1),
                     r.uniform(.15, 1.2) if r.random() < ringing else damped))
    return played(NAMES[number], rows, seconds)
