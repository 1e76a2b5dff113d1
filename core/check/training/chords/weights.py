"""Learns how the notes of comping and bass bear out a chord, and tells what that is worth on sound it was not learned
from.

  weights.py WORK TRAIN TEST PRINT_CHORD_SOUND [ChordWeights.cpp]

TRAIN and TEST are folders in WORK made by comping.py, those of one font joined by +, fonts by a comma; TEST best has a
font that TRAIN has not. A network of one layer sees what is heard by degrees above a root and gives each family a
score, the same for every root; a softmax over twelve roots and eight families makes chances of them. What is learned is
to name root and family, and the family once more where the root is known. Every chord is learned twice, once without
the bass as it begins, which chords over another bass are judged without. Learned by Adam with a quadratic penalty (D. Kingma
and J. Ba, ICLR 2015). Before, each font of TRAIN is judged by what was learned
from the others: there the limits of ChordCheck.cpp and BassCheck.cpp are set. Prints for each font what right and
planted wrong chords and basses get, by kind of mistake, with 95 % intervals over choruses (bootstrap, 1,000 draws).
"""
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import numpy as np

QUALITIES = ["maj", "dom", "min", "hdim", "dim", "aug", "sus", "mmaj"]
TONES = {"maj": (0, 4, 7, 11, 9, 10), "dom": (0, 4, 7, 10), "min": (0, 3, 7, 10), "hdim": (0, 3, 6, 10),
         "dim": (0, 3, 6, 9), "aug": (0, 4, 8, 10), "sus": (0, 5, 7, 10), "mmaj": (0, 3, 7, 11)}
UNITS, PARTS = 48, 6
EPOCHS, BATCH, RATE, DECAY = 24, 128, 4e-3, 3
# As in ChordCheck.cpp and BassCheck.cpp.
OTHER_ROOT, OTHER_ROOT_OVER_BASS, SUPPORTED = 0.005, 0.0005, 0.5
OTHER_FAMILY = np.array([0.007, 0.02, 0.006, 0.005, 0.003, 0.003, 0.003, 0.003])
BASS_USUAL, BASS_PER_LEVEL, OTHER_BASS, BASS_HEARD = -3.65, 6.4, 0.06, 0.7
# Written for played.
MISTAKES = {"major for minor": [("min", "dom"), ("min", "maj"), ("mmaj", "maj")],
            "minor for major": [("dom", "min"), ("maj", "min"), ("maj", "mmaj")],
            "maj7 for 7": [("dom", "maj")], "7 for maj7": [("maj", "dom")], "m7 for 7": [("dom", "min")],
            "7 for m7": [("min", "dom")], "m7♭5 for m7": [("min", "hdim")], "m7 for m7♭5": [("hdim", "min")],
            "m(maj7) for m7": [("min", "mmaj")], "m7 for m(maj7)": [("mmaj", "min")], "7sus for 7": [("dom", "sus")],
            "7 for 7sus": [("sus", "dom")], "7♯5 for 7": [("dom", "aug")], "°7 for m7♭5": [("hdim", "dim")],
            "m7♭5 for °7": [("dim", "hdim")]}


class Heard:
    """root, family, bass (meant), first (bass played), chorus; parts: twelve levels each of PARTS, by name."""

    def __init__(self, work, font, printer):
        files = [f"{work}/{folder}/{name[:-5]}" for folder in font.split("+")
                 for name in sorted(os.listdir(f"{work}/{folder}")) if name.endswith(".line")]

        def one(stem):
            if not os.path.exists(stem + ".heard"):
                out = subprocess.run([printer, stem + ".flac", stem + ".chords", stem + ".line"], check=True,
                                     capture_output=True, text=True).stdout
                open(stem + ".heard", "w").write(out)
            return [line.rstrip("\n").split("\t") for line in open(stem + ".heard")]
        with ThreadPoolExecutor(2) as pool:
            choruses = list(pool.map(one, files))
        rows = [row for chorus in choruses for row in chorus]
        self.chorus = np.array([i for i, chorus in enumerate(choruses) for _ in chorus])
        self.root, self.bass, self.first = (np.array([int(row[i]) for row in rows]) for i in (0, 2, 3))
        self.family = np.array([QUALITIES.index(row[1]) for row in rows])
        self.loudness = np.array([float(row[5]) for row in rows])
        heard = np.array([row[6:] for row in rows], np.float32).reshape(-1, 5, 12)
        comping = heard[:, :3].sum(1, keepdims=True)
        self.parts = np.concatenate([comping, heard], 1)
        self.plain = self.bass == self.root

    def inputs(self, with_first=True):
        """By degree above each root: chord, root, part and degree."""
        parts = np.sqrt(self.parts)
        if not with_first:
            parts = parts.copy()
            parts[:, -1] = 0
        return np.stack([np.roll(parts, -r, axis=2).reshape(len(parts), -1) for r in range(12)], 1)


def unpack(w):
    inputs, families = 12 * PARTS, len(QUALITIES)
    ends = np.cumsum([inputs * UNITS, UNITS, UNITS * families, families])
    a, b, c, d = np.split(w, ends[:-1])
    return a.reshape(inputs, UNITS), b, c.reshape(UNITS, families), d


def chances(w, x):
    hidden, bias, out, usual = unpack(w)
    units = np.tanh(x @ hidden + bias)
    s = (units @ out + usual).reshape(len(x), -1)
    e = np.exp(s - s.max(1, keepdims=True))
    return units, (e / e.sum(1, keepdims=True)).reshape(len(x), 12, len(QUALITIES))


def slope(w, x, root, family):
    """Of the mean cross entropies, of root and family and of the family given the root."""
    _, _, out, _ = unpack(w)
    units, p = chances(w, x)
    rows = np.arange(len(root))
    given = p[rows, root] / p[rows, root].sum(1, keepdims=True)
    p[rows, root] += given
    p[rows, root, family] -= 2
    p /= len(root)
    back = (p @ out.T) * (1 - units ** 2)
    parts = [np.tensordot(x, back, ([0, 1], [0, 1])), back.sum((0, 1)), np.tensordot(units, p, ([0, 1], [0, 1])),
             p.sum((0, 1))]
    return np.concatenate([part.ravel() for part in parts])


def learned(fonts):
    x = np.concatenate([font.inputs(first) for font in fonts for first in (True, False)])
    root, family = (np.concatenate([getattr(font, name) for font in fonts for _ in range(2)])
                    for name in ("root", "family"))
    inputs, families = 12 * PARTS, len(QUALITIES)
    r = np.random.default_rng(0)
    w = np.concatenate([r.normal(0, inputs ** -.5, inputs * UNITS), np.zeros(UNITS),
                        r.normal(0, .5 * UNITS ** -.5, UNITS * families), np.zeros(families)]).astype(np.float32)
    mean, square, step, steps = np.zeros_like(w), np.zeros_like(w), 0, EPOCHS * (len(x) // BATCH)
    for _ in range(EPOCHS):
        for ids in np.array_split(r.permutation(len(x)), len(x) // BATCH):
            down = slope(w, x[ids], root[ids], family[ids]) + DECAY * w / len(x)
            step += 1
            mean, square = .9 * mean + .1 * down, .99 * square + .01 * down ** 2
            w = w - (RATE * (1 - step / (steps + 1)) / (1 - .9 ** step) * mean /
                     (np.sqrt(square / (1 - .99 ** step)) + 1e-8)).astype(np.float32)
    return w


def judged(w, font):
    """Chances; chords over another bass are judged without the bass as they begin."""
    return np.where(font.plain[:, None, None], chances(w, font.inputs())[1], chances(w, font.inputs(False))[1])


def rate(values, chorus):
    r = np.random.default_rng(0)
    ids = np.unique(chorus)
    groups = [values[chorus == i] for i in ids]
    draws = [np.concatenate([groups[i] for i in r.integers(0, len(ids), len(ids))]).mean() for _ in range(1000)]
    return f"{100 * values.mean():5.1f} ({100 * np.quantile(draws, .025):.1f}–{100 * np.quantile(draws, .975):.1f})"


def share(contradicted, supported, chorus):
    return f"{len(chorus)}, contradicted {rate(contradicted, chorus)} %, supported {rate(supported, chorus)} %"


def answers(font, p, rows, root, family):
    """Whether a written root and family are contradicted, and supported, in some chords."""
    of_root, of_chord = p.sum(2)[rows, root], p[rows, root, family]
    limit = np.where(font.plain[rows], OTHER_ROOT, OTHER_ROOT_OVER_BASS)
    supported = of_chord >= SUPPORTED
    return ~supported & ((of_root < limit) | (of_chord < OTHER_FAMILY[family] * of_root)), supported


def report_chords(p, font):
    rows = np.arange(len(font.root))
    best = p.reshape(len(p), -1).argmax(1)
    print(f"{len(rows)} chords; likeliest {rate(best == font.root * len(QUALITIES) + font.family, font.chorus)} %, "
          f"its root {rate(best // len(QUALITIES) == font.root, font.chorus)} %")
    for name, there in (("right", rows), ("right with its root in the bass", rows[font.plain]),
                        ("right over another bass", rows[~font.plain])):
        print(f"{name}: {share(*answers(font, p, there, font.root[there], font.family[there]), font.chorus[there])}")
    of_root = p.sum(2)[rows, font.root]
    given = p[rows, font.root, font.family] / of_root
    by_family = ", ".join(f"{quality} {np.quantile(given[font.family == i], .006):.4f}"
                          for i, quality in enumerate(QUALITIES) if (font.family == i).any())
    print(f"limits that contradict 0.4 % by the root: {np.quantile(of_root[font.plain], .004):.4f}, over another bass "
          f"{np.quantile(of_root[~font.plain], .004):.4f}; 0.6 % by the family: {by_family}")
    other = (font.root + np.random.default_rng(1).integers(1, 12, len(rows))) % 12
    print(f"another root: {share(*answers(font, p, rows, other, font.family), font.chorus)}")
    for kind, pairs in MISTAKES.items():
        there = [(rows[font.family == QUALITIES.index(played)], QUALITIES.index(written)) for played, written in pairs]
        got = [answers(font, p, k, font.root[k], written) for k, written in there]
        print(f"{kind}: {share(*(np.concatenate(g) for g in zip(*got)), np.concatenate([font.chorus[k] for k, _ in there]))}")


def bass_answers(font, rows, written):
    chance = 1 / (1 + np.exp(-BASS_USUAL - BASS_PER_LEVEL * font.parts[rows, -1, written]))
    strongest = font.parts[rows, -1].argmax(1)
    above = (strongest - font.root[rows]) % 12
    tone = np.array([a in TONES[QUALITIES[f]] for a, f in zip(above, font.family[rows])])
    heard = font.loudness[rows] >= BASS_HEARD
    open_to_it = (written == font.root[rows]) & tone
    return heard & (chance < OTHER_BASS) & ~open_to_it, heard & (chance >= SUPPORTED)


def report_bass(font):
    rows, r = np.arange(len(font.root)), np.random.default_rng(2)
    tone = np.array([(root + r.choice(TONES[QUALITIES[f]][:4])) % 12 for root, f in zip(font.root, font.family)])
    kinds = {"right bass": (rows, font.bass), "right bass after a slash": (rows[~font.plain], font.bass[~font.plain]),
             "another bass after a slash": (rows, (font.bass + r.integers(1, 12, len(rows))) % 12),
             "another chord tone after a slash": (rows, tone), "no slash over another bass": (rows[~font.plain], None)}
    for kind, (there, written) in kinds.items():
        if written is None:
            written = font.root[there]
        elif not kind.startswith("right"):
            wrong = (written != font.bass[there]) & (written != font.root[there])
            there, written = there[wrong], written[wrong]
        print(f"{kind}: {share(*bass_answers(font, there, written), font.chorus[there])}")


def write(w, path):
    hidden, bias, out, usual = unpack(w)

    def row(values):
        return "{" + ", ".join(f"{v:.4f}F" for v in values) + "}"
    with open(path, "w") as f:
        f.write("// Made by core/check/training/chords/weights.py. Do not edit.\n"
                '#include "core/check/ChordWeights.h"\n\n// clang-format off\nnamespace earwright {\n\n'
                "const ChordWeights chordWeights{\n    {{\n")
        f.writelines(f"        {{{row(values)}}},\n" for values in hidden)
        f.write(f"    }}}},\n    {{{row(bias)}}},\n    {{{{\n")
        f.writelines(f"        {{{row(values)}}},\n" for values in out.T)
        f.write(f"    }}}},\n    {{{row(usual)}}},\n}};\n\n}} // namespace earwright\n")


def main():
    work, train, test, printer = sys.argv[1:5]
    fonts = [Heard(work, font, printer) for font in train.split(",")]
    for i, font in enumerate(fonts):
        if len(fonts) > 1:
            print(f"--- {train.split(',')[i]}, learned from the others")
            report_chords(judged(learned(fonts[:i] + fonts[i + 1:]), font), font)
            report_bass(font)
    w = learned(fonts)
    print(f"learned from {sum(len(font.root) for font in fonts)} chords")
    for name in test.split(","):
        font = Heard(work, name, printer)
        print(f"--- {name}")
        report_chords(judged(w, font), font)
        report_bass(font)
    if len(sys.argv) > 5:
        write(w, sys.argv[5])


if __name__ == "__main__":
    main()
