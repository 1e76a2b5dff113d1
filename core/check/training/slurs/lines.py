"""Makes lines of known picked (tongued, bowed) and slurred notes, alone, over bass and drums, and with comping too.

  lines.py WORK OUT --character plucked|blown|held --sources NAME,… --bands FONT,… --count N --seed S

Sources: a font of tones.py, "partials", or a physical model of phrases.cpp. Writes OUT/0000.flac, .tsv (onset, length,
MIDI number, slurred 1, anew 0 or first of a phrase −1, how) and .json. Needs phrases and models compiled in WORK.
"""
import argparse
import json
import os
import sys

import numpy as np
import soundfile
from scipy import signal

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../../listening/training"))
OUT_RATE = 22050
INTERVALS = {0: .03, 1: .29, 2: .35, 3: .15, 4: .08, 5: .05, 7: .04, 12: .01}


def rhythm_of(r, beat, seconds):
    """Onset, length and whether a rest comes before, of eighths, triplets and sixteenths."""
    swing, late, legato = r.uniform(.5, .67), r.uniform(-.005, .03), r.uniform(.85, 1.02)
    dense, at, rows, rest = r.random(), .5, [], True
    while at < seconds - 1:
        u = r.random()
        quick = beat > .34 and u < .3 * dense
        cuts = ([0, .25, .5, .75, 1] if quick else [0, 1 / 3, 2 / 3, 1] if u < .42 and beat > .25 else
                [0, swing, 1] if u < .84 else [0, 1] if u < .92 else [])
        for a, b in zip(cuts, cuts[1:]):
            rows.append([at + a * beat + r.normal(late, .009), (b - a) * beat * legato, rest])
            rest = False
        rest = rest or not cuts
        at += beat
    rows = [row for k, row in enumerate(rows) if k == 0 or row[0] - rows[k - 1][0] > .06]
    return rows


def melody_of(r, low, high, rows):
    pitch, notes = int(r.integers(low + 4, high - 4)), []
    for on, length, rest in rows:
        step = int(r.choice(list(INTERVALS), p=list(INTERVALS.values()))) * int(r.choice([-1, 1]))
        pitch = pitch + step if low <= pitch + step <= high else pitch - step
        pitch = int(np.clip(pitch, low, high))
        notes.append([on, length, pitch])
    for a, b in zip(notes, notes[1:]):
        a[1] = max(.04, min(a[1], b[0] - a[0]))
    return np.array(notes)


def slurs_of(r, notes, rows, farthest):
    share, slurred = r.uniform(.25, .7), np.zeros(len(notes), int)
    for i in range(len(notes)):
        interval = abs(notes[i][2] - notes[i - 1][2]) if i else 0
        if i == 0 or rows[i][2] or notes[i][0] - notes[i - 1][0] - notes[i - 1][1] > .15:
            slurred[i] = -1
        elif 0 < interval <= farthest and r.random() < share:
            slurred[i] = 1
            notes[i - 1][1] = notes[i][0] - notes[i - 1][0]
    return slurred


def source_of(r, work, character, name):
    import playing
    import tones
    if name == "partials":
        return playing.Partials(r, character)
    if name in tones.FONTS:
        return playing.Tones(r, work + "/tones", name, character, int(r.choice(list(tones.PROGRAMS[character]))))
    return playing.Model(r, character, name)


BAND = {}


def band_of(work, font, index):
    """Bass and drums, and comping, at one of 30 tempos from 90 to 240; kept in WORK."""
    import solos
    import tones
    path = "%s/bands/%s-%d.npz" % (work, font, index)
    if not os.path.exists(path):
        os.makedirs(work + "/bands", exist_ok=True)
        r = np.random.default_rng(7000 + index + 100 * list(tones.FONTS).index(font))
        beat = 60 / (90 * (240 / 90) ** (index / 29))
        chords = solos.random_chords(r, int(14 / beat) + 4)
        rest = solos.rhythm(r, chords, beat, 0, 14, tones.FONTS[font])
        comp = solos.wide_comping(r, chords, beat, 0, 14, tones.FONTS[font], 60)
        np.savez(path, beat=beat, rest=(rest / solos.level(rest)).astype(np.float16),
                 comp=(comp / max(solos.level(comp), 1e-9)).astype(np.float16))
    if path not in BAND:
        BAND[path] = {k: v for k, v in np.load(path).items()}
    b = BAND[path]
    return float(b["beat"]), b["rest"].astype(float), b["comp"].astype(float)


def made(work, character, sources, bands, seed):
    import solos
    r = np.random.default_rng(seed)
    condition = ["alone", "trio", "band"][seed % 3]
    name = sources[seed // 3 % len(sources)]
    beat, rest, comp = band_of(work, str(r.choice(bands)), int(r.integers(30)))
    seconds = 14.0
    source = source_of(r, work, character, name)
    rows = rhythm_of(r, beat, seconds)
    rows = [[on - .4, length, first] for on, length, first in rows]       # the band begins at 0.1 s
    low, high = source.low + 1, source.high - 1
    if high - low > 24:
        low = int(r.integers(low, high - 22))
        high = low + 22
    notes = melody_of(r, low, high, rows)
    slurred = slurs_of(r, notes, rows, 5 if character == "plucked" else 7)
    velocity = np.clip(86 + 10 * np.sin(np.cumsum(r.normal(.25, .2, len(notes)))) + r.normal(0, 9, len(notes)), 25, 124)
    ghosted = r.random(len(notes)) < .08
    velocity[ghosted] = r.uniform(30, 55, ghosted.sum())
    line = source.line(notes, velocity, slurred, seconds)
    if r.random() < .7:
        line = solos.coloured(r, line)
    x = np.repeat(line[:, None], 2, 1)
    x /= solos.level(x)
    side = np.ones(2)
    over = np.zeros_like(x)
    if condition != "alone":
        over = rest[:len(x)]
        if condition == "band":
            over = over + comp[:len(x)] * 10 ** (-r.uniform(1, 8) / 20) * r.uniform(.6, 1.3, 2)
        if r.random() < .25:
            side = np.array([1, r.uniform(.05, .5)])[::int(r.choice([-1, 1]))]
            over = over.mean(1, keepdims=True) * (side[::-1] if r.random() < .6 else np.ones(2))
    x = x * side * 10 ** (r.uniform(-5, 3) / 20) + over
    x = solos.in_a_room(r, x) if r.random() < .7 else x
    x = solos.old(r, x) if r.random() < .2 else x
    x = np.repeat(x.mean(1, keepdims=True), 2, 1) if r.random() < .2 else x
    x = signal.resample_poly(x, 1, 2, axis=0)
    return x * .7 / np.abs(x).max(), np.column_stack([notes, slurred, source.styles]), dict(
        condition=condition, character=character, source=name)


def main():
    options = argparse.ArgumentParser()
    options.add_argument("work")
    options.add_argument("out")
    options.add_argument("--character", required=True)
    options.add_argument("--sources", required=True)
    options.add_argument("--bands", required=True)
    options.add_argument("--count", type=int, required=True)
    options.add_argument("--seed", type=int, required=True)
    o = options.parse_args()
    os.environ.setdefault("PHRASES", o.work + "/phrases")
    os.environ.setdefault("MODELS", o.work + "/models")
    os.makedirs(o.out, exist_ok=True)
    for i in range(o.count):
        x, notes, info = made(o.work, o.character, o.sources.split(","), o.bands.split(","), o.seed * 10000 + i)
        soundfile.write("%s/%04d.flac" % (o.out, i), x, OUT_RATE, subtype="PCM_16")
        np.savetxt("%s/%04d.tsv" % (o.out, i), notes, fmt="%.4f\t%.4f\t%d\t%d\t%d")
        json.dump(info, open("%s/%04d.json" % (o.out, i), "w"))


if __name__ == "__main__":
    main()
