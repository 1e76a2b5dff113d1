#!/usr/bin/env python3
"""Scores `earwright-batch beats` on folders written by render.py, with mir_eval's beat F-measure (70 ms).

    EARWRIGHT_BATCH=path evaluate.py FOLDER... [--taps 0|2] [--fit]

Taps are true beats in the middle of the file, each off by a normal error of 15 ms. Prints a row a style and tempo, then
the mean with its 95 % interval (bootstrap over files), bars found right, and how well confidence tells right beats.
"""
import argparse
import collections
import glob
import os
import random
import subprocess

import mir_eval
import numpy as np


def table(text):
    rows = [line.split("\t") for line in text.strip().splitlines()[1:]]
    return np.array([[float(cell) for cell in row] for row in rows]).reshape(len(rows), -1)


def found(audio, truth, taps):
    words = [os.environ["EARWRIGHT_BATCH"], "beats", audio]
    if taps:
        rng = random.Random(audio)
        middle = len(truth) // 2
        times = [truth[middle + i, 0] + rng.gauss(0, 0.015) for i in range(taps)]
        words += ["--taps", ",".join(f"{time:.3f}" for time in times)]
    return table(subprocess.run(words, check=True, capture_output=True, text=True).stdout)


def interval(values, rng=np.random.default_rng(1)):
    draws = [rng.choice(values, len(values)).mean() for _ in range(1000)]
    return np.percentile(draws, [2.5, 97.5])


def calibration(pairs):
    """Mean gap between confidence and share of right beats in ten bins of equal count, in points."""
    pairs = np.array(sorted(pairs))
    bins = np.array_split(pairs, 10)
    return 100 * np.mean([abs(part[:, 0].mean() - part[:, 1].mean()) for part in bins]), bins


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("folders", nargs="+")
    options.add_argument("--taps", type=int, default=0)
    options.add_argument("--verbose", action="store_true")
    chosen = options.parse_args()
    scores, bars, pairs = collections.defaultdict(list), [], []
    for folder in chosen.folders:
        for audio in sorted(glob.glob(os.path.join(folder, "*.wav"))):
            with open(audio[:-4] + ".beats.tsv", encoding="utf-8") as file:
                truth = table(file.read())
            beats = found(audio, truth, chosen.taps)
            style, tempo, _ = os.path.basename(audio)[:-4].split("-")
            times = beats[:, 0] if len(beats) else np.array([])
            inside = times[(times > truth[0, 0] - 0.1) & (times < truth[-1, 0] + 0.1)]
            # mir_eval leaves out the first five seconds by its usual trimming.
            score = mir_eval.beat.f_measure(mir_eval.beat.trim_beats(truth[:, 0]), mir_eval.beat.trim_beats(inside))
            scores[style].append((float(tempo), score))
            for time, position, confidence in beats:
                if not truth[0, 0] - 0.1 < time < truth[-1, 0] + 0.1:
                    continue
                nearest = np.argmin(abs(truth[:, 0] - time))
                right = abs(truth[nearest, 0] - time) <= 0.07
                pairs.append((confidence, right))
                if right and position:
                    bars.append(position == truth[nearest, 1])
            if chosen.verbose:
                print(f"{os.path.basename(audio)}\t{score:.3f}\t{np.mean(beats[:, 2]):.2f}")
    for style, rows in scores.items():
        print(style + "\t" + "\t".join(f"{tempo:g}: {score:.3f}" for tempo, score in sorted(rows)))
    every = np.array([score for rows in scores.values() for _, score in rows])
    print(f"mean F {every.mean():.3f} (95 % {interval(every)[0]:.3f} to {interval(every)[1]:.3f}), {len(every)} files")
    if bars:
        print(f"bar position right where told: {100 * np.mean(bars):.1f} % of {len(bars)}")
    gap, bins = calibration(pairs)
    print(f"confidence off by {gap:.1f} points: " + " ".join(f"{b[:, 0].mean():.2f}/{b[:, 1].mean():.2f}" for b in bins))


if __name__ == "__main__":
    main()
