"""Makes solos that never were, over bands that never were, for training: random lines with human timing, ghosted
and accented notes, scoops and vibrato, on sampled and synthesised instruments, alone or over bass, drums and
comping, mistuned, hard-panned, dull, noisy.

  solos.py OUT --font FONT [--bands FONT,FONT…] --count N --seed S [--kind KIND]

Kinds: plain, hoarse, growled, low; single (notes one by one) close (the same, the one before hardly gone) and bare
(tones of one to four partials); modelled (physical models), quick (runs of notes of 17 to 60 ms over what still sounds)
and sung (off pitch by 10 to 25 cents and with vibrato of up to 90, as singers are), these three with more kinds of
comping and more worn; and soft (long notes that swell in over up to 200 ms and waver). Writes OUT/0000.flac, .tsv
(onset, length, MIDI number, velocity) and .json for each solo. Needs fluidsynth, and models.cpp compiled as ./models or
$MODELS.
"""
import argparse
import json
import os
import subprocess
import tempfile

import numpy as np
import soundfile
from scipy import signal

import models
from midi import bend, note, program, tuned, write_midi

RATE = 44100
PLUCKED, FORMANT, PARTIALS = 1000, 1001, 1002          # our own sources, beside General MIDI's programs
RANGES = {24: (40, 83), 25: (40, 83), 26: (40, 86), 27: (40, 86), 28: (40, 84), 29: (42, 86), 64: (56, 86),
          65: (49, 82), 66: (44, 77), 67: (38, 70), 56: (52, 84), 59: (54, 84), 57: (40, 70), 71: (50, 86),
          73: (60, 93), 40: (55, 92), 22: (55, 86), 11: (53, 86), 0: (45, 88), 53: (45, 80),
          PLUCKED: (40, 84), FORMANT: (40, 86), PARTIALS: (42, 84)}
BLOWN = {64, 65, 66, 67, 56, 59, 57, 71, 73, 40, 22, 53, FORMANT, PARTIALS}
WEIGHTS = {
    "plain": {**dict.fromkeys(RANGES, 1), 24: 3, 25: 3, 26: 4, 27: 3, 28: 1.5, 64: 2, 65: 4, 66: 4, 67: 1.5, 56: 4,
              57: 1.5, PLUCKED: 4, FORMANT: 4, PARTIALS: 4},
    "hoarse": {66: 4, 65: 4, 64: 3, 67: 2, 56: 2, 57: 1, FORMANT: 3, PARTIALS: 3, 26: 1, 27: 1, 24: 1, PLUCKED: 1},
    "growled": {66: 6, 65: 4, 64: 2, 67: 2, 56: 1, FORMANT: 2, PARTIALS: 2, 26: 1, 24: 1},
    "single": dict.fromkeys([24, 25, 26, 27, 28, 64, 65, 66, 67, 56, 57, 71, 73, 0, PLUCKED, FORMANT, PARTIALS], 1),
    "low": {24: 2, 25: 4, 26: 2, 27: 3, 28: 1, 0: 1.5, PLUCKED: 3, 67: 1, 57: 1},
    "modelled": {1003: 4, 1004: 1, 1005: 1.5, 1006: 3, 1007: 1.5, 1008: 1.5, 1009: 1.5, 1010: 4},
    "quick": {24: 1, 25: 1.5, 26: 1.5, 27: 1.5, 65: 1, 66: 1, 56: .7, PLUCKED: 2, FORMANT: .7, 1003: 4, 1004: 1, 1005: .7,
              1006: 1, 1007: .7, 1010: 1},
    "soft": {64: 1, 65: 1, 66: 1, 56: 1, 57: 1, 71: 1.5, 73: 1.5, 40: 2, 22: 1, 26: 1, 27: 1, 29: 1.5, 53: 1, FORMANT: 3,
             PARTIALS: 3, 1006: 1, 1007: 1, 1009: 1, 1010: 2},
    "sung": {FORMANT: 5, 1010: 5, 53: 1, 1006: 1, 66: 1, 65: 1, 57: 1, 40: 1},
}
WIDER = {"modelled", "quick", "sung"}
SCALES = [(0, 2, 3, 5, 7, 9, 10), (0, 2, 4, 5, 7, 9, 10), (0, 2, 4, 5, 7, 9, 11), (0, 3, 5, 6, 7, 10),
          (0, 2, 4, 7, 9), (0, 2, 3, 5, 7, 8, 11)]
CHORDS = [(0, 4, 7, 11), (0, 4, 10, 7), (0, 3, 7, 10), (0, 3, 6, 10), (0, 4, 7, 9), (0, 3, 6, 9)]
INTERVALS = {1: .27, 2: .32, 3: .14, 4: .09, 5: .06, 7: .03, 8: .015, 9: .01, 12: .01, 0: .055}


def render(events, seconds, font):
    with tempfile.TemporaryDirectory() as folder:
        write_midi(folder + "/a.mid", events)
        subprocess.run(["fluidsynth", "-ni", "-q", "-R", "0", "-C", "0", "-g", "0.5", "-r", str(RATE), "-O", "float",
                        "-T", "wav", "-F", folder + "/a.wav", font, folder + "/a.mid"],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        x, _ = soundfile.read(folder + "/a.wav", always_2d=True)
    y = np.zeros((int(seconds * RATE), 2))
    y[:len(x)] = x[:len(y), :2]
    return y


# ------------------------------------------------------------------ the music
def random_chords(r, beats):
    chords, root, quality = [], int(r.integers(12)), CHORDS[0]
    for beat in range(beats):
        if beat % 2 == 0 or r.random() < .3:
            root = (root + int(r.choice([5, 5, 5, 7, 2, 11, 0, 0, 3]))) % 12
            quality = CHORDS[r.integers(len(CHORDS))]
        chords.append((root, quality, set(quality) | set(SCALES[r.integers(len(SCALES))])))
    return chords


def beat_pattern(r, swing, dense, beat):
    u = r.random()
    if u < .5:
        return [(0, swing), (swing, 1)]
    if u < .6:
        return [(0, 1 / 3), (1 / 3, 2 / 3), (2 / 3, 1)]
    if u < .6 + .14 * dense and beat > .33:
        return [(0, .25), (.25, .5), (.5, .75), (.75, 1)]
    return [(0, 1)] if u < .78 else [(swing, 1)] if u < .84 else [] if u < .9 else [(0, 2)]


def next_pitch(r, pitch, chord, low, high):
    interval = int(r.choice(list(INTERVALS), p=list(INTERVALS.values())))
    up = r.random() < .5 - .035 * (pitch - (low + high) / 2) / 4
    following = pitch + interval * (1 if up else -1)
    if interval and (following - chord[0]) % 12 not in chord[2] and r.random() < .65:
        following += int(r.choice([-1, 1]))
    return int(np.clip(following, low, high))


def run_up(r, on, pitch, step):
    """Notes of 17 to 60 ms that lead to one at `on`."""
    count, apart = int(r.integers(2, 8)), r.uniform(.017, .06)
    return [[on - k * apart * r.uniform(.95, 1.05), apart, pitch - k * step + int(r.choice([-1, 0, 0, 0, 1]))]
            for k in range(count, 0, -1)]


def melody(r, low, high, beat, seconds, chords, runs=0):
    """Rows of onset, length and pitch of a one-voice line; `runs` is the share of the notes that a quick run leads to."""
    apart, shortest = (.015, .015) if runs else (.045, .04)
    swing, late, dense, legato = r.uniform(.5, .69), r.uniform(-.005, .03), r.random(), r.uniform(.75, 1.02)
    at, count, pitch, rows = .4 + r.uniform(0, .4), 0, int(r.integers(low + 5, high - 4)), []
    while at < seconds - 1.2:
        pattern = beat_pattern(r, swing, dense, beat)
        chord = chords[min(count // 2, len(chords) - 1)]
        for a, b in pattern:
            pitch = next_pitch(r, pitch, chord, low, high)
            on, length = at + a * beat + r.normal(late, .012), (b - a) * beat * legato * np.exp(r.normal(0, .12))
            if r.random() < .05 and (b - a) * beat > .15:
                rows.append([on - .055, .055, pitch + int(r.choice([-2, -1, 1]))])
            rows.append([on, length * (.5 if r.random() < .05 else 1), pitch])
            if runs and r.random() < runs:
                rows += run_up(r, on, pitch, int(r.choice([-4, -3, -2, -2, -1, -1, 1, 1, 2, 2, 3, 4])))
        beats = 2 if pattern and pattern[-1][1] == 2 else 1
        at, count = at + beats * beat, count + beats
    kept = []
    for row in sorted(rows):
        if row[0] > .1 and (not kept or row[0] - kept[-1][0] >= apart):
            kept.append(row)
    for row, following in zip(kept, kept[1:]):
        row[1] = min(row[1], following[0] - row[0])
    return np.array([[on, max(shortest, d), np.clip(m, low, high)] for on, d, m in kept])


def velocities(r, notes):
    n = len(notes)
    v = 84 + 12 * np.sin(np.cumsum(r.normal(.25, .2, n))) + r.normal(0, 7, n)
    accented = r.random(n) < .15
    v[accented] += 18
    ghosted = (r.random(n) < .12) & ~accented & (notes[:, 1] < .4)
    v[ghosted] = r.uniform(26, 50, ghosted.sum())
    return np.clip(v, 20, 124)


# ------------------------------------------------------------------ the line's sound
def sampled_line(r, notes, velocity, off, cents, number, font, seconds, longest_tail=.12):
    """Even and odd notes are rendered apart and faded at their ends: a one-voice player stops one note with the next."""
    blown, fade = number in BLOWN, .5 + .5 * np.cos(np.linspace(0, np.pi, int(r.uniform(.02, longest_tail) * RATE)))
    line = 0
    for parity in (0, 1):
        events, gate = program(0, number) + tuned(0, cents), np.zeros(int(seconds * RATE))
        for (on, d, m), v, o in list(zip(notes, velocity, off))[parity::2]:
            if (blown and d > .14 and r.random() < .2) or (not blown and d > .2 and r.random() < .1):
                depth = r.uniform(40, 110)
                events += [bend(0, on + k * .012, o - depth * (1 - k / 7)) for k in range(8)]
            else:
                events.append(bend(0, on - .002, o))
            if d > .35 and (blown or r.random() < .3):
                speed, depth = r.uniform(4.3, 6.3), r.uniform(8, 32)
                events += [bend(0, on + q, o + depth * min(1, (q - .15) / .2) * np.sin(2 * np.pi * speed * q))
                           for q in np.arange(.15, d, .02)]
            events += note(0, m, on, d, v)
            a, b = int((on - .003) * RATE), int((on + d) * RATE)
            gate[a:b] = 1
            tail = gate[b:b + len(fade)]
            tail[:] = np.maximum(tail, fade[:len(tail)])
        line = line + render(events, seconds, font) * gate[:, None]
    return line.mean(1)


class Voice:
    """A source of our own with a random colour."""

    def __init__(self, r, kind, vibrato=35):
        self.r, self.kind, self.vibrato = r, kind, vibrato
        self.tilt, self.attack, self.breath = r.uniform(.4, 1.6), r.uniform(.008, .05), r.uniform(0, .05)
        self.formants = list(zip(r.uniform(300, 2600, 3), r.uniform(120, 500, 3), r.uniform(0, 2.5, 3)))
        self.colour = np.exp(r.normal(0, .6, 24))
        self.colour[0] *= np.exp(r.uniform(-1.5, .4))
        self.even = r.uniform(.15, 1) if r.random() < .3 else 1
        self.bright, self.pluck, self.decay = r.uniform(.3, .9), r.uniform(.1, .4), r.uniform(.6, 3)
        self.stiffness = r.uniform(0, 4e-4)

    def plucked(self, f, t, v):
        s = np.zeros(len(t))
        for h in range(1, 40):
            partial = h * f * np.sqrt(1 + self.stiffness * h * h)
            if partial > 9000:
                break
            level = abs(np.sin(np.pi * h * self.pluck)) / h ** (.6 + .8 * (1 - v / 127) + .4 * self.bright)
            s += level * np.exp(-t * self.decay * (1 + .25 * h)) * np.sin(2 * np.pi * partial * t + self.r.uniform(0, 6.28))
        return s

    def blown(self, f, t, v, d):
        r, cents = self.r, np.zeros(len(t))
        if d > .35:
            cents = r.uniform(8, self.vibrato) * np.clip((t - .15) / .2, 0, 1) * np.sin(2 * np.pi * r.uniform(4.5, 6.5) * t)
        if r.random() < .25 and d > .12:
            cents = cents - r.uniform(40, 110) * np.clip(1 - t / .09, 0, 1)
        phase, s = 2 * np.pi * np.cumsum(f * 2 ** (cents / 1200)) / RATE, np.zeros(len(t))
        for h in range(1, 25):
            if h * f > 9500:
                break
            level = self.colour[h - 1] / h ** (self.tilt + .6 * (1 - v / 127)) * (self.even if h % 2 == 0 else 1)
            if self.kind == FORMANT:
                level *= .15 + sum(k * np.exp(-.5 * ((h * f - c) / w) ** 2) for c, w, k in self.formants)
            s += level * (1 - np.exp(-t / (self.attack * (.6 + .1 * h)))) * np.sin(h * phase + r.uniform(0, 6.28))
        return s + self.breath * np.abs(s).mean() * 4 * r.normal(0, 1, len(t))

    def line(self, notes, velocity, off, cents, seconds):
        y = np.zeros(int(seconds * RATE) + RATE)
        for (on, d, m), v, o in zip(notes, velocity, off):
            f, t = 440 * 2 ** ((m - 69 + (cents + o) / 100) / 12), np.arange(int((d + .12) * RATE)) / RATE
            s = self.plucked(f, t, v) if self.kind == PLUCKED else self.blown(f, t, v, d)
            end = int(d * RATE)
            s[end:] *= np.linspace(1, 0, len(t) - end) ** 2
            i = int(on * RATE)
            y[i:i + len(t)] += (s * (v / 100) ** 1.5 / (np.sqrt((s ** 2).mean()) + 1e-9))[:len(y) - i] * .2
        return y[:int(seconds * RATE)]


def growled(r, line, notes, off, cents, depth, attacks=False):
    """Every second period a little different, as in a growl: sound appears between the partials. With `attacks` it
    dies away in most notes, so that short ones have nothing else."""
    gain = np.ones(len(line))
    for (on, d, m), o in zip(notes, off):
        if r.random() < .75:
            f, part = 440 * 2 ** ((m - 69 + (cents + o) / 100) / 12), gain[int(on * RATE):int((on + d) * RATE)]
            t = np.arange(len(part)) / RATE
            much = depth * r.uniform(.6, 1.1)
            if attacks:
                much = much * (r.uniform(0, .2) + np.exp(-(t / r.uniform(.06, .25)) ** 2))
            part += much * np.cos(np.pi * f * t + r.uniform(0, 6.28))
    return line * gain


def softened(r, line, notes):
    """Notes that grow from little, swell and waver, as bowed, sung and blown ones do; only some are struck."""
    gain, usual = np.ones(len(line)), r.uniform(.03, .16)
    for on, d, _ in notes:
        part = gain[int((on - .004) * RATE):int((on + d) * RATE)]
        t = np.arange(len(part)) / RATE
        attack = 0 if r.random() < .15 else min(usual * np.exp(r.normal(0, .4)), .2, .6 * d)
        if attack:
            floor = 10 ** (-r.uniform(12, 35) / 20)
            part *= floor + (1 - floor) * (.5 - .5 * np.cos(np.pi * np.clip(t / attack, 0, 1)))
        part *= 10 ** (r.uniform(-6, 6) * (t / max(d, .05) - .5) / 20)
        if d > .3 and r.random() < .6:
            depth = r.uniform(.5, 5) * np.clip((t - .1) / .2, 0, 1)
            part *= 10 ** (depth * np.sin(2 * np.pi * r.uniform(3.5, 7) * t + r.uniform(0, 6.28)) / 40)
    return line * gain


def coloured(r, line):
    low, high = sorted(r.uniform(150, 5000, 2))
    b, a = signal.butter(1, [low / (RATE / 2), min(.9, (high + 100) / (RATE / 2))], "band")
    return line + (10 ** (r.uniform(-7, 7) / 20) - 1) * signal.lfilter(b, a, line)


# ------------------------------------------------------------------ the band and the record
def rhythm(r, chords, beat, cents, seconds, font):
    events = program(1, int(r.choice([32, 32, 32, 33, 34, 35, 43]))) + tuned(1, cents)
    last, swing = 40, r.uniform(.55, .68)
    for b, (root, quality, _) in enumerate(np.array(chords, object)[np.arange(len(chords)) // 2]):
        t = .1 + b * beat + r.normal(0, .008)
        pc = (root + (int(r.choice(quality)) if b % 2 else 0) + (int(r.choice([-1, 1])) if r.random() < .25 else 0)) % 12
        last = min((p for p in range(28, 56) if p % 12 == pc), key=lambda p: abs(p - last) + 3 * r.random())
        if r.random() < .93:
            events += note(1, last, t, beat * r.uniform(.6, .98), r.normal(88, 9))
        events += note(9, 51 if r.random() < .9 else 59, t, .1, r.normal(92, 9))
        if b % 2:
            events += note(9, 51, t + beat * swing, .1, r.normal(78, 9)) + note(9, 44, t, .1, 80)
        for chance, drums, place, velocity in ((.4, [36], 0, 60), (.25, [38, 37, 40], r.choice([0, swing]), 75),
                                               (.04, [49, 57], 0, 80), (.05, [45, 48, 50, 41], .5, 75)):
            if r.random() < chance:
                events += note(9, int(r.choice(drums)), t + beat * place, .1, r.normal(velocity, 18))
    return render(events, seconds, font)


def comping(r, chords, beat, cents, seconds, font, middle):
    events = program(2, int(r.choice([0, 0, 1, 4, 16, 16, 24, 25, 26, 26, 48]))) + tuned(2, cents)
    for b in range(len(chords)):
        if r.random() < .45:
            continue
        root, quality, _ = chords[b // 2]
        tones = r.permutation(list(quality) + ([2] if r.random() < .4 else []))[:int(r.integers(3, 5))]
        t, velocity = .1 + (b + r.choice([0, .64, .5])) * beat + r.normal(0, .009), r.normal(74, 10)
        for tone in tones:
            p = min((p for p in range(48, 82) if p % 12 == (root + int(tone)) % 12),
                    key=lambda p: abs(p - middle) + 3 * r.random())
            events += note(2, p, t + r.uniform(0, .012), beat * r.choice([.3, .6, 1, 1.9, 3.5]), velocity + r.normal(0, 5))
    return render(events, seconds, font)


def wide_comping(r, chords, beat, cents, seconds, font, middle):
    """Guitars more than keys, struck together, strummed, broken or damped, often with the top note loudest."""
    number = int(r.choice([24, 25, 26, 26, 27, 28, 1003, 1003, 1005, 0, 1, 4, 11, 16, 48]))
    manner, top, rests = r.choice(["struck", "strummed", "broken", "damped"]), r.uniform(0, 30), r.uniform(.2, .6)
    played = []
    for b, (root, quality, _) in enumerate(np.array(chords, object)[np.arange(len(chords)) // 2]):
        if r.random() < rests:
            continue
        tones = r.permutation(list(quality) + [2, 5][:int(r.integers(3))])[:int(r.integers(2, 6))]
        pitches = sorted({min((p for p in range(46, 84) if p % 12 == (root + int(tone)) % 12),
                              key=lambda p: abs(p - middle) + 5 * r.random()) for tone in tones})
        t, force = .1 + (b + r.choice([0, .64, .5])) * beat + r.normal(0, .012), r.normal(72, 12)
        apart = {"strummed": r.uniform(.005, .035), "broken": beat * r.choice([.25, 1 / 3, .5])}.get(manner, .003)
        length = beat * (r.uniform(.1, .3) if manner == "damped" else r.choice([.3, .6, 1, 1.9, 3.5]))
        for k, p in enumerate(pitches if r.random() < .7 else pitches[::-1]):
            played.append((max(.05, t + k * apart), length, p, force + r.normal(0, 5) + top * (p == pitches[-1])))
    played = np.array(played or [(1, 1, 60, 60)])
    if number in models.NAMES:
        played[:, 2] = models.nearest_speaking(number, played[:, 2])
        return np.repeat(models.line(r, number, played[:, :3], np.clip(played[:, 3], 20, 124), np.zeros(len(played)), cents,
                                     seconds)[:, None], 2, 1)
    return render(program(2, number) + tuned(2, cents) + [e for on, d, m, v in played for e in note(2, m, on, d, v)],
                  seconds, font)


def level(x):
    b, a = signal.butter(1, 800 / (RATE / 2), "high")
    y = (x ** 2).sum(1) + 4 * (signal.lfilter(b, a, x, axis=0) ** 2).sum(1)
    p = np.array([y[i:i + RATE // 5].mean() for i in range(0, len(y) - RATE // 5, RATE // 5)])
    return np.sqrt(p[p > p.max() * .004].mean() + 1e-18)


def in_a_room(r, x):
    seconds = r.uniform(.3, 1.4)
    n = int(seconds * RATE)
    tail = r.normal(0, 1, (n, 2)) * np.exp(-6.9 * np.arange(n) / RATE / seconds)[:, None]
    tail[:500] = 0
    b, a = signal.butter(1, r.uniform(2500, 7000) / (RATE / 2))
    tail = signal.lfilter(b, a, tail, axis=0)
    tail /= np.sqrt((tail ** 2).sum(0))
    wet = np.stack([signal.fftconvolve(x.mean(1), tail[:, c])[:len(x)] for c in (0, 1)], 1)
    return x + r.uniform(.04, .22) * wet


def old(r, x):
    """Dull, with wow, hiss, crackle and overload."""
    band = signal.butter(3, [r.uniform(70, 150), r.uniform(2200, 5500)], "band", fs=RATE, output="sos")
    x, t = signal.sosfilt(band, x, axis=0), np.arange(len(x)) / RATE
    f, depth = r.uniform(.4, 1.3), r.uniform(0, 9)
    wow = t + (2 ** (depth / 1200) - 1) / (2 * np.pi * f) * np.sin(2 * np.pi * f * t)
    x = np.stack([np.interp(wow, t, x[:, c]) for c in (0, 1)], 1)
    loudness = np.sqrt((x ** 2).mean())
    hiss = signal.sosfilt(signal.butter(2, [150, 6000], "band", fs=RATE, output="sos"), r.normal(0, 1, (len(x), 1)), axis=0)
    x = x + hiss / hiss.std() * loudness * 10 ** (-r.uniform(18, 32) / 20)
    for i in r.integers(0, len(x) - 40, int(r.uniform(0, 8) * t[-1])):
        x[i:i + 30] += (loudness * r.uniform(.3, 2) * np.exp(-np.arange(30) / 5) * r.choice([-1, 1]))[:, None]
    top = np.abs(x).max() * r.uniform(.5, 1.5)
    return np.tanh(x / top) * top


def worn(r, x):
    """Narrow, hissing or levelled, as small machines and much copying leave it."""
    u = r.random()
    if u < .35:
        band = signal.butter(int(r.integers(1, 5)), [r.uniform(60, 320), r.uniform(3500, 8000)], "band", fs=RATE, output="sos")
        x = signal.sosfilt(band, x, axis=0)
    if u > .2:
        x = x + r.normal(0, 1, x.shape) * np.sqrt((x ** 2).mean()) * 10 ** (-r.uniform(26, 50) / 20)
    if r.random() < .4:
        b, a = signal.butter(1, r.uniform(2, 15) / (RATE / 2))
        around = np.sqrt(np.maximum(signal.filtfilt(b, a, (x ** 2).sum(1)), 0)) + .05 * np.abs(x).max()
        x = x * (around ** -r.uniform(.2, .7))[:, None]
    return x


def singles(seed, font, least_rest):
    """Every note of an instrument's range, one by one, with a rest of so many seconds or more between them."""
    r = np.random.default_rng(seed)
    number = list(WEIGHTS["single"])[seed % len(WEIGHTS["single"])]
    pitches = np.arange(RANGES[number][0], RANGES[number][1] + 1)
    lengths = np.exp(r.uniform(np.log(.12), np.log(.9), len(pitches)))
    onsets = .5 + np.concatenate([[0], np.cumsum(lengths + r.uniform(least_rest, .6, len(pitches)))[:-1]])
    notes, velocity = np.column_stack([onsets, lengths, pitches]), r.uniform(45, 112, len(pitches))
    seconds, off = onsets[-1] + 2, np.zeros(len(pitches))
    x = (Voice(r, number).line(notes, velocity, off, 0, seconds) if number >= PLUCKED else
         sampled_line(r, notes, velocity, off, 0, number, font, seconds))
    x = x[:, None] / np.abs(x).max() * .7 + r.normal(0, 10 ** r.uniform(-5, -3), (len(x), 1))
    return x, np.column_stack([notes, velocity]), dict(cond="single", cents=0, program=number)


def bare_tones(seed):
    """Every pitch with its first one to four partials alone, as a band around a low note or a whistle leaves it."""
    r = np.random.default_rng(seed)
    pitches = np.arange(36, 89)
    lengths = np.exp(r.uniform(np.log(.12), np.log(.9), len(pitches)))
    onsets = .5 + np.concatenate([[0], np.cumsum(lengths + r.uniform(.02, .6, len(pitches)))[:-1]])
    x, partials, fall = np.zeros(int((onsets[-1] + 2) * RATE)), int(r.integers(1, 5)), r.uniform(0, 2)
    for on, d, m in zip(onsets, lengths, pitches):
        t = np.arange(int(d * RATE)) / RATE
        shape = np.minimum(1, np.minimum(t / r.uniform(.004, .03), (d - t) / .02)) * np.exp(-t * r.uniform(0, 3))
        for h in range(1, partials + 1):
            level = np.exp(r.normal(0, .3)) / h ** fall
            x[int(on * RATE):][:len(t)] += level * shape * np.sin(
                2 * np.pi * h * 440 * 2 ** ((m - 69) / 12) * t + r.uniform(0, 6.28))
    x = x[:, None] / np.abs(x).max() * .7 + r.normal(0, 10 ** r.uniform(-5, -3), (len(x), 1))
    return x, np.column_stack([onsets, lengths, pitches, np.full(len(pitches), 90)]), dict(cond="single", cents=0, program=-1)


def solo(seed, font, bands, kind):
    r = np.random.default_rng(seed)
    band_font = str(r.choice(bands)) if r.random() < .6 else font
    beat, seconds = 60 / (r.uniform(50, 130) if kind == "soft" else r.uniform(85, 255)), r.uniform(11, 15)
    cents = float(r.normal(0, 3)) if r.random() < .6 else float(r.uniform(-45, 45))
    weights = np.array(list(WEIGHTS[kind].values()), float)
    number = int(r.choice(list(WEIGHTS[kind]), p=weights / weights.sum()))
    low, high = (RANGES | models.RANGES)[number]
    if kind == "low":
        high = min(high, low + 18 + int(r.integers(6)))
    elif high - low > 24 and r.random() < .6:
        middle = int(r.integers(low + 12, high - 6))
        low, high = max(low, middle - int(r.integers(9, 16))), min(high, middle + int(r.integers(9, 16)))
    chords = random_chords(r, int(seconds / beat) + 3)
    notes = melody(r, low, high, beat, seconds, chords, {"quick": .22, "modelled": .03}.get(kind, 0))
    if number in models.NAMES:
        notes[:, 2] = models.nearest_speaking(number, notes[:, 2])
    velocity, off = velocities(r, notes), r.normal(0, r.uniform(10, 25) if kind == "sung" else 6, len(notes))
    line = (models.line(r, number, notes, velocity, off, cents, seconds) if number in models.NAMES else
            Voice(r, number, 90 if kind == "sung" else 35).line(notes, velocity, off, cents, seconds) if number >= PLUCKED else
            sampled_line(r, notes, velocity, off, cents, number, font, seconds, .5 if kind == "quick" else .12))
    if kind == "hoarse":
        line = growled(r, line, notes, off, cents, r.uniform(.3, 1.9), attacks=True)
    elif kind == "growled" or r.random() < .18:
        line = growled(r, line, notes, off, cents, r.uniform(.3, 1.7) if kind == "growled" else r.uniform(.15, .9))
    if kind == "soft":
        line = softened(r, line, notes)
    if r.random() < .7:
        line = coloured(r, line)
    x = np.repeat(line[:, None], 2, 1)
    x /= level(x)
    condition = str(r.choice(["solo", "trio", "band"], p=[.25, .3, .45]))
    rest, side, panned = np.zeros_like(x), np.ones(2), r.random() < .3
    if condition != "solo":
        rest = rhythm(r, chords, beat, cents, seconds, band_font)
        rest /= level(rest)
        if condition == "band":
            comp = wide_comping if kind in WIDER and r.random() < .7 else comping
            c = comp(r, chords, beat, cents, seconds, band_font, np.clip(np.median(notes[:, 2]) - r.uniform(0, 8), 52, 70))
            rest = rest + c / max(level(c), 1e-9) * 10 ** (-r.uniform(1, 8) / 20) * r.uniform(.6, 1.3, 2)
        if panned:
            side = np.array([1, r.uniform(.05, .5)])[::int(r.choice([-1, 1]))]
            rest = rest.mean(1, keepdims=True) * (side[::-1] if r.random() < .6 else np.ones(2))
    x = x * side * 10 ** (r.uniform(-5, 3) / 20) + rest
    x = in_a_room(r, x) if r.random() < .8 else x
    x = old(r, x) if r.random() < .3 else x
    x = worn(r, x) if kind in WIDER and r.random() < .5 else x
    x = np.repeat(x.mean(1, keepdims=True), 2, 1) if r.random() < .15 else x
    return x * .7 / np.abs(x).max(), np.column_stack([notes, velocity]), dict(cond=condition, cents=cents, program=number)


def main():
    options = argparse.ArgumentParser()
    options.add_argument("out")
    options.add_argument("--font", required=True)
    options.add_argument("--bands", default="")
    options.add_argument("--count", type=int, required=True)
    options.add_argument("--seed", type=int, required=True)
    options.add_argument("--kind", choices=[*WEIGHTS, "close", "bare"], default="plain")
    o = options.parse_args()
    os.makedirs(o.out, exist_ok=True)
    for i in range(o.count):
        seed = o.seed * 10000 + i
        x, notes, info = (bare_tones(seed) if o.kind == "bare" else
                          singles(seed, o.font, .02 if o.kind == "close" else .2) if o.kind in ("single", "close") else
                          solo(seed, o.font, (o.bands or o.font).split(","), o.kind))
        soundfile.write("%s/%04d.flac" % (o.out, i), x, RATE, subtype="PCM_16")
        np.savetxt("%s/%04d.tsv" % (o.out, i), notes, fmt="%.4f\t%.4f\t%d\t%d")
        json.dump(info, open("%s/%04d.json" % (o.out, i), "w"))


if __name__ == "__main__":
    main()
