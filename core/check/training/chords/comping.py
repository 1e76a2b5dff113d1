"""Makes choruses that never were, for the check of chords: comping, walking bass and drums over invented changes, with
a line on top whose notes are known.

  comping.py OUT --font FONT --count N --seed S

Writes OUT/0000.flac, .chords and .line (onset, length, MIDI number). A line of .chords: start, end in seconds, root
0–11, quality, the bass that is meant, the bass that is played as the chord begins, and with commas what comping plays.
Needs fluidsynth. Forms, voicings, walking and comping rhythms are our own, after common practice: blues, turns of two
five one, the bridge and turnarounds of thirty-two bars; shells and rootless voicings with ninths and thirteenths,
four-note guitar chords, chords struck an eighth ahead; the root, or the bass after a slash, mostly on the first beat.
"""
import argparse
import os
import subprocess
import sys
import tempfile
from string import ascii_lowercase, digits

import numpy as np
import soundfile

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "../../../listening/training"))
from midi import note, program, tuned, write_midi  # noqa: E402

RATE = 44100
TONES = {"maj": (0, 4, 7, 11), "dom": (0, 4, 7, 10), "min": (0, 3, 7, 10), "hdim": (0, 3, 6, 10), "dim": (0, 3, 6, 9),
         "aug": (0, 4, 8, 10), "sus": (0, 5, 7, 10), "mmaj": (0, 3, 7, 11)}
TENSIONS = {"maj": (2, 9, 6), "dom": (2, 9, 1, 3, 8, 6), "min": (2, 5), "hdim": (5, 2), "dim": (2,), "aug": (2,),
            "sus": (2, 9), "mmaj": (2, 9)}
# Steps of the root, and qualities, as they follow one another in tunes (common practice).
TURNS = [[(2, "min"), (7, "dom"), (0, "maj")], [(2, "hdim"), (7, "dom"), (0, "min")], [(0, "dom"), (5, "dom")],
         [(0, "maj"), (9, "dom"), (2, "min"), (7, "dom")], [(5, "maj"), (6, "dim"), (0, "maj")],
         [(2, "min"), (1, "dom"), (0, "maj")], [(0, "maj"), (0, "aug"), (5, "maj"), (5, "min")],
         [(7, "sus"), (7, "dom"), (0, "maj")], [(0, "min"), (10, "dom"), (3, "maj")],
         [(4, "hdim"), (9, "dom"), (2, "min")], [(0, "maj"), (1, "dim"), (2, "min"), (7, "aug")],
         [(0, "min"), (0, "mmaj"), (0, "min"), (5, "dom")], [(2, "hdim"), (7, "dom"), (0, "mmaj")],
         [(4, "dom"), (9, "dom"), (2, "dom"), (7, "dom")], [(0, "maj"), (0, "dom"), (5, "maj"), (6, "dim")]]
# Twelve bars, a chord a bar.
BLUES = ["0dom 5dom 0dom 0dom 5dom 6dim 0dom 9dom 2min 7dom 0dom 7dom",
         "0maj 11hdim 9min 7min 5maj 5min 4min 3min 2min 7dom 0maj 7dom",
         "0min 5min 0min 0dom 5min 5min 0min 0min 8dom 7dom 0mmaj 2hdim"]
# The bass after a slash, in semitones above the root: third, fifth, seventh, or a step above or below.
SLASHES = {"maj": (4, 4, 7, 11, 2, 9), "dom": (4, 7, 10, 10), "min": (3, 7, 10, 5), "hdim": (3, 6, 10), "mmaj": (3, 7, 11)}


def blues(r):
    key, form = int(r.integers(12)), BLUES[r.integers(len(BLUES))].split()
    steps = [(int(word.rstrip(ascii_lowercase)), word.lstrip(digits)) for word in form]
    return [(4 * bar, 4, (key + step) % 12, quality) for bar, (step, quality) in enumerate(steps)]


def turns(r, bars):
    out, beat, key = [], 0, int(r.integers(12))
    while beat < 4 * bars:
        turn = TURNS[r.integers(len(TURNS))]
        if r.random() < .4:
            key = int(r.integers(12))
        fast = r.random() < .25
        for step, quality in turn:
            length = 2 if fast else 4
            if beat < 4 * bars:
                out.append((beat, min(length, 4 * bars - beat), (key + step) % 12, quality))
            beat += length
        beat += -beat % 4 if not fast or beat % 4 == 0 else 0
        if beat % 4:
            out[-1] = (out[-1][0], out[-1][1] + 4 - beat % 4, *out[-1][2:])
            beat += 4 - beat % 4
    return out


def changes(r, bars):
    """(beat, beats, root, quality, bass): a chord a bar, sometimes two."""
    chords = blues(r) if r.random() < .3 else turns(r, bars)
    often = .08 if r.random() < .8 else .5
    return [(*chord, (chord[2] + int(r.choice(SLASHES.get(chord[3], (0,))))) % 12 if r.random() < often else chord[2])
            for chord in chords]


def near(pc, centre):
    return centre + (pc - centre + 6) % 12 - 6


def voicing(r, root, quality, manner, sixth):
    tones = list(TONES[quality])
    if sixth and quality in ("maj", "min"):
        tones[3] = 9
    if manner == "shell":
        picked = [tones[1], tones[3]]
    elif manner == "rootless":
        picked = [tones[1], tones[3], *r.permutation(TENSIONS[quality])[:int(r.integers(1, 3))]]
        if r.random() < .5:
            picked.append(tones[2])
    else:
        picked = tones if r.random() < .6 else [*tones[1:], int(r.choice(TENSIONS[quality]))]
        if r.random() < .2:
            picked = tones[:3] if not sixth else tones
    centre = int(r.integers(56, 66))
    return sorted({near((root + int(p)) % 12, centre + int(r.integers(-4, 7))) for p in picked})


def walk(r, chords, clock, swing):
    """(start, end, pitch), and what is played as each chord begins."""
    out, first = [], []
    for i, (beat, beats, root, quality, bass) in enumerate(chords):
        following = chords[(i + 1) % len(chords)][4]
        slashed = bass != root
        for b in range(beats):
            if b == 0:
                pc = bass if r.random() < (.96 if slashed else .92) else (root + int(r.choice(TONES[quality][1:3]))) % 12
                first.append(pc)
            elif b == beats - 1 and r.random() < .6:
                pc = (following + int(r.choice([1, 11, 7, 2, 10]))) % 12
            elif slashed and r.random() < .5:
                pc = bass
            else:
                pc = (root + int(r.choice(TONES[quality] + (2, 9)))) % 12
            if swing == "two" and b % 2:
                continue
            out.append((clock(beat + b), clock(beat + b + (2 if swing == "two" else 1)), near(pc, 38 if r.random() < .7 else 33)))
    return out, first


def comp(r, chords, clock, manner, busy):
    """(start, end, pitches), and the names that sound with each chord."""
    out, played, sixth, early = [], [], r.random() < .3, r.random() < .4
    for beat, beats, root, quality, _ in chords:
        places = {"pad": [0], "quarters": list(range(beats)), "sparse": None}[busy]
        if places is None:
            places = sorted(r.choice([0, .67, 1, 1.67, 2, 2.67, 3, 3.67], size=int(r.integers(1, 4)), replace=False))
            places = [p for p in places if p < beats - .3] or [0]
            if early and r.random() < .4 and beat > 0:
                places = [-.35, *[p for p in places if p > .5]]
        names = set()
        for k, place in enumerate(places):
            pitches = voicing(r, root, quality, manner, sixth)
            until = places[k + 1] if k + 1 < len(places) else beats
            held = min(until - place, {"pad": 9, "quarters": .8, "sparse": r.choice([.4, 1.5])}[busy])
            out.append((clock(beat + place), clock(beat + place + held), pitches))
            names |= {p % 12 for p in pitches}
        played.append(names)
    return out, played


def line(r, chords, clock):
    out, pitch = [], int(r.integers(62, 74))
    for beat, beats, root, quality, _ in chords:
        for eighth in range(2 * beats):
            if r.random() < .25:
                continue
            at = beat + eighth // 2 + (.62 if eighth % 2 else 0)
            if r.random() < .6:
                pool = [(root + t) % 12 for t in TONES[quality] + TENSIONS[quality][:1]]
                targets = [near(pc, pitch + int(r.integers(-4, 5))) for pc in pool]
                pitch = min(targets, key=lambda p: abs(p - pitch) + 3 * (p == pitch) + r.random())
            else:
                pitch += int(r.choice([-2, -1, 1, 2]))
            pitch = int(np.clip(pitch, 54, 86))
            out.append((clock(at), .9 * (clock(at + .5) - clock(at)), pitch))
    return out


def render(events, seconds, font):
    with tempfile.TemporaryDirectory() as folder:
        write_midi(folder + "/a.mid", events)
        subprocess.run(["fluidsynth", "-ni", "-q", "-R", "1", "-C", "0", "-g", "0.5", "-r", str(RATE), "-O", "float",
                        "-T", "wav", "-F", folder + "/a.wav", font, folder + "/a.mid"],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        x, _ = soundfile.read(folder + "/a.wav", always_2d=True)
    y = np.zeros((int(seconds * RATE), 2))
    y[:len(x)] = x[:len(y), :2]
    return y


def chorus(r, font):
    beat = 60 / r.uniform(95, 230)
    clock = lambda b: .5 + beat * (np.floor(b) + (b - np.floor(b)))  # noqa: E731
    chords = changes(r, 16)
    end = clock(chords[-1][0] + chords[-1][1])
    cents = float(np.clip(r.normal(0, 15), -40, 40))  # beyond 50 every note has two names
    parts = {"line": [], "comp": [], "bass": [], "drums": []}
    for channel, (name, choices) in enumerate({"line": [26, 65, 66, 56, 24], "comp": [0, 0, 4, 26, 26, 16],
                                               "bass": [32, 32, 33, 35]}.items()):
        parts[name] += program(channel, int(r.choice(choices))) + tuned(channel, cents)
    manner = r.choice(["shell", "rootless", "rootless", "full"])
    busy = r.choice(["pad", "sparse", "sparse", "quarters"])
    comping, played = comp(r, chords, clock, manner, busy)
    for begin, until, pitches in comping:
        for p in pitches:
            parts["comp"] += note(1, p, begin + r.normal(0, .006), until - begin, r.normal(70, 9))
    walking, first = walk(r, chords, clock, r.choice(["four", "four", "two"]))
    for begin, until, p in walking:
        parts["bass"] += note(2, p, begin + r.normal(0, .006), .92 * (until - begin), r.normal(85, 8))
    melody = line(r, chords, clock) if r.random() < .85 else []
    for onset, length, p in melody:
        parts["line"] += note(0, p, onset, length, r.normal(92, 12))
    for b in range(int((end - .5) / beat)):
        for place, key, hard in ((b, 51, 70), (b + .64, 51, 55), (b, 44, 60)):
            if key == 51 and (b % 2 or place == b) or key == 44 and b % 2:
                parts["drums"] += note(9, key, clock(place), .1, r.normal(hard, 8))
    seconds = end + 1
    sounds = {name: render(events, seconds, font) for name, events in parts.items()}
    level = {"line": 1, "comp": 10 ** (r.uniform(-9, 1) / 20), "bass": 10 ** (r.uniform(-6, 3) / 20),
             "drums": 10 ** (r.uniform(-18, -5) / 20)}
    mix = sum(level[name] * s / (np.sqrt(np.mean(s ** 2)) + 1e-9) for name, s in sounds.items() if np.any(s))
    if r.random() < .3:
        mix = np.repeat(mix.mean(1, keepdims=True), 2, 1)
    if r.random() < .3:  # an old, dull record
        step = np.exp(-2 * np.pi * r.uniform(2500, 5000) / RATE)
        from scipy.signal import lfilter
        mix = lfilter([1 - step], [1, -step], mix, axis=0) + r.normal(0, .02, mix.shape)
    return .25 * mix / np.max(np.abs(mix)) * 3, chords, first, played, melody, clock


def main():
    options = argparse.ArgumentParser()
    options.add_argument("out")
    options.add_argument("--font", required=True)
    options.add_argument("--count", type=int, required=True)
    options.add_argument("--seed", type=int, required=True)
    given = options.parse_args()
    os.makedirs(given.out, exist_ok=True)
    for number in range(given.count):
        r = np.random.default_rng([given.seed, number])
        sound, chords, first, played, melody, clock = chorus(r, given.font)
        name = f"{given.out}/{number:04d}"
        soundfile.write(name + ".flac", np.clip(sound, -1, 1), RATE)
        with open(name + ".chords", "w") as f:
            for (beat, beats, root, quality, bass), low, names in zip(chords, first, played):
                f.write(f"{clock(beat):.4f}\t{clock(beat + beats):.4f}\t{root}\t{quality}\t{bass}\t{low}\t"
                        f"{','.join(str(n) for n in sorted(names))}\n")
        with open(name + ".line", "w") as f:
            for onset, length, p in melody:
                f.write(f"{onset:.4f}\t{length:.4f}\t{p}\n")


if __name__ == "__main__":
    main()
