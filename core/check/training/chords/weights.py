"""Learns how the notes of comping and bass bear out a chord, and tells what that is worth on sound it was not learned
from.

  weights.py WORK TRAIN,TRAIN… TEST,TEST… PRINT_CHORD_SOUND [ChordWeights.cpp]

TRAIN and TEST are folders in WORK made by comping.py, best with other fonts. A conditional logit over twelve roots and
seven families: each of a family's twelve degrees has a weight in comping, in the bass and in the bass of its first
part, the same for every root. Learned by L-BFGS with a quadratic penalty. Prints, for the TEST folders: how often the
chord is the likeliest; and at the two limits of the check, what right and planted wrong chords get, by kind of
mistake, with 95 % intervals over choruses (bootstrap, 1,000 draws), and the AUC.
"""
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from scipy.optimize import minimize

QUALITIES = ["maj", "dom", "min", "hdim", "dim", "aug", "sus"]
PENALTY = 1.0
CONTRADICTED, SUPPORTED = 0.008, 0.5
MISTAKES = {"another root": None, "major for minor": {"maj": "min", "min": "maj"}, "7 for maj7": {"maj": "dom", "dom": "maj"},
            "m7 for 7": {"dom": "min", "min": "dom"}, "m7♭5 for m7": {"min": "hdim", "hdim": "min"},
            "7 for 7sus": {"sus": "dom", "dom": "sus"}}


def load(work, folder, printer):
    def one(name):
        stem = f"{work}/{folder}/{name[:-5]}"
        cache = stem + ".heard"
        if not os.path.exists(cache):
            out = subprocess.run([printer, stem + ".flac", stem + ".chords", stem + ".line"], check=True,
                                 capture_output=True, text=True).stdout
            open(cache, "w").write(out)
        return [line.split("\t") for line in open(cache)]
    names = sorted(n for n in os.listdir(f"{work}/{folder}") if n.endswith(".line"))
    with ThreadPoolExecutor(2) as pool:
        files = list(pool.map(one, names))
    root = np.array([int(row[0]) for rows in files for row in rows])
    family = np.array([QUALITIES.index(row[1]) for rows in files for row in rows])
    heard = np.array([[float(v) for v in row[2:]] for rows in files for row in rows]).reshape(-1, 3, 12)
    chorus = np.array([i for i, rows in enumerate(files) for _ in rows])
    # By degree above each root: span, root, part, degree.
    turned = np.stack([np.roll(heard, -r, axis=2) for r in range(12)], axis=1)
    return root, family, turned, chorus


def scores(w, turned):
    degrees = w[:-len(QUALITIES)].reshape(len(QUALITIES), 36)
    return turned.reshape(len(turned), 12, 36) @ degrees.T + w[-len(QUALITIES):]


def chances(w, turned):
    s = scores(w, turned).reshape(len(turned), -1)
    e = np.exp(s - s.max(1, keepdims=True))
    return (e / e.sum(1, keepdims=True)).reshape(len(turned), 12, len(QUALITIES))


def loss(w, root, family, turned):
    p = chances(w, turned)
    rows = np.arange(len(root))
    value = -np.log(p[rows, root, family] + 1e-12).sum() + PENALTY * (w ** 2).sum() / 2
    p[rows, root, family] -= 1
    slope = np.einsum("nrf,nrd->fd", p, turned.reshape(len(turned), 12, 36))
    return value, np.concatenate([slope.ravel(), p.sum((0, 1))]) + PENALTY * w


def planted(r, kind, root, family):
    """Wrong chords of a kind, and which spans can have one."""
    if kind == "another root":
        return (root + r.integers(1, 12, len(root))) % 12, family, np.ones(len(root), bool)
    table = MISTAKES[kind]
    wrong = np.array([QUALITIES.index(table[q]) if q in table else -1 for q in QUALITIES])[family]
    return root, wrong, wrong >= 0


def rate(values, chorus):
    r = np.random.default_rng(0)
    ids = np.unique(chorus)
    groups = [values[chorus == i] for i in ids]
    draws = [np.concatenate([groups[i] for i in r.integers(0, len(ids), len(ids))]).mean() for _ in range(1000)]
    return f"{100 * values.mean():5.1f} ({100 * np.quantile(draws, .025):.1f}–{100 * np.quantile(draws, .975):.1f})"


def auc(right, wrong):
    both = np.concatenate([right, wrong])
    ranks = np.empty(len(both))
    ranks[np.argsort(both, kind="stable")] = np.arange(1, len(both) + 1)
    return (ranks[:len(right)].sum() - len(right) * (len(right) + 1) / 2) / (len(right) * len(wrong))


def report(w, root, family, turned, chorus):
    p = chances(w, turned)
    rows = np.arange(len(root))
    own = p[rows, root, family]
    best = p.reshape(len(p), -1).argmax(1)
    print(f"{len(root)} chords; likeliest {rate(best == root * len(QUALITIES) + family, chorus)} %, "
          f"its root {rate(best // len(QUALITIES) == root, chorus)} %")
    print(f"right: contradicted {rate(own < CONTRADICTED, chorus)} %, supported {rate(own >= SUPPORTED, chorus)} %")
    for edge in np.arange(0, 1, .1):
        there = (p >= edge) & (p < edge + .1)
        truth = np.zeros_like(p, bool)
        truth[rows, root, family] = True
        if there.sum() > 30:
            print(f"  chance {edge:.1f}–{edge + .1:.1f}: {100 * truth[there].mean():.1f} % right of {there.sum()}")
    r = np.random.default_rng(1)
    for kind in MISTAKES:
        other, quality, there = planted(r, kind, root, family)
        chance = p[rows, other, quality][there]
        print(f"{kind}: {there.sum()}, contradicted {rate(chance < CONTRADICTED, chorus[there])} %, "
              f"supported {rate(chance >= SUPPORTED, chorus[there])} %, AUC {auc(own, chance):.4f}")


def write(w, path):
    degrees = w[:-len(QUALITIES)].reshape(len(QUALITIES), 3, 12)
    with open(path, "w") as f:
        f.write("// Made by core/check/training/chords/weights.py. Do not edit.\n"
                '#include "core/check/ChordWeights.h"\n\n// clang-format off\nnamespace earwright {\n\nconst ChordWeights chordWeights{{{\n')
        for family in range(len(QUALITIES)):
            parts = ", ".join("{{" + ", ".join(f"{v:.4f}" for v in part) + "}}" for part in degrees[family])
            f.write(f"    {{{parts}, {w[family - len(QUALITIES)]:.4f}}},\n")
        f.write("}}};\n\n} // namespace earwright\n")


def main():
    work, train, test, printer = sys.argv[1:5]
    parts = [load(work, folder, printer) for folder in train.split(",")]
    root, family, turned = (np.concatenate([p[i] for p in parts]) for i in range(3))
    w = minimize(loss, np.zeros(len(QUALITIES) * 37), (root, family, turned), "L-BFGS-B", jac=True,
                 options={"maxiter": 500}).x
    print(f"learned from {len(root)} chords")
    for folder in test.split(","):
        print(f"--- {folder}")
        report(w, *load(work, folder, printer))
    if len(sys.argv) > 5:
        write(w, sys.argv[5])


if __name__ == "__main__":
    main()
